import { type Flow, startFlow } from '../../../src/print/page/flow.ts';
import type { Page } from '../../../src/print/page/index.ts';
import { legend, type Meaning } from '../../../src/print/page/legend.ts';
import { type Area, closed, rectangle } from '../../../src/print/page/mark.ts';
import {
  bevel,
  centreLine,
  cutMade,
  dimension,
  foldLine,
  goodSideMark,
  pencilLine,
  rebate,
} from '../../../src/print/page/partMarks.ts';
import { grainMark } from '../../../src/print/page/patterns.ts';
import { face } from './face.ts';

export const allMeanings: readonly Meaning[] = [
  'part',
  'shape',
  'first cut',
  'later cut',
  'cut made',
  'kerf',
  'datum',
  'mark',
  'dimension',
  'strip',
  'small part',
  'keep',
  'scrap',
  'trim',
  'grain',
  'flutes',
  'good side',
  'pencil mark',
  'fold',
  'valley fold',
  'bend',
  'bevel',
  'bevel in view',
  'rebate',
  'rebate in view',
  'centre line',
];

export const a4Paper = { widthMm: 210, heightMm: 297, marginMm: 10 } as const;

/** Every mark there is: the whole legend, and a part that bears what a part can bear. */
export function specimen(): readonly Page[] {
  const flow = startFlow(face, a4Paper, { title: 'All marks', made: 'specimen', alarm: undefined });
  flow.open('All marks');
  legend(flow, new Set(allMeanings));
  flow.down(12);
  const top = flow.y();
  partWithMarks(flow, { left: 50, right: 150, top, bottom: top + 26 });
  return flow.rest().map((page) => closed(page, flow.count()));
}

/**
 *     ┌──────────────┬────┐
 *     │ ◎      ╷     ┆fold│     bevel along the foot, centre line upright,
 *     │   ·····╷·····┆    │     a pencil line across, a cut made at the left
 *     └──────────────┴────┘
 */
function partWithMarks(flow: Flow, { left, right, top, bottom }: Area): void {
  const middle = (left + right) / 2;
  flow.add([
    rectangle('part outline', { left, right, top, bottom }),
    ...cutMade({ from: { x: left - 12, y: bottom }, to: { x: left - 12, y: top } }),
    ...foldLine({ from: { x: right - 18, y: bottom }, to: { x: right - 18, y: top } }),
    ...bevel({ from: { x: left, y: bottom }, to: { x: right, y: bottom } }, 4),
    ...bevel({ from: { x: left, y: top }, to: { x: left, y: bottom } }, 4, 'down'),
    ...rebate({ from: { x: right, y: top }, to: { x: left, y: top } }, 3, 'up'),
    ...centreLine({ from: { x: middle, y: bottom }, to: { x: middle, y: top } }),
    ...pencilLine({ from: { x: left + 8, y: top + 20 }, to: { x: right - 24, y: top + 20 } }),
    ...goodSideMark({ x: left + 8, y: top + 8 }),
    ...grainMark({ x: left + 20, y: top + 8 }, 12, 'across'),
    ...dimension(face, '8', { from: { x: right, y: top }, to: { x: left, y: top } }, 9),
    ...dimension(face, '4 3⁄4', { from: { x: right, y: bottom }, to: { x: right, y: top } }, 9),
    ...dimension(face, '1⁄4', { from: { x: left + 4, y: bottom }, to: { x: left + 10, y: bottom } }, 7),
  ]);
}
