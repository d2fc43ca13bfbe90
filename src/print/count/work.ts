import {
  add,
  larger,
  minus,
  multiply,
  opposite,
  packsFor,
  priceFor,
  rational,
  whole,
} from '../../measure/index.ts';
import type {
  Batch,
  CutLine,
  Length,
  Made,
  MaterialPlan,
  Price,
  Proof,
  Rational,
  SheetKind,
  SheetPlan,
} from '../../model/index.ts';
import { type Areas, areasOf } from '../areas.ts';
import { boughtKinds } from '../bought.ts';

/** What a batch takes, as far as only its layouts can tell. */
export interface Work {
  readonly materials: readonly MaterialWork[];
  /** Where two parts are glued together, over all tiles. */
  readonly glueJoints: number;
  /** Over all materials. */
  readonly areas: Areas;
  readonly toBuy: readonly ToBuy[];
}

export interface MaterialWork {
  readonly name: string;
  readonly sheets: number;
  /** Widths set out, one after the other. */
  readonly settings: number;
  /** Edge to edge of whatever is in hand, squaring up counted. */
  readonly cuts: number;
  /** Of all these cuts, in millimetres. */
  readonly cutLength: Length;
  readonly pieces: number;
  /** Parts that no sheet is left for. */
  readonly missing: number;
}

/** Sheets of one size that are bought, each alone or in packs. */
export interface ToBuy {
  readonly material: string;
  readonly sheet: SheetKind;
  /** So many are cut. */
  readonly count: number;
  /** So many packs are bought; a sheet that is sold alone is a pack of one. */
  readonly packs: number;
  /** Of the last pack, so many are not needed. */
  readonly leftOver: number;
  /** Of all packs; undefined where the sheet has no price. */
  readonly cost: Price | undefined;
  /** What is known of the number, and of the cost, of all sheets of the material. */
  readonly proof: Proof;
}

export function workOf({ batch, fits, plans }: Made): Work {
  const counts = new Map(batch.tiles.map(({ name, count }) => [name, count]));
  const glueJoints = fits.reduce(
    (all, { build, contacts }) => all + contacts.length * (counts.get(build.tile) ?? 0),
    0,
  );
  return {
    materials: plans.map(materialWork),
    glueJoints,
    areas: plans.map(areasOf).reduce(together, none),
    toBuy: plans.flatMap(toBuyOf),
  };
}

/** What is bought, in money, one sum a currency. */
export function costsOf(toBuy: readonly Pick<ToBuy, 'cost'>[]): readonly Price[] {
  const sums = new Map<string, Rational>();
  for (const { cost } of toBuy) {
    if (cost === undefined) continue;
    sums.set(cost.currency, add(sums.get(cost.currency) ?? nothing, cost.amount));
  }
  return [...sums].map(([currency, amount]) => ({ amount, currency }));
}

const nothing = rational(0n);
const none: Areas = {
  sheets: nothing,
  parts: nothing,
  kept: nothing,
  scrap: nothing,
  trim: nothing,
  cuts: nothing,
};

function together(a: Areas, b: Areas): Areas {
  return {
    sheets: add(a.sheets, b.sheets),
    parts: add(a.parts, b.parts),
    kept: add(a.kept, b.kept),
    scrap: add(a.scrap, b.scrap),
    trim: add(a.trim, b.trim),
    cuts: add(a.cuts, b.cuts),
  };
}

function materialWork({ demand, sheets, order, unplaced }: MaterialPlan): MaterialWork {
  let [cuts, pieces, used] = [0, 0, 0];
  let cutLength: Rational = nothing;
  for (const plan of sheets) {
    const lines = [...linesOf(plan), ...trimmed(plan.sheet)];
    used += plan.times;
    cuts += lines.length * plan.times;
    pieces += plan.pieces.length * plan.times;
    cutLength = add(cutLength, multiply(lines.reduce<Rational>(add, nothing), whole(plan.times)));
  }
  const missing = unplaced.reduce((all, { count }) => all + count, 0);
  return {
    name: demand.material.name,
    sheets: used,
    settings: order.length,
    cuts,
    cutLength: cutLength as Length, // a sum of lengths
    pieces,
    missing,
  };
}

function linesOf({ steps }: SheetPlan): readonly Length[] {
  return steps.flatMap((step) => ('lines' in step ? step.lines.map(lengthOfLine) : []));
}

/** Each runs along one side of the sheet, so one of the two differences is nothing. */
function lengthOfLine({ from, to }: CutLine): Length {
  const way = (a: Length, b: Length): Length => larger(minus(a, b), opposite(minus(a, b)));
  return larger(way(to.left, from.left), way(to.bottom, from.bottom));
}

/**
 * The cuts that square a sheet up, one along each edge that something is taken off, each as long as what is in hand
 * by then: the sheets say bottom, left, right, top.
 */
function trimmed({ length, width, trim }: SheetKind): readonly Length[] {
  const high = minus(width, trim.bottom);
  const between = minus(minus(length, trim.left), trim.right);
  const cuts: readonly (readonly [Length, Length])[] = [
    [trim.bottom, length],
    [trim.left, high],
    [trim.right, high],
    [trim.top, between],
  ];
  return cuts.flatMap(([off, cut]) => (off.numerator > 0n ? [cut] : []));
}

function toBuyOf({ demand, sheets, proof }: MaterialPlan): readonly ToBuy[] {
  return boughtKinds(sheets).map(({ sheet, count }) => {
    const packs = packsFor(sheet, count);
    return {
      material: demand.material.name,
      sheet,
      count,
      packs,
      leftOver: packs * (sheet.pack ?? 1) - count,
      cost: priceFor(sheet, count),
      proof,
    };
  });
}

/** A size as it is asked for by several tiles: one row, a count for each tile. */
export interface SizeByTile {
  readonly material: string;
  readonly kind: Batch['materials'][number]['parts'][number];
  /** In the order of the batch's tiles, loose parts last; spares are with their tile. */
  readonly counts: readonly number[];
}

/** Sizes down, tiles across: what is the same to the knife is one row, whichever tiles it is for. */
export function sizesByTile({ tiles, materials }: Batch): readonly SizeByTile[] {
  return materials.flatMap(({ material, parts }) =>
    parts.map((kind) => {
      const count = (tile: string | undefined): number =>
        kind.members.reduce((all, it) => all + (it.tile === tile ? it.count : 0), 0);
      return {
        material: material.name,
        kind,
        counts: [...tiles.map(({ name }) => count(name)), count(undefined)],
      };
    }),
  );
}
