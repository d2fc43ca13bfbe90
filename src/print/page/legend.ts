import { isZero } from '../../measure/index.ts';
import type { MaterialPlan, SheetPlan } from '../../model/index.ts';
import { tag } from './cutNumbers.ts';
import type { Flow } from './flow.ts';
import { type Area, line, type Mark, rectangle } from './mark.ts';
import { flutesMark, grainMark, hatch } from './patterns.ts';
import { type Typeface, words, wordsAround } from './type.ts';

/** What the marks in the pictures mean, of those that stand there: each drawn as there, in two columns. */
export function legend(flow: Flow, plans: readonly MaterialPlan[]): void {
  const entries = allEntries.filter(({ isUsed }) => isUsed(plans));
  const rowMm = 7.4;
  const rows = Math.ceil(entries.length / 2);
  if (flow.room() < rows * rowMm + 8) flow.carryOn();
  flow.say('heading', 'What the marks mean');
  flow.down(1);
  const half = flow.width / 2;
  entries.forEach(({ draw, meaning }, index) => {
    const left = flow.column.left + (index < rows ? 0 : half);
    const top = flow.y() + (index % rows) * rowMm;
    const box = { left, right: left + 15, top: top + 0.8, bottom: top + rowMm - 1.2 };
    flow.add([
      ...draw(box, flow.face),
      words(flow.face, 'text', meaning, { x: left + 18.5, y: top + rowMm / 2 + 1.2 }),
    ]);
  });
  flow.down(rows * rowMm);
  flow.say('text', stopWords);
  flow.down(2);
}

const stopWords =
  '“Stop at 3, cut 5”: set a stop once, then cut five alike; the last has to end at the last mark that is named.';

type Draw = (box: Area, face: Typeface) => readonly Mark[];

interface Entry {
  readonly meaning: string;
  readonly draw: Draw;
  readonly isUsed: (plans: readonly MaterialPlan[]) => boolean;
}

const always = (): boolean => true;

/** Says whether any sheet has what a mark stands for. */
function onSheets(has: (sheet: SheetPlan) => boolean): Entry['isUsed'] {
  return (plans) => plans.some(({ sheets }) => sheets.some(has));
}

const allEntries: readonly Entry[] = [
  { meaning: 'a part: keep to this size', isUsed: always, draw: (box) => [rectangle('part outline', box)] },
  {
    meaning: 'a cut, made in step 2, from edge to edge',
    isUsed: always,
    draw: (box, face) => [
      line('cut', { x: box.left, y: middleY(box) }, { x: box.right, y: middleY(box) }),
      ...tag(face, '2', { x: middleX(box), y: middleY(box) }),
    ],
  },
  {
    meaning: 'datum: measure everything from here',
    isUsed: always,
    draw: (box) => [
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
  },
  {
    meaning: 'a mark, at both ends of the cut',
    isUsed: always,
    draw: (box, face) => [
      line('running mark', { x: middleX(box), y: box.top }, { x: middleX(box), y: box.top + 2 }),
      wordsAround(face, 'running mark', '4', { x: middleX(box), y: box.top + 3.9 }),
    ],
  },
  {
    meaning: 'strip A: write it on as it comes off',
    isUsed: onSheets(({ strips }) => strips.length > 0),
    draw: (box, face) => [wordsAround(face, 'strip name', 'A', { x: middleX(box), y: middleY(box) })],
  },
  {
    meaning: 'a part too small for words: see the list',
    isUsed: always,
    draw: (box, face) => [wordsAround(face, 'key', 'a', { x: middleX(box), y: middleY(box) })],
  },
  {
    meaning: 'left over and worth keeping',
    isUsed: onSheets(({ leftovers }) => leftovers.some(({ keep }) => keep !== undefined)),
    draw: (box) => [...hatch('keep hatch', box, 3.2, 'rising'), rectangle('keep outline', box)],
  },
  {
    meaning: 'scrap',
    isUsed: onSheets(({ leftovers }) => leftovers.some(({ keep }) => keep === undefined)),
    draw: (box) => hatch('scrap hatch', box, 1.4, 'falling'),
  },
  {
    meaning: 'trim: comes off when squaring up',
    isUsed: onSheets(({ sheet: { trim } }) =>
      [trim.left, trim.right, trim.bottom, trim.top].some((it) => !isZero(it)),
    ),
    draw: (box) => hatch('trim hatch', box, 0.8, 'rising'),
  },
  {
    meaning: 'the grain runs this way',
    isUsed: onSheets(({ sheet: { grain } }) => grain === 'length' || grain === 'width'),
    draw: (box) => grainMark({ x: middleX(box), y: middleY(box) }, 12, 'across'),
  },
  {
    meaning: 'the flutes run this way',
    isUsed: onSheets(({ sheet: { flutes } }) => flutes === 'length' || flutes === 'width'),
    draw: (box) => flutesMark({ x: middleX(box), y: middleY(box) }, 12, 'across'),
  },
];

function middleX({ left, right }: Area): number {
  return (left + right) / 2;
}

function middleY({ top, bottom }: Area): number {
  return (top + bottom) / 2;
}
