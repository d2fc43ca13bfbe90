import { bareExact, inches, millimetres, rational, showExact, unitOfRule } from '../../measure/index.ts';
import type { FileUnits, Fix, Length, NonEmpty, Span, Spec, SpecFile } from '../../model/index.ts';
import { spliced } from '../../spec/index.ts';
import { type Standing, standingOf, verdictsOf } from './standing.ts';
import type { Reread, Texts } from './wishes.ts';

/**
 * What a file leaves unsaid is not the same in both units: a grid's slack and lip are 1/64 in or 0.4 mm, and the rule
 * at hand has sixteenths or half millimetres. Where a verdict hangs on that, it has to be said.
 */
interface Unsaid {
  readonly grid: readonly ('slack' | 'lip')[];
  readonly ruler: readonly Length[];
}

const nothing: Unsaid = { grid: [], ruler: [] };

/** What was written out of what a file had left unsaid, and the file. */
export interface SaidNow {
  readonly path: string;
  readonly text: string;
}

export interface WithImplied {
  readonly texts: Texts;
  readonly said: readonly SaidNow[];
}

/**
 * The texts, and with them as little of what was left unsaid as keeps the verdicts what they were; where that can't be,
 * as brings no new ones.
 *
 * @param texts  the files in other units
 * @param what   `all`, or the grid's alone where sizes are to be rounded: then the rule is of the new unit too
 */
export function withImplied(
  spec: Spec,
  texts: Texts,
  to: FileUnits,
  reread: Reread,
  what: 'all' | 'grid',
): WithImplied {
  const unsaid = unsaidIn(spec, to, what);
  const plain: WithImplied = { texts, said: [] };
  if ([...unsaid.values()].every(({ grid, ruler }) => grid.length + ruler.length === 0)) return plain;
  const before = verdictsIn(spec, what);
  const now = reread(texts).value;
  if (now === undefined || before === undefined) return plain;
  const grids = new Map([...unsaid].map(([file, it]) => [file, { ...it, ruler: [] }] as const));
  const rulers = new Map([...unsaid].map(([file, it]) => [file, { ...it, grid: [] }] as const));
  const tried: { readonly result: WithImplied; readonly verdicts: ReadonlySet<string> }[] = [];
  for (const some of [undefined, grids, rulers, unsaid]) {
    const result = some === undefined ? plain : saying(spec, now, texts, some);
    const verdicts = verdictsIn(some === undefined ? now : reread(result.texts).value, what);
    if (verdicts === undefined) continue;
    if (verdicts.size === before.size && [...verdicts].every((it) => before.has(it))) return result;
    tried.push({ result, verdicts });
  }
  return tried.find(({ verdicts }) => [...verdicts].every((it) => before.has(it)))?.result ?? plain;
}

/** The texts with another rule at hand, in the first file that may speak of it. */
export function withRuler(spec: Spec, texts: Texts, scales: NonEmpty<Length>, reread: Reread): WithImplied {
  const now = reread(texts).value;
  const file = spec.files.find((it) => it.kind !== 'shelf');
  if (now === undefined || file === undefined) return { texts, said: [] };
  return saying(spec, now, texts, new Map([[file, { grid: [], ruler: scales }]]));
}

function unsaidIn(spec: Spec, to: FileUnits, what: 'all' | 'grid'): ReadonlyMap<SpecFile, Unsaid> {
  const speaksOfRuler = spec.files.some(({ print }) => print?.ruler !== undefined);
  const first = spec.files.find((it) => it.kind !== 'shelf');
  return new Map(
    spec.files.map((file) => {
      const isTurned = file.units !== undefined && file.units !== to;
      if (!isTurned) return [file, nothing] as const;
      const ruler = what === 'grid' || speaksOfRuler || file !== first ? [] : [usualRule(file.units)];
      return [file, { grid: file.tiles.length === 0 ? [] : unsaidByGrid(file), ruler }] as const;
    }),
  );
}

function unsaidByGrid(file: SpecFile): readonly ('slack' | 'lip')[] {
  const seen = new Set([file]);
  for (const it of seen) for (const used of it.uses) seen.add(used);
  return (['slack', 'lip'] as const).filter((key) =>
    [...seen].every(({ grid }) => grid?.[key] === undefined),
  );
}

