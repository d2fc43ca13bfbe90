import { toDrawnMm } from '../../measure/index.ts';
import type { MaterialPlan, NonEmpty, SheetPlan } from '../../model/index.ts';
import { hasOrder } from '../orderWords.ts';
import { blockOf, leastHeightMm, stepsOf } from './block.ts';
import { type Chunk, cuttingList } from './cuttingList.ts';
import type { Flow } from './flow.ts';
import { line, type Pausing } from './mark.ts';
import { orderOfWork } from './orderOfWork.ts';
import { type PageOf, pageBreaks, type Unit, type Way } from './pageBreaks.ts';
import { guttersOf } from './picture.ts';
import type { Sizes } from './sizes.ts';

/**
 * The cutting lists, and each distinct layout once: its picture to scale with its steps, as many on a page
 * as read well. The lists stand together before the pictures, unless each with its own material saves a page;
 * where there are many pictures, that is not tried, and each is drawn and let go as soon as its page is settled.
 */
export function* workPages(flow: Flow, sizes: Sizes, plans: readonly MaterialPlan[]): Pausing {
  const firstOrder = plans.find(hasOrder);
  const lists = plans.map((plan) => [
    ...listsOf(flow, sizes, plan),
    ...orderOf(flow, sizes, plan, firstOrder),
  ]);
  yield;
  if (plans.length === 1 || plans.reduce((all, { sheets }) => all + sheets.length, 0) > mostHeld)
    return yield* drawnAsTheyCome(flow, sizes, plans, lists.flat());
  const ofMaterials: DraftUnit[][] = [];
  for (const [index, plan] of plans.entries()) {
    const pictures: DraftUnit[] = [];
    for (const sheet of plan.sheets) {
      pictures.push(pictureOn(flow, sizes, plan, sheet));
      yield;
    }
    ofMaterials[index] = pictures;
  }
  const listsFirst = [...lists.flat(), ...ofMaterials.flat()];
  const byMaterial = plans.flatMap((_, index) => [...(lists[index] ?? []), ...(ofMaterials[index] ?? [])]);
  const { units, pages } = yield* settled(flow, flow.room(), [listsFirst, byMaterial]);
  yield* drawPages(flow, units, pages);
}

/** So many pictures may wait until all are composed. */
const mostHeld = 40;
/** So many units may wait for what comes behind them. */
const mostWaiting = 24;

/**
 * Units settle as soon as it is plain that the next can't stand on a page with the last: what comes behind has no
 * say in how they are set. Where that takes long, the first half of them does not wait for it.
 */
function* drawnAsTheyCome(
  flow: Flow,
  sizes: Sizes,
  plans: readonly MaterialPlan[],
  lists: readonly DraftUnit[],
): Pausing {
  let waiting: DraftUnit[] = [...lists];
  let roomMm = flow.room();
  const settle = function* (share: number): Pausing {
    const { units, pages } = yield* settled(flow, roomMm, [waiting]);
    const drawn = pages.slice(0, Math.ceil(pages.length * share));
    yield* drawPages(flow, units, drawn);
    waiting = units.slice(drawn.flat().length);
    roomMm = 0;
  };
  for (const plan of plans) {
    for (const sheet of plan.sheets) {
      const next = pictureOn(flow, sizes, plan, sheet);
      yield;
      const last = waiting[waiting.length - 1];
      if (last !== undefined && leastMm(last) + next.gapMm + leastMm(next) > flow.fullMm) yield* settle(1);
      waiting.push(next);
      if (waiting.length >= mostWaiting) yield* settle(1 / 2);
    }
  }
  yield* settle(1);
}

function leastMm({ ways }: DraftUnit): number {
  return Math.min(...ways.map(({ heightMm }) => heightMm));
}

interface DraftUnit extends Unit {
  readonly bookmark: string | undefined;
  /** Set apart from what stands above it by a line. */
  readonly isApart: boolean;
  readonly ways: readonly (DrawnWay | Sketch)[];
}

interface DrawnWay extends Way {
  readonly draw: () => void;
}

/** A way whose picture is not composed yet: it is at least so high, and costs at least so much. */
interface Sketch extends Way {
  /** Undefined where it turns out to cost too many words. */
  readonly compose: () => DrawnWay | undefined;
}

interface Session {
  readonly units: readonly DraftUnit[];
  readonly pages: readonly PageOf[];
}

/** After so many, the rest is composed in one go. */
const mostRounds = 6;

/**
 * Composes only the pictures that the pages want: breaks pages with what is known, composes the sketches that
 * were chosen, and breaks again, until none is chosen. What a sketch promises it can only fail to keep, so
 * the pages are those that composing all of them would give.
 *
 * @param roomMm  what is left of the page that is open
 * @param orders  in which the units may stand; the first, unless another takes fewer pages
 */
function* settled(flow: Flow, roomMm: number, orders: NonEmpty<DraftUnits>): Pausing<Session> {
  const known = new Map<Sketch, DrawnWay | undefined>();
  for (let round = 0; ; round++) {
    const [first, ...others] = orders.map((units): Session => {
      const composedUnits = composed(units, known);
      return { units: composedUnits, pages: pageBreaks(composedUnits, roomMm, flow.fullMm) };
    });
    const session = others.reduce((a, b) => (b.pages.length < a.pages.length ? b : a), first!); // one is given
    const chosen = chosenOf(session).filter(isSketch);
    if (chosen.length === 0) return session;
    const wanted = round < mostRounds ? chosen : session.units.flatMap(({ ways }) => ways.filter(isSketch));
    for (const sketch of wanted) {
      known.set(sketch, sketch.compose());
      yield;
    }
  }
}

