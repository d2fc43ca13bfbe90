import { compare, isPositive, larger, minus, smaller, sum, toFraction } from '../measure/index.ts';
import type { CutTree, Length, MaterialLayouts, PartKind } from '../model/index.ts';
import type { Flaw } from './verify.ts';

/**
 * Checks that filling took nothing from the layouts that were there before: the same sheets, each part in its
 * place, whatever is worth keeping still whole, and no more of a filler than is asked for or said to be possible.
 * That the cuts are sound is `verify`'s. Nothing here is shared with the packer.
 */
export function fillingFlaws(plain: MaterialLayouts, filled: MaterialLayouts): readonly Flaw[] {
  const run = checkingFilling(plain, filled);
  for (;;) {
    const next = run.next();
    if (next.done) return next.value;
  }
}

/** The same, with a pause after every layout. */
export function* checkingFilling(
  plain: MaterialLayouts,
  filled: MaterialLayouts,
): Generator<void, readonly Flaw[]> {
  const flaws: Flaw[] = [];
  const say = (what: string) => flaws.push({ layout: undefined, what });
  const parts = plain.demand.parts.length;
  const before = yield* sheetsCutAlike(plain, parts);
  const after = yield* sheetsCutAlike(filled, parts);
  for (const [key, times] of before) {
    const now = after.get(key) ?? 0;
    if (now !== times) say(`a layout was cut ${times} times, and is ${now} times with fillers`);
  }
  for (const key of after.keys()) if (!before.has(key)) say('a layout came about by filling');
  const kept = yield* keptFrom(plain);
  const stillKept = yield* keptFrom(filled);
  for (const [size, times] of kept) {
    if (stillKept.get(size) !== times)
      say(`${times} leftovers of ${size} are worth keeping, not all are kept`);
  }
  for (const size of stillKept.keys()) if (!kept.has(size)) say(`${size} is kept, but was not before`);
  flaws.push(...countFlaws(plain, filled));
  return flaws;
}

/** How many sheets are cut alike, by what is left when fillers are taken for leftovers. */
function* sheetsCutAlike(
  { layouts }: MaterialLayouts,
  parts: number,
): Generator<void, ReadonlyMap<string, number>> {
  const sheets = new Map<string, number>();
  for (const { sheet, tree, times } of layouts) {
    const key = `${sheet} ${withoutFillers(tree, parts)}`;
    sheets.set(key, (sheets.get(key) ?? 0) + times);
    yield;
  }
  return sheets;
}

/** What holds no part of before is a leftover, however it is cut up. */
function withoutFillers(tree: CutTree, parts: number): string {
  if (tree.kind === 'left over') return leftOver;
  if (tree.kind === 'part')
    return tree.part < parts ? `${tree.part}${tree.turned ? ' turned' : ''}` : leftOver;
  const near = withoutFillers(tree.near, parts);
  const far = tree.far === undefined ? 'nothing' : withoutFillers(tree.far, parts);
  const isBare = near === leftOver && (far === leftOver || far === 'nothing');
  return isBare ? leftOver : `(${tree.kind} ${toFraction(tree.at)} ${near} ${far})`;
}

const leftOver = 'left over';

function* keptFrom({
  demand: { sheets, rules },
  layouts,
}: MaterialLayouts): Generator<void, ReadonlyMap<string, number>> {
  const kept = new Map<string, number>();
  const { worthKeeping } = rules;
  if (worthKeeping === undefined) return kept;
  for (const { sheet: index, tree, times } of layouts) {
    const sheet = sheets[index];
    if (sheet === undefined) continue;
    const { trim } = sheet;
    const whole = [
      minus(sheet.length, sum(trim.left, trim.right)),
      minus(sheet.width, sum(trim.bottom, trim.top)),
    ] as const;
    for (const [length, width] of leftOverOf(tree, whole, rules.kerf)) {
      const [long, short] = [larger(length, width), smaller(length, width)];
      if (compare(long, worthKeeping.long) < 0 || compare(short, worthKeeping.short) < 0) continue;
      const key = `${toFraction(length)} × ${toFraction(width)} of sheet ${index}`;
      kept.set(key, (kept.get(key) ?? 0) + times);
    }
    yield;
  }
  return kept;
}

type Size = readonly [length: Length, width: Length];

function leftOverOf(root: CutTree, whole: Size, kerf: Length): readonly Size[] {
  const found: Size[] = [];
  const inHand: { readonly tree: CutTree; readonly size: Size }[] = [{ tree: root, size: whole }];
  for (let next = inHand.pop(); next !== undefined; next = inHand.pop()) {
    const { tree, size } = next;
    const [length, width] = size;
    if (tree.kind === 'left over') found.push(size);
    if (tree.kind === 'left over' || tree.kind === 'part') continue;
    const isRip = tree.kind === 'rip';
    const beyond = minus(minus(isRip ? width : length, tree.at), kerf);
    inHand.push({ tree: tree.near, size: isRip ? [length, tree.at] : [tree.at, width] });
    if (tree.far === undefined || !isPositive(beyond)) continue;
    inHand.push({ tree: tree.far, size: isRip ? [length, beyond] : [beyond, width] });
  }
  return found;
}

function countFlaws(
  plain: MaterialLayouts,
  { demand, layouts, fitted = [] }: MaterialLayouts,
): readonly Flaw[] {
  const flaws: Flaw[] = [];
  const say = (what: string) => flaws.push({ layout: undefined, what });
  const known = plain.demand.parts;
  known.forEach((part, i) => {
    if (demand.parts[i] !== part) say(`part ${i} is another than before`);
  });
  const fillers: readonly PartKind[] = demand.parts.slice(known.length);
  const fitting = fitted.map(({ kind }) => kind).filter(({ count }) => count > 0);
  if (fillers.length !== fitting.length || fillers.some((it, i) => it !== fitting[i])) {
    say('the parts behind those asked for are not the fillers that fit');
  }
  const onOne = layouts.reduce((most, { tree }) => Math.max(most, fillersIn(tree, known.length)), 0);
  for (const { kind, most, isEnough, stoppedAt } of fitted) {
    const name = `"${kind.members[0].label}"`;
    if (kind.members.reduce((all, { count }) => all + count, 0) !== kind.count) {
      say(`the labels of ${name} are not as many as fit`);
    }
    if (kind.count > most) say(`${kind.count} of ${name} fit, but at most ${most} are said to be possible`);
    if (stoppedAt !== undefined && (isEnough || kind.count >= most)) {
      say(`filling stopped before all of ${name} were in, yet no more are asked for or would fit`);
    }
    if (stoppedAt !== undefined && onOne > stoppedAt) {
      say(`${onOne} fillers are cut from a sheet, filling is said to have stopped at ${stoppedAt}`);
    }
    for (const { label, count, asFits } of kind.members) {
      if (asFits === undefined) say(`"${label}" is no filler`);
      else if (asFits.most !== undefined && count > asFits.most) {
        say(`${count} of "${label}" are cut, at most ${asFits.most} are asked for`);
      }
    }
  }
  return flaws;
}

function fillersIn(root: CutTree, parts: number): number {
  const inHand: CutTree[] = [root];
  let count = 0;
  for (let tree = inHand.pop(); tree !== undefined; tree = inHand.pop()) {
    if (tree.kind === 'part') count += tree.part < parts ? 0 : 1;
    if (tree.kind === 'part' || tree.kind === 'left over') continue;
    inHand.push(tree.near);
    if (tree.far !== undefined) inHand.push(tree.far);
  }
  return count;
}
