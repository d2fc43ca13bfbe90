import type { MaterialPlan, PartKind, PartMember } from '../../model/index.ts';
import type { Flow } from './flow.ts';
import { line, rectangle } from './mark.ts';
import type { Sizes } from './sizes.ts';
import { leadingOf, widthOf, words, wordsEndingAt, wrapped } from './type.ts';

/** Every part with its full name, size and count: to tick off when it is cut. */
export function cuttingList(flow: Flow, sizes: Sizes, plans: readonly MaterialPlan[]): void {
  flow.open('nothing to measure on this page');
  flow.bookmark('Cutting list');
  flow.say('title', 'Cutting list');
  flow.down(2);
  for (const { demand } of plans) {
    if (flow.room() < 30) flow.carryOn();
    flow.say('heading', `${demand.material.name}, ${sizes.fine(demand.material.thickness)} thick`);
    listHead(flow, sizes);
    for (const kind of demand.parts) for (const member of kind.members) listRow(flow, sizes, kind, member);
    flow.down(5);
  }
}

interface Columns {
  readonly label: number;
  readonly part: number;
  /** Right edges. */
  readonly size: number;
  readonly count: number;
}

function columnsOf({ column, width }: Flow): Columns {
  const at = (share: number): number => column.left + width * share;
  return { label: column.left + 7, part: column.left + 7 + width * 0.2, size: at(0.86), count: column.right };
}

function listHead(flow: Flow, sizes: Sizes): void {
  const { face, column } = flow;
  const at = columnsOf(flow);
  const y = flow.y() + 3.6;
  flow.add([
    words(face, 'caption', 'label', { x: at.label, y }),
    words(face, 'caption', 'part', { x: at.part, y }),
    wordsEndingAt(face, 'caption', `length × width, ${sizes.units}`, { x: at.size, y }),
    wordsEndingAt(face, 'caption', 'count', { x: at.count, y }),
    line('page rule', { x: column.left, y: y + 1.6 }, { x: column.right, y: y + 1.6 }),
  ]);
  flow.down(6);
}

/** Line by line, so that even the longest note goes over to the next page. */
function listRow(flow: Flow, sizes: Sizes, kind: PartKind, member: PartMember): void {
  const { face, column } = flow;
  const at = columnsOf(flow);
  const leading = leadingOf('text');
  const size = `${sizes.full(kind.length)}\u00a0×\u00a0${sizes.full(kind.width)}`;
  const isLongSize = widthOf(face, 'text', size) > (at.size - at.part) * 0.7;
  const partMm = isLongSize ? at.count - at.part : at.size - widthOf(face, 'text', size) - 4 - at.part;
  const labels = wrapped(face, 'part label', member.label, at.part - at.label - 3);
  const parts = wrapped(face, 'text', nameOf(kind, member), partMm);
  // A size with its second unit and its error may leave no room beside it: then the name begins below it.
  const partsFrom = isLongSize ? 1 : 0;
  const rows = Math.max(labels.length, parts.length + partsFrom);
  for (let row = 0; row < rows; row++) {
    if (flow.room() < leading + 1) {
      flow.carryOn();
      listHead(flow, sizes);
    }
    const y = flow.y() + 3.9;
    const [label, part] = [labels[row], parts[row - partsFrom]];
    if (label !== undefined) flow.add([words(face, 'part label', label, { x: at.label, y })]);
    if (part !== undefined) flow.add([words(face, 'text', part, { x: at.part, y })]);
    if (row === 0) {
      const [left, top] = [column.left + 0.4, flow.y() + 0.7];
      flow.add([
        rectangle('tick box', { left, right: left + 3.5, top, bottom: top + 3.5 }),
        wordsEndingAt(face, 'text', size, { x: at.size, y }),
        wordsEndingAt(face, 'text', `${member.count}`, { x: at.count, y }),
      ]);
    }
    flow.down(leading);
  }
  const y = flow.y() + 0.5;
  flow.add([line('table rule', { x: column.left, y }, { x: column.right, y })]);
  flow.down(1);
}

function nameOf(kind: PartKind, { tile, part, note }: PartMember): string {
  const name = tile === undefined ? part : `${tile}: ${part}`;
  const facts = [...(note === undefined ? [] : [note]), ...rulesOf(kind)];
  return facts.length === 0 ? name : `${name} (${facts.join('; ')})`;
}

/** What binds a part beside its size. */
function rulesOf({ grain, flutes, goodSide }: PartKind): readonly string[] {
  return [
    ...(grain === 'any' ? [] : [`grain along its ${grain}`]),
    ...(flutes === 'any' ? [] : [`flutes along its ${flutes}`]),
    ...(goodSide ? ['good side up'] : []),
  ];
}
