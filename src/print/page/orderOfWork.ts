import type { MaterialPlan } from '../../model/index.ts';
import { hasOrder, orderLead, orderRows } from '../orderWords.ts';
import type { Chunk } from './cuttingList.ts';
import { columnsOf, drawAt, type Entry, entryOf, halfOf, heightOfAll, inTwoColumns } from './entries.ts';
import type { Flow } from './flow.ts';
import { rectangle } from './mark.ts';
import type { Sizes } from './sizes.ts';
import { leadingOf, shortened, words } from './type.ts';

/**
 * The order of work over all pictures of a material: what is set out, and which steps it serves. Nothing where
 * the steps of the pictures, one after the other, need no more settings.
 */
export function orderOfWork(flow: Flow, sizes: Sizes, plan: MaterialPlan): readonly Chunk[] {
  if (!hasOrder(plan)) return [];
  const { face, column } = flow;
  const name = shortened(face, 'heading', headingOf(plan), flow.width) ?? '';
  const lead = entryOf(face, orderLead(plan), 0, flow.width);
  const rows = orderRows(plan, { length: sizes.mark, range: '–' }).flatMap(({ set, cut }) =>
    ticked(flow, `Set ${set}: ${cut}`),
  );
  const headMm = leadingOf('heading');
  return [
    {
      heightMm: headMm + heightOfAll(lead) + columnsOf(rows).heightMm,
      isFirst: true,
      atTopMm: 0,
      draw: () => {
        flow.add([words(face, 'heading', name, { x: column.left, y: flow.y() + headMm * 0.76 })]);
        drawAt(flow, lead, column.left, flow.y() + headMm);
        flow.down(headMm + heightOfAll(lead));
        inTwoColumns(flow, rows, headingOf(plan));
      },
    },
  ];
}

function headingOf({ demand, order, settingsByPicture }: MaterialPlan): string {
  const settings = order.length === 1 ? '1 setting' : `${order.length} settings`;
  return `Order of work: ${demand.material.name}, ${settings} (${settingsByPicture} picture by picture)`;
}

function ticked(flow: Flow, text: string): readonly Entry[] {
  return entryOf(flow.face, text, 7, halfOf(flow), ({ x, y }) => [
    rectangle('tick box', { left: x + 0.4, right: x + 3.9, top: y + 0.7, bottom: y + 4.2 }),
  ]);
}