function usualSlack(units: FileUnits): Length {
  return units === 'in' ? inches(rational(1n, 64n)) : millimetres(rational(4n, 10n));
}

function usualRule(units: FileUnits | undefined): Length {
  return units === 'in' ? inches(rational(1n, 16n)) : millimetres(rational(1n, 2n));
}

/** @param what  of the grid alone, the rule at hand is left out */
function verdictsIn(spec: Spec | undefined, what: 'all' | 'grid'): ReadonlySet<string> | undefined {
  const standing: Standing | undefined = spec && standingOf(spec).standing;
  const told = standing?.fits.flatMap(verdictsOf).filter((it) => what === 'all' || !it.includes('as marked'));
  return told && new Set(told);
}

/** @param now  the files as they are now, in the same order */
function saying(spec: Spec, now: Spec, texts: Texts, unsaid: ReadonlyMap<SpecFile, Unsaid>): WithImplied {
  const result = new Map(texts);
  const told: SaidNow[] = [];
  for (const [index, file] of spec.files.entries()) {
    const again = now.files[index];
    const { grid, ruler } = unsaid.get(file) ?? nothing;
    if (again?.units === undefined) continue;
    const { units } = again;
    const slack = bareExact(usualSlack(file.units ?? units), units);
    const fixes = [
      sectionSaying(
        'grid',
        again,
        grid.map((key) => `${key}: ${slack}`),
      ),
      sectionSaying('print', again, ruler.length === 0 ? [] : [`ruler: ${scalesText(ruler, units)}`]),
    ].filter((it) => it !== undefined);
    if (fixes.length === 0) continue;
    result.set(file, spliced(again.source, fixes));
    told.push({
      path: file.source.path,
      text: fixes.map((it) => it.text.replace(/^[\s,]+|\s+$/gu, '')).join(', '),
    });
  }
  return { texts: result, said: told };
}

function scalesText(scales: readonly Length[], units: FileUnits): string {
  const texts = scales.map((it) =>
    unitOfRule(it) === units ? bareExact(it, units) : showExact(it, unitOfRule(it)),
  );
  return texts.length === 1 ? (texts[0] ?? '') : `[${texts.join(', ')}]`;
}

/**
 * The edit by which a section says more; undefined where there is nothing to say, or no place for it can be told.
 */
function sectionSaying(section: 'grid' | 'print', file: SpecFile, said: readonly string[]): Fix | undefined {
  const { source, unitsAt } = file;
  const known = file[section];
  if (said.length === 0) return undefined;
  if (known !== undefined) return intoMap(known.at, said);
  if (unitsAt === undefined) return undefined;
  // A line of its own below that of the units, as far in as they are.
  const start = source.text.lastIndexOf('\n', unitsAt.start - 1) + 1;
  const indent = /^ *(?=units *:)/u.exec(source.text.slice(start))?.[0];
  if (indent === undefined) return undefined;
  const end = lineEnd(source.text, unitsAt.end);
  const at: Span = { source, start: end, end };
  return { span: at, text: `${lineBreak(source.text)}${indent}${section}: { ${said.join(', ')} }` };
}

function intoMap({ source, start, end }: Span, said: readonly string[]): Fix {
  const written = source.text.slice(start, end);
  if (written.startsWith('{')) {
    // `{ square: 3, tallest: 2 }`, also with a comma at its end, or on several lines.
    const last = written.slice(1, written.lastIndexOf('}')).trimEnd();
    const place = start + 1 + last.length;
    const before = last === '' || last.endsWith(',') ? ' ' : ', ';
    return { span: { source, start: place, end: place }, text: before + said.join(', ') };
  }
  // Before the first key of a block, whose column all others have.
  const lineStart = source.text.lastIndexOf('\n', start - 1) + 1;
  const indent = ' '.repeat([...source.text.slice(lineStart, start)].length);
  const lines = said.map((it) => `${it}${lineBreak(source.text)}${indent}`).join('');
  return { span: { source, start, end: start }, text: lines };
}

function lineBreak(text: string): string {
  return text.includes('\r\n') ? '\r\n' : '\n';
}

function lineEnd(text: string, from: number): number {
  const found = text.slice(from).search(/\r?\n|\r/u);
  return found < 0 ? text.length : from + found;
}
