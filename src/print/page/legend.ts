import { tag } from './cutNumbers.ts';
import type { Flow } from './flow.ts';
import { type Area, line, type Mark, rectangle } from './mark.ts';
import { flutesMark, grainMark, hatch } from './patterns.ts';
import { type Typeface, words, wordsAround } from './type.ts';

/** What the marks in the pictures mean: each drawn as there, in two columns. */
export function legend(flow: Flow): void {
  const rowMm = 8.4;
  const rows = Math.ceil(entries.length / 2);
  if (flow.room() < rows * rowMm + 8) flow.carryOn();
  flow.say('heading', 'What the marks mean');
  flow.down(1);
  const half = flow.width / 2;
  entries.forEach(([draw, meaning], index) => {
    const left = flow.column.left + (index < rows ? 0 : half);
    const top = flow.y() + (index % rows) * rowMm;
    const box = { left, right: left + 15, top: top + 0.8, bottom: top + rowMm - 1.2 };
    flow.add([
      ...draw(box, flow.face),
      words(flow.face, 'text', meaning, { x: left + 18.5, y: top + rowMm / 2 + 1.2 }),
    ]);
  });
  flow.down(rows * rowMm + 2);
}

type Draw = (box: Area, face: Typeface) => readonly Mark[];

const entries: readonly (readonly [Draw, string])[] = [
  [(box) => [rectangle('part outline', box)], 'a part: keep to this size'],
  [
    (box, face) => [
      line('cut', { x: box.left, y: middleY(box) }, { x: box.right, y: middleY(box) }),
      ...tag(face, '2', { x: middleX(box), y: middleY(box) }),
    ],
    'a cut, made in step 2, from edge to edge',
  ],
  [
    (box) => [
      line('datum edge', { x: box.left + 3, y: box.bottom - 2 }, { x: box.right, y: box.bottom - 2 }),
      line('datum edge', { x: box.left + 3, y: box.bottom - 2 }, { x: box.left + 3, y: box.top }),
      {
        kind: 'patch',
        role: 'datum corner',
        points: [
          { x: box.left + 2.4, y: box.bottom - 1.4 },
          { x: box.left, y: box.bottom - 0.6 },
          { x: box.left + 1.6, y: box.bottom + 1.2 },
        ],
      },
    ],
    'datum: measure everything from here',
  ],
  [
    (box, face) => [
      line('running mark', { x: middleX(box), y: box.top }, { x: middleX(box), y: box.top + 2.4 }),
      wordsAround(face, 'running mark', '4', { x: middleX(box), y: box.top + 4.4 }),
    ],
    'a mark, at both ends of the cut',
  ],
  [
    (box, face) => [wordsAround(face, 'key', 'a', { x: middleX(box), y: middleY(box) })],
    'a part too small for words: see the list',
  ],
  [
    (box) => [...hatch('keep hatch', box, 3.2, 'rising'), rectangle('keep outline', box)],
    'left over and worth keeping',
  ],
  [(box) => hatch('scrap hatch', box, 1.4, 'falling'), 'scrap'],
  [(box) => hatch('trim hatch', box, 0.8, 'rising'), 'trim: comes off when squaring up'],
  [(box) => grainMark({ x: middleX(box), y: middleY(box) }, 12, 'across'), 'the grain runs this way'],
  [(box) => flutesMark({ x: middleX(box), y: middleY(box) }, 12, 'across'), 'the flutes run this way'],
];

function middleX({ left, right }: Area): number {
  return (left + right) / 2;
}

function middleY({ top, bottom }: Area): number {
  return (top + bottom) / 2;
}
