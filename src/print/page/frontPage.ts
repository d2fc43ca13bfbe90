import type { Batch, Diagnostic, MaterialPlan, SheetKind } from '../../model/index.ts';
import { cautionsFor } from '../cautions.ts';
import type { Flow } from './flow.ts';
import { legend } from './legend.ts';
import { rectangle } from './mark.ts';
import type { Sizes } from './sizes.ts';
import { leadingOf } from './type.ts';

/** What is made, what to take out, what to beware of, how to read the pictures. */
export function frontPage(
  flow: Flow,
  sizes: Sizes,
  batch: Batch,
  plans: readonly MaterialPlan[],
  diagnostics: readonly Diagnostic[],
): void {
  flow.open('nothing to measure on this page');
  flow.bookmark('Start here');
  flow.say('title', batch.title);
  for (const note of batch.notes) flow.say('text', note);
  flow.down(2);
  toMake(flow, batch);
  toTakeOut(flow, sizes, plans);
  const severe = diagnostics.filter(({ severity }) => severity !== 'note');
  if (severe.length > 0) {
    flow.say('heading', 'Mind');
    for (const { code, message } of severe) flow.say('text', `${code}  ${message}`, 4);
    flow.down(3);
  }
  legend(flow);
  flow.say('heading', 'Take care');
  for (const caution of cautionsFor(batch.materials)) flow.say('text', caution, 4);
}

function toMake(flow: Flow, { tiles }: Batch): void {
  if (tiles.length === 0) return;
  flow.say('heading', 'To make');
  for (const { label, count, footprint, note } of tiles) {
    ticked(flow, `${count} × ${label}${note === undefined ? '' : `: ${note}`}`);
    void footprint;
  }
  flow.down(3);
}

function toTakeOut(flow: Flow, sizes: Sizes, plans: readonly MaterialPlan[]): void {
  if (plans.length === 0) return;
  flow.say('heading', `Take out (sizes in ${sizes.unit})`);
  for (const plan of plans) {
    const { material } = plan.demand;
    const counts = new Map<SheetKind, number>();
    for (const { sheet, times } of plan.sheets) counts.set(sheet, (counts.get(sheet) ?? 0) + times);
    for (const [sheet, count] of counts) {
      ticked(
        flow,
        `${count} × ${material.name} ${sizes.fine(material.thickness)} thick, ${nameOf(sheet, sizes)}`,
      );
    }
    flow.say('text', proofOf(plan), 8);
  }
  flow.down(3);
}

function nameOf({ isOffcut, label, where, length, width }: SheetKind, sizes: Sizes): string {
  const called = label === undefined ? '' : ` ${label}`;
  return `${isOffcut ? 'offcut' : 'sheet'}${called} ${sizes.pair(length, width)}${where === undefined ? '' : ` (${where})`}`;
}

/** How good the number of sheets is known to be, in a sentence. */
export function proofOf({ proof, bound, unplaced, sheets }: MaterialPlan): string {
  const used = sheets.reduce((all, { times }) => all + times, 0);
  const short = unplaced.reduce((all, { count }) => all + count, 0);
  if (short > 0) return `Not enough: ${short} ${short === 1 ? 'part has' : 'parts have'} no sheet.`;
  const count = `${used} ${used === 1 ? 'sheet' : 'sheets'}`;
  switch (proof.kind) {
    case 'fewest':
      return `No way of cutting needs fewer than ${count}: ${bound.argument}.`;
    case 'within':
      return `${count}; no way of cutting needs fewer than ${bound.sheets}: ${bound.argument}.`;
    case 'none':
      return `${count}; nothing is claimed about fewer.`;
  }
}

function ticked(flow: Flow, text: string): void {
  if (flow.room() < leadingOf('text')) flow.carryOn();
  const { left } = flow.column;
  const y = flow.y();
  flow.add([rectangle('tick box', { left: left + 1, right: left + 4.2, top: y + 0.7, bottom: y + 3.9 })]);
  flow.say('text', text, 8);
}
