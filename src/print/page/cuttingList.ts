import type { MaterialPlan } from '../../model/index.ts';
import type { Flow } from './flow.ts';
import { line, rectangle } from './mark.ts';
import type { Sizes } from './sizes.ts';
import { leadingOf, words, wordsEndingAt, wrapped } from './type.ts';

/** Every part with its full name, size and count: to tick off when it is cut. */
export function cuttingList(flow: Flow, sizes: Sizes, plans: readonly MaterialPlan[]): void {
  const { face, column, width } = flow;
  flow.open('nothing to measure on this page');
  flow.bookmark('Cutting list');
  flow.say('title', 'Cutting list');
  flow.down(2);
  const leading = leadingOf('text');
  const at = { label: 7, part: 7 + width * 0.2, size: width * 0.84, count: width };
  const header = (): void => {
    const y = flow.y() + 3.6;
    flow.add([
      words(face, 'caption', 'label', { x: column.left + at.label, y }),
      words(face, 'caption', 'part', { x: column.left + at.part, y }),
      wordsEndingAt(face, 'caption', `length × width, ${sizes.units}`, { x: column.left + at.size, y }),
      wordsEndingAt(face, 'caption', 'count', { x: column.left + at.count, y }),
      line('page rule', { x: column.left, y: y + 1.6 }, { x: column.right, y: y + 1.6 }),
    ]);
    flow.down(6);
  };
  for (const { demand } of plans) {
    if (flow.room() < 30) flow.carryOn();
    flow.say('heading', `${demand.material.name}, ${sizes.fine(demand.material.thickness)} thick`);
    header();
    for (const kind of demand.parts) {
      for (const member of kind.members) {
        const labels = wrapped(face, 'part label', member.label, width * 0.2 - 3);
        const name = member.tile === undefined ? member.part : `${member.tile}: ${member.part}`;
        const note = member.note === undefined ? '' : ` (${member.note})`;
        const parts = wrapped(face, 'text', `${name}${note}`, width * 0.44);
        const height = Math.max(labels.length, parts.length) * leading;
        if (flow.room() < height + 1) {
          flow.carryOn();
          header();
        }
        const y = flow.y() + 3.9;
        const x = column.left;
        flow.add([
          rectangle('tick box', {
            left: x + 0.4,
            right: x + 3.9,
            top: flow.y() + 0.7,
            bottom: flow.y() + 4.2,
          }),
          ...labels.map((text, row) =>
            words(face, 'part label', text, { x: x + at.label, y: y + row * leading }),
          ),
          ...parts.map((text, row) => words(face, 'text', text, { x: x + at.part, y: y + row * leading })),
          wordsEndingAt(face, 'text', `${sizes.full(kind.length)}\u00a0×\u00a0${sizes.full(kind.width)}`, {
            x: x + at.size,
            y,
          }),
          wordsEndingAt(face, 'text', `${member.count}`, { x: x + at.count, y }),
          line(
            'table rule',
            { x, y: flow.y() + height + 0.5 },
            { x: column.right, y: flow.y() + height + 0.5 },
          ),
        ]);
        flow.down(height + 1);
      }
    }
    flow.down(5);
  }
}
