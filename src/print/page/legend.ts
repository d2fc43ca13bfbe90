import { isZero } from '../../measure/index.ts';
import type { Bevel, DrawnMark, DrawnPart, FoldWay, MaterialPlan, SheetPlan } from '../../model/index.ts';
import { tag } from './cutNumbers.ts';
import { datumCorner } from './datum.ts';
import type { Flow } from './flow.ts';
import { type Area, line, type Mark, type Point, rectangle } from './mark.ts';
import {
  bendAxis,
  bevel,
  centreLine,
  cutMade,
  dimension,
  foldLine,
  goodSideMark,
  pencilLine,
  rebate,
} from './partMarks.ts';
import { flutesMark, grainMark, hatch } from './patterns.ts';
import { type Typeface, widthOf, words, wordsAround } from './type.ts';

/** What a mark can mean. */
export type Meaning = keyof typeof entries;

/** What the marks in the pictures mean, of those that stand there: each drawn as there, in columns. */
export function legend(flow: Flow, used: ReadonlySet<Meaning>): void {
  // The keys of an object come without their type.
  let left = (Object.keys(entries) as Meaning[]).filter((it) => used.has(it));
  const widest = Math.max(0, ...left.map((it) => widthOf(flow.face, 'text', entries[it].says)));
  const columns = besideMm + widest + 3 <= flow.width / 2 ? 2 : 1;
  if (flow.room() < Math.min(6, left.length / columns) * rowMm + 8) flow.carryOn();
  flow.say('heading', 'What the marks mean');
  flow.down(1);
  while (left.length > 0) {
    const rows = Math.min(Math.ceil(left.length / columns), Math.max(1, Math.floor(flow.room() / rowMm)));
    drawRows(flow, left.slice(0, rows * columns), rows, flow.width / columns);
    flow.down(rows * rowMm);
    left = left.slice(rows * columns);
    if (left.length > 0) flow.carryOn();
  }
}

function drawRows(flow: Flow, shown: readonly Meaning[], rows: number, columnMm: number): void {
  for (const [index, meaning] of shown.entries()) {
    const { draw, says } = entries[meaning];
    const left = flow.column.left + Math.floor(index / rows) * columnMm;
    const top = flow.y() + (index % rows) * rowMm;
    const box = { left, right: left + 15, top: top + 0.8, bottom: top + rowMm - 1.2 };
    flow.add([
      ...draw(box, flow.face),
      words(flow.face, 'text', says, { x: left + besideMm, y: top + rowMm / 2 + 1.2 }),
    ]);
  }
}

/** From the left edge of a mark to its meaning. */
const besideMm = 18.5;
const rowMm = 7.4;

