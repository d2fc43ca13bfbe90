import { toDrawnMm } from '../../measure/index.ts';
import type { MaterialPlan, SheetPlan } from '../../model/index.ts';
import { hasOrder } from '../orderWords.ts';
import { blockOf, leastHeightMm } from './block.ts';
import { type Chunk, cuttingList } from './cuttingList.ts';
import type { Flow } from './flow.ts';
import { line } from './mark.ts';
import { orderOfWork } from './orderOfWork.ts';
import { type PageOf, pageBreaks, type Unit, type Way } from './pageBreaks.ts';
import { guttersOf } from './picture.ts';
import type { Sizes } from './sizes.ts';

/**
 * The cutting lists, and each distinct layout once: its picture to scale with its steps, as many on a page
 * as read well. The lists stand together before the pictures, unless each with its own material saves a page.
 */
export function workPages(flow: Flow, sizes: Sizes, plans: readonly MaterialPlan[]): void {
  const firstOrder = plans.find(hasOrder);
  const ofMaterials = plans.map((plan) => ({
    lists: [...listsOf(flow, sizes, plan), ...orderOf(flow, sizes, plan, firstOrder)],
    pictures: picturesOf(flow, sizes, plan),
  }));
  const listsFirst = [
    ...ofMaterials.flatMap(({ lists }) => lists),
    ...ofMaterials.flatMap(({ pictures }) => pictures),
  ];
  const byMaterial = ofMaterials.flatMap(({ lists, pictures }) => [...lists, ...pictures]);
  const { units, pages } = settled(flow, listsFirst, byMaterial);
  drawPages(flow, units, pages);
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
 */
function settled(flow: Flow, listsFirst: DraftUnits, byMaterial: DraftUnits): Session {
  const known = new Map<Sketch, DrawnWay | undefined>();
  for (let round = 0; ; round++) {
    const session = fewestPages(flow, composed(listsFirst, known), composed(byMaterial, known));
    const chosen = chosenOf(session).filter(isSketch);
    if (chosen.length === 0) return session;
    const wanted = round < mostRounds ? chosen : session.units.flatMap(({ ways }) => ways.filter(isSketch));
    for (const sketch of wanted) known.set(sketch, sketch.compose());
  }
}

type DraftUnits = readonly DraftUnit[];

function fewestPages(flow: Flow, listsFirst: DraftUnits, byMaterial: DraftUnits): Session {
  const first = { units: listsFirst, pages: pageBreaks(listsFirst, flow.room(), flow.fullMm) };
  const second = { units: byMaterial, pages: pageBreaks(byMaterial, flow.room(), flow.fullMm) };
  return first.pages.length <= second.pages.length ? first : second;
}

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

function drawPages(flow: Flow, units: DraftUnits, pages: readonly PageOf[]): void {
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

function picturesOf(flow: Flow, sizes: Sizes, plan: MaterialPlan): readonly DraftUnit[] {
  return plan.sheets.map(
    (sheet, index): DraftUnit => ({
      gapMm: 7,
      atTopMm: 0,
      isApart: true,
      bookmark: index === 0 ? plan.demand.material.name : undefined,
      ways: waysOf(flow, sizes, plan, sheet),
    }),
  );
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
  const { keyed, ...first } = blockOf(flow, sizes, plan, sheet, own);
  const largest = { ...first, loss: 0 };
  const fits = first.heightMm <= flow.fullMm;
  if (sheet.pieces.length > crowded && fits) return [largest];
  const smaller = scales.filter((scale) => scale > own && scale <= own * coarsest);
  return [
    largest,
    ...smaller.map((scale): Sketch => {
      const loss = scale / own - 1;
      return {
        scale,
        heightMm: leastHeightMm(flow, sizes, sheet, scale, keyed),
        loss,
        compose: () => {
          const block = blockOf(flow, sizes, plan, sheet, scale);
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