type DraftUnits = readonly DraftUnit[];

function composed(units: DraftUnits, known: ReadonlyMap<Sketch, DrawnWay | undefined>): DraftUnits {
  return units.map((unit) => ({
    ...unit,
    ways: unit.ways.flatMap((way) => (isSketch(way) && known.has(way) ? (known.get(way) ?? []) : way)),
  }));
}

function chosenOf({ units, pages }: Session): DraftUnit['ways'] {
  return pages.flat().flatMap((way, index) => units[index]?.ways[way] ?? []);
}

function isSketch(way: DrawnWay | Sketch): way is Sketch {
  return 'compose' in way;
}

function* drawPages(flow: Flow, units: DraftUnits, pages: readonly PageOf[]): Pausing {
  let next = 0;
  for (const [number, page] of pages.entries()) {
    const isContinued = units[next]?.bookmark === undefined;
    if (number > 0) flow.open(isContinued ? 'cutting list, continued' : 'cutting list');
    for (const [index, chosen] of page.entries()) {
      const unit = units[next++];
      const way = unit?.ways[chosen];
      if (unit === undefined || way === undefined || isSketch(way)) continue;
      if (index > 0) {
        if (unit.isApart) partition(flow, unit.gapMm);
        flow.down(unit.gapMm);
      }
      if (unit.bookmark !== undefined) flow.bookmark(unit.bookmark);
      if (way.scale !== undefined) flow.drawnAt(way.scale);
      way.draw();
      yield;
    }
  }
}

/** Parts two pictures, so that each keeps its steps. */
function partition(flow: Flow, gapMm: number): void {
  const { left, right } = flow.column;
  const y = flow.y() + gapMm / 2 - 0.5;
  flow.add([line('page rule', { x: left, y }, { x: right, y })]);
}

function listsOf(flow: Flow, sizes: Sizes, plan: MaterialPlan): readonly DraftUnit[] {
  const bookmark = `Cutting list: ${plan.demand.material.name}`;
  return cuttingList(flow, sizes, plan).map((chunk) => listUnit(chunk, bookmark));
}

function orderOf(
  flow: Flow,
  sizes: Sizes,
  plan: MaterialPlan,
  first: MaterialPlan | undefined,
): readonly DraftUnit[] {
  const bookmark = `Order of work: ${plan.demand.material.name}`;
  return orderOfWork(flow, sizes, plan, { isFirst: plan === first }).map((chunk) =>
    listUnit(chunk, bookmark),
  );
}

function listUnit({ heightMm, isFirst, atTopMm, draw }: Chunk, bookmark: string): DraftUnit {
  return {
    gapMm: isFirst ? 3 : 0,
    atTopMm,
    isApart: false,
    bookmark: isFirst ? bookmark : undefined,
    ways: [{ scale: undefined, heightMm, loss: 0, draw }],
  };
}

function pictureOn(flow: Flow, sizes: Sizes, plan: MaterialPlan, sheet: SheetPlan): DraftUnit {
  return {
    gapMm: 7,
    atTopMm: 0,
    isApart: true,
    bookmark: sheet === plan.sheets[0] ? plan.demand.material.name : undefined,
    ways: waysOf(flow, sizes, plan, sheet),
  };
}

const scales = [1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100, 200, 500, 1000];
/** A picture with so many pieces needs all the room there is. */
const crowded = 120;
/** So much coarser than it could be, no picture is drawn for the sake of the others. */
const coarsest = 2;
/** For the sake of others. That a picture has all its steps beside it is worth any number of letters. */
const mostMoreLetters = 2;

/** The largest picture that leaves room for its steps, and smaller ones that cost few of the words in it. */
function waysOf(flow: Flow, sizes: Sizes, plan: MaterialPlan, sheet: SheetPlan): DraftUnit['ways'] {
  const own = ownScale(flow, sizes, sheet);
  const steps = stepsOf(flow.face, sizes, sheet);
  const { keyed, ...first } = blockOf(flow, sizes, plan, steps, own);
  const largest = { ...first, loss: 0 };
  const fits = first.heightMm <= flow.fullMm;
  if (sheet.pieces.length > crowded && fits) return [largest];
  const smaller = scales.filter((scale) => scale > own && scale <= own * coarsest);
  const leastHeight = (scale: number): number => leastHeightMm(flow, sizes, steps, scale, keyed);
  const smallest = smaller[smaller.length - 1];
  // What is higher than a page even so stands alone, and then as large as it can be.
  if (!fits && (smallest === undefined || leastHeight(smallest) > flow.fullMm)) return [largest];
  return [
    largest,
    ...smaller.map((scale): Sketch => {
      const loss = scale / own - 1;
      return {
        scale,
        heightMm: leastHeight(scale),
        loss,
        compose: () => {
          const block = blockOf(flow, sizes, plan, steps, scale);
          const moreLetters = Math.max(0, block.keyed.length - keyed.length);
          return fits && moreLetters > mostMoreLetters
            ? undefined
            : { ...block, loss: loss + moreLetters * 0.25 };
        },
      };
    }),
  ];
}

/** The largest scale at which the sheet leaves room for its marks and for steps. */
function ownScale(flow: Flow, sizes: Sizes, plan: SheetPlan): number {
  const { left, right } = guttersOf(flow.face, sizes, plan);
  const width = flow.width - left - right;
  const height = flow.fullMm * 0.52;
  const last = scales[scales.length - 1] ?? 1;
  const fits = (scale: number): boolean =>
    toDrawnMm(plan.sheet.length) / scale <= width && toDrawnMm(plan.sheet.width) / scale <= height;
  return scales.find(fits) ?? last;
}