/** What stands in the pictures of these plans. */
export function meaningsIn(plans: readonly MaterialPlan[]): ReadonlySet<Meaning> {
  const sheets = plans.flatMap((plan) => plan.sheets);
  const onSheets = (meaning: Meaning, has: (sheet: SheetPlan) => boolean): readonly Meaning[] =>
    sheets.some(has) ? [meaning] : [];
  const drawn = sheets.flatMap(({ pieces }) => pieces.flatMap(({ member }) => member.drawn ?? []));
  const onShapes = (meaning: Meaning, has: (drawn: DrawnPart) => boolean): readonly Meaning[] =>
    drawn.some(has) ? [meaning] : [];
  const hasMark = ({ outline }: DrawnPart, kind: DrawnMark['kind']): boolean =>
    outline?.marks.some((it) => it.kind === kind) === true;
  const hasFold = ({ outline }: DrawnPart, way: FoldWay): boolean =>
    outline?.marks.some((it) => it.kind === 'fold' && it.way === way) === true;
  const hasEdge = (drawn: DrawnPart, what: 'bevels' | 'rebates', longFace: Bevel['longFace']): boolean =>
    drawn[what]?.some((it) => it.longFace === longFace) === true;
  const hasKerf = plans.some(({ demand: { rules } }) => !isZero(rules.kerf));
  const hasGoodSide = plans.some(({ demand: { parts } }) => parts.some(({ goodSide }) => goodSide));
  return new Set<Meaning>([
    ...(['part', 'first cut', 'later cut', 'datum', 'mark', 'small part'] as const),
    ...(hasKerf ? (['kerf'] as const) : []),
    ...onSheets('strip', ({ strips }) => strips.length > 0),
    ...onSheets('keep', ({ leftovers }) => leftovers.some(({ keep }) => keep !== undefined)),
    ...onSheets('scrap', ({ leftovers }) => leftovers.some(({ keep }) => keep === undefined)),
    ...onSheets('trim', ({ sheet: { trim } }) =>
      [trim.left, trim.right, trim.bottom, trim.top].some((it) => !isZero(it)),
    ),
    ...onSheets('grain', ({ sheet: { grain } }) => grain === 'length' || grain === 'width'),
    ...onSheets('flutes', ({ sheet: { flutes } }) => flutes === 'length' || flutes === 'width'),
    ...(hasGoodSide ? (['good side'] as const) : []),
    ...onShapes('shape', ({ outline }) => outline !== undefined),
    ...onShapes('pencil mark', (it) => it.leave !== undefined || hasMark(it, 'line')),
    ...onShapes('centre line', (it) => hasMark(it, 'centre line')),
    ...onShapes('fold', (it) => hasFold(it, 'away')),
    ...onShapes('valley fold', (it) => hasFold(it, 'toward')),
    ...onShapes('bend', ({ inclined }) => inclined?.how.kind === 'bend'),
    ...onShapes('bevel', (it) => hasEdge(it, 'bevels', 'good')),
    ...onShapes('bevel in view', (it) => hasEdge(it, 'bevels', 'other')),
    ...onShapes('rebate', (it) => hasEdge(it, 'rebates', 'good')),
    ...onShapes('rebate in view', (it) => hasEdge(it, 'rebates', 'other')),
  ]);
}

interface Entry {
  readonly says: string;
  /** The mark as in the pictures, in a box. */
  readonly draw: (box: Area, face: Typeface) => readonly Mark[];
}

