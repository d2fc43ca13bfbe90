import type { Batch, Diagnostic, MaterialPlan, SheetKind } from '../../model/index.ts';
import { cautionsFor } from '../cautions.ts';
import { keepingWords } from '../keepingWords.ts';
import { hasRounded, roundedWords } from '../roundedWords.ts';
import { needWords, sheetWord } from '../saying.ts';
import { sliceWords } from '../sliceWords.ts';
import { columnGap, drawAt, type Entry, entryOf, heightOfAll, inTwoColumns } from './entries.ts';
import type { Flow } from './flow.ts';
import { legend, meaningsIn } from './legend.ts';
import { rectangle } from './mark.ts';
import { type Sizes, withFractions } from './sizes.ts';
import { leadingOf, shortened, words, wrapped } from './type.ts';

/** What is made, what to take out, what to beware of, how to read the pictures. */
export function frontPage(
  flow: Flow,
  sizes: Sizes,
  batch: Batch,
  plans: readonly MaterialPlan[],
  diagnostics: readonly Diagnostic[],
): void {
  flow.open(batch.title);
  flow.bookmark('Start here');
  if (shortened(flow.face, 'statement', batch.title, flow.width) !== batch.title)
    flow.say('title', batch.title);
  const keeping = keepingWords(plans, batch.settings.firstUnit);
  for (const note of [...batch.notes, ...(keeping === undefined ? [] : [keeping])]) flow.say('text', note);
  flow.down(1);
  const severe = diagnostics.filter(({ severity }) => severity !== 'note');
  if (severe.length > 0) {
    flow.say('heading', 'Mind');
    for (const it of severe) fault(flow, it);
    flow.down(2);
  }
  makeAndTakeOut(flow, sizes, batch, plans);
  legend(flow, meaningsIn(plans));
  flow.say('text', stopWords);
  for (const it of figuresWords(sizes, plans)) flow.say('text', it);
  flow.down(2);
  flow.say('heading', 'Take care');
  inTwoColumns(flow, cautionRows(flow, batch));
  flow.down(2);
}

/** The code stands by itself at the left, so that the eye finds where each fault begins. */
function fault(flow: Flow, { code, message }: Diagnostic): void {
  const leading = leadingOf('text');
  if (flow.room() < leading) flow.carryOn();
  flow.add([words(flow.face, 'text', code, { x: flow.column.left, y: flow.y() + leading * 0.76 })]);
  flow.say('text', withFractions(message), 11);
}

const stopWords =
  '“Stop at 3, cut 5”: set a stop once, then cut five alike; the last has to end at the last mark that is named.';

/** How figures are to be read that no rule has, where the sheets or the lists have such. */
function figuresWords(sizes: Sizes, plans: readonly MaterialPlan[]): readonly string[] {
  const listed = plans.flatMap(({ demand }) =>
    demand.parts.flatMap(({ length, width }) => [sizes.full(length), sizes.full(width)]),
  );
  const onSheets = plans.flatMap(({ sheets }) =>
    sheets.flatMap(({ sheet, steps }) => [
      sizes.pair(sheet.length, sheet.width),
      ...steps.flatMap((step) =>
        step.kind === 'rip' || step.kind === 'crosscut'
          ? [...step.marks, ...step.runs.map(({ size }) => size)].map(sizes.mark)
          : [],
      ),
    ]),
  );
  const all = [...listed, ...onSheets];
  return [
    ...(all.some((it) => /full|scant/u.test(it)) ? [besideMarkWords] : []),
    ...(hasRounded(all) ? [roundedWords] : []),
  ];
}

const besideMarkWords =
  '“Full”: a little more than the mark of your rule; “scant”: a little less; by how much stands in lists and steps.';