const entries = {
  part: {
    says: 'a part: its label over its size',
    draw: (box: Area) => [rectangle('part outline', box)],
  },
  shape: {
    says: 'a shape: cut it out of its part last',
    draw: (box: Area) => [rectangle('part outline', box), archIn(box)],
  },
  'first cut': {
    says: 'first cut, in step 2: parts the sheet',
    draw: (box: Area, face: Typeface) => [
      line('first cut', left(box), right(box)),
      ...tag(face, '2', middle(box)),
    ],
  },
  'later cut': {
    says: 'later cut, in step 5: parts a strip',
    draw: (box: Area, face: Typeface) => [line('cut', left(box), right(box)), ...tag(face, '5', middle(box))],
  },
  'cut made': {
    says: 'a cut that is made',
    draw: (box: Area) => cutMade({ from: left(box), to: right(box) }),
  },
  kerf: {
    says: 'what the cut takes lies beyond its mark',
    draw: (box: Area, face: Typeface) => {
      const { x } = middle(box);
      const taken = { left: x, right: x + 1.6, top: box.top, bottom: box.bottom };
      return [
        ...hatch('trim hatch', taken, 0.6, 'rising'),
        line('cut', { x, y: box.top }, { x, y: box.bottom }),
        wordsAround(face, 'running mark', '4', { x: x - 3, y: middle(box).y }),
      ];
    },
  },
  datum: {
    says: 'datum: measure everything from here',
    draw: (box: Area) => {
      const corner = { x: box.left + 4, y: box.bottom - 3 };
      return [
        line('datum edge', corner, { x: box.right, y: corner.y }),
        line('datum edge', corner, { x: corner.x, y: box.top - 0.4 }),
        datumCorner(corner),
      ];
    },
  },
  mark: {
    says: 'a mark, at both ends of the cut',
    draw: (box: Area, face: Typeface) => {
      const { x } = middle(box);
      return [
        line('running mark', { x, y: box.top }, { x, y: box.top + 2 }),
        wordsAround(face, 'running mark', '4', { x, y: box.top + 3.9 }),
      ];
    },
  },
  dimension: {
    says: 'a size, over the edge it is of',
    draw: (box: Area, face: Typeface) =>
      dimension(
        face,
        '4',
        bottomEdge({ ...box, left: box.left + 1, right: box.right - 1, bottom: box.bottom - 2 }),
        1.2,
      ),
  },
  strip: {
    says: 'strip A: write it on as it comes off',
    draw: (box: Area, face: Typeface) => [wordsAround(face, 'strip name', 'A', middle(box))],
  },
  'small part': {
    says: 'a part too small for words: see the list',
    draw: (box: Area, face: Typeface) => [wordsAround(face, 'key', 'a', middle(box))],
  },
  keep: {
    says: 'left over and worth keeping',
    draw: (box: Area) => [...hatch('keep hatch', box, 3.2, 'rising'), rectangle('keep outline', box)],
  },
  scrap: { says: 'scrap', draw: (box: Area) => hatch('scrap hatch', box, 1.4, 'falling') },
  trim: {
    says: 'trim: comes off when squaring up',
    draw: (box: Area) => hatch('trim hatch', box, 0.8, 'rising'),
  },
  grain: {
    says: 'the grain runs this way',
    draw: (box: Area) => grainMark(middle(box), 12, 'across'),
  },
  flutes: {
    says: 'the flutes run this way',
    draw: (box: Area) => flutesMark(middle(box), 12, 'across'),
  },
  'good side': {
    says: 'the good side looks at you',
    draw: (box: Area) => goodSideMark(middle(box)),
  },
  'pencil mark': {
    says: 'draw this line, do not cut it',
    draw: (box: Area) => pencilLine({ from: left(box), to: right(box) }),
  },
  fold: {
    says: 'mountain: fold away from you',
    draw: (box: Area) => foldLine({ from: left(box), to: right(box) }),
  },
  'valley fold': {
    says: 'valley: fold toward you',
    draw: (box: Area) => [line('valley fold', left(box), right(box))],
  },
  bend: {
    says: 'bend it round this axis, as the list says',
    draw: (box: Area) => bendAxis({ from: left(box), to: right(box) }),
  },
  bevel: {
    says: 'slants in beneath: the long face lies up',
    draw: (box: Area) => [edgeOf(box), ...bevel(bottomEdge(box), 3.4, 'up')],
  },
  'bevel in view': {
    says: 'slants out beneath: the long face lies down',
    draw: (box: Area) => [edgeOf(box), ...bevel(bottomEdge(box), 3.4, 'down')],
  },
  rebate: {
    says: 'taken off beneath: the upper face stays',
    draw: (box: Area) => [edgeOf(box), ...rebate(bottomEdge(box), 3.4, 'up')],
  },
  'rebate in view': {
    says: 'taken off above: the lower face stays',
    draw: (box: Area) => [edgeOf(box), ...rebate(bottomEdge(box), 3.4, 'down')],
  },
  'centre line': {
    says: 'a middle, of a part or of a circle',
    draw: (box: Area) => centreLine({ from: left(box), to: right(box) }, 0),
  },
} satisfies Readonly<Record<string, Entry>>;

/** As high as its box, round at the top. */
function archIn({ left, right, top, bottom }: Area): Mark {
  const radius = (bottom - top) * 0.8;
  const centre = { x: (left + right) / 2, y: bottom };
  const corner = (index: number): Point => {
    const angle = (Math.PI * index) / 12;
    return { x: centre.x - radius * Math.cos(angle), y: centre.y - radius * Math.sin(angle) };
  };
  const rest = Array.from({ length: 12 }, (_, index) => corner(index + 1));
  return { kind: 'stroke', role: 'part outline', paths: [{ points: [corner(0), ...rest], closed: false }] };
}

function left(box: Area): Point {
  return { x: box.left, y: middle(box).y };
}

function right(box: Area): Point {
  return { x: box.right, y: middle(box).y };
}

function edgeOf(box: Area): Mark {
  const { from, to } = bottomEdge(box);
  return line('part outline', from, to);
}

function bottomEdge(box: Area): { readonly from: Point; readonly to: Point } {
  return { from: { x: box.left, y: box.bottom }, to: { x: box.right, y: box.bottom } };
}

function middle({ left: from, right: to, top, bottom }: Area): Point {
  return { x: (from + to) / 2, y: (top + bottom) / 2 };
}