/** What is made at the left, what it takes at the right; one under the other where that is too long. */
function makeAndTakeOut(flow: Flow, sizes: Sizes, batch: Batch, plans: readonly MaterialPlan[]): void {
  const makeMm = flow.width * 0.36;
  const takeMm = flow.width - makeMm - columnGap;
  const made = madeWords(batch);
  const taken = takenRows(flow, sizes, plans, takeMm);
  const beside = made.flatMap((text) => ticked(flow, text, makeMm));
  const takeHead = `Take out (sizes in ${sizes.unit})`;
  const highest = Math.max(heightOfAll(beside), heightOfAll(taken)) + leadingOf('heading');
  const fits = beside.length > 0 && taken.length > 0 && highest <= flow.room();
  if (fits && wrapped(flow.face, 'heading', takeHead, takeMm).length === 1) {
    const right = flow.column.left + makeMm + columnGap;
    const y = flow.y() + leadingOf('heading') * 0.76;
    flow.add([
      words(flow.face, 'heading', 'To make', { x: flow.column.left, y }),
      words(flow.face, 'heading', takeHead, { x: right, y }),
    ]);
    const top = flow.y() + leadingOf('heading');
    drawAt(flow, beside, flow.column.left, top);
    drawAt(flow, taken, right, top);
    flow.down(highest + 3);
    return;
  }
  if (made.length > 0) {
    flow.say('heading', 'To make');
    inTwoColumns(
      flow,
      made.flatMap((text) => ticked(flow, text, (flow.width - columnGap) / 2)),
    );
    flow.down(3);
  }
  if (taken.length > 0) {
    flow.say('heading', takeHead);
    inTwoColumns(flow, takenRows(flow, sizes, plans, (flow.width - columnGap) / 2));
    flow.down(3);
  }
}

function madeWords({ tiles, materials }: Batch): readonly string[] {
  const loose = new Map<string, number>();
  for (const { tile, label, count } of materials.flatMap(({ parts }) => parts.flatMap((it) => it.members))) {
    if (tile === undefined) loose.set(label, (loose.get(label) ?? 0) + count);
  }
  return [
    ...tiles
      .filter(({ count }) => count > 0)
      .map(({ label, letters, count, note }) => {
        const key = letters === label ? '' : ` (${letters})`;
        return `${count} × ${label}${key}${note === undefined ? '' : `: ${note}`}`;
      }),
    ...[...loose].map(([label, count]) => `${count} × ${label}`),
  ];
}

function takenRows(
  flow: Flow,
  sizes: Sizes,
  plans: readonly MaterialPlan[],
  widthMm: number,
): readonly Entry[] {
  return plans.flatMap((plan) => {
    const { material } = plan.demand;
    const counts = new Map<SheetKind, number>();
    for (const { sheet, times } of plan.sheets) counts.set(sheet, (counts.get(sheet) ?? 0) + times);
    const sheets = [...counts].flatMap(([sheet, count]) => {
      const what = `${material.name} ${sizes.fine(material.thickness)} thick, ${nameOf(sheet, sizes)}`;
      return ticked(flow, `${count} × ${what}`, widthMm);
    });
    const slices = sliceWords(plan, { pair: sizes.pair, thickness: sizes.fine }).flatMap((it) =>
      ticked(flow, it, widthMm),
    );
    return [...slices, ...sheets, ...entryOf(flow.face, `${knownOf(plan)}.`, 7, widthMm)];
  });
}

function nameOf(sheet: SheetKind, sizes: Sizes): string {
  const { label, where, length, width } = sheet;
  const called = label === undefined ? '' : ` ${label}`;
  return `${sheetWord(sheet)}${called} ${sizes.pair(length, width)}${where === undefined ? '' : ` (${where})`}`;
}

function knownOf(plan: MaterialPlan): string {
  const missing = plan.unplaced.map(({ member, count }) =>
    count === 1 ? member.label : `${count}\u00a0×\u00a0${member.label}`,
  );
  if (missing.length > 0) return `${plan.demand.material.name}: on no sheet: ${missing.join(', ')}`;
  return needWords(plan);
}

function cautionRows(flow: Flow, { materials, fittings }: Batch): readonly Entry[] {
  const half = (flow.width - columnGap) / 2;
  return cautionsFor(materials, fittings).flatMap((caution) => entryOf(flow.face, caution, 0, half));
}

function ticked(flow: Flow, text: string, widthMm: number): readonly Entry[] {
  return entryOf(flow.face, text, 7, widthMm, ({ x, y }) => [
    rectangle('tick box', { left: x + 0.4, right: x + 3.9, top: y + 0.7, bottom: y + 4.2 }),
  ]);
}
