import { add, isPositive, negate, zero } from '../measure/index.ts';
import type { Build, Contact, Enclosure, StandingPart, TileSide, VisibleFace, Way } from '../model/index.ts';
import { sidesOfPrism } from '../outline/index.ts';

export const sidesOf: Readonly<Record<Way, { readonly low: TileSide; readonly high: TileSide }>> = {
  across: { low: 'left', high: 'right' },
  along: { low: 'front', high: 'back' },
  up: { low: 'bottom', high: 'top' },
};

const sides: readonly TileSide[] = ['top', 'front', 'back', 'left', 'right', 'bottom'];

/** What is left of each side of each piece when what its neighbours cover is taken away. */
export class Visible {
  readonly #build: Build;
  readonly #contacts: readonly Contact[];
  #known: Areas | undefined;

  constructor(build: Build, contacts: readonly Contact[]) {
    this.#build = build;
    this.#contacts = contacts;
  }

  /** Worked out when the first side is asked for. */
  get #areas(): Areas {
    if (this.#known !== undefined) return this.#known;
    this.#known = new Map(this.#build.parts.map((part) => [part, wholeSides(part)]));
    for (const { part, other, way, area } of this.#contacts) {
      this.#cover(part, sidesOf[way].high, area);
      this.#cover(other, sidesOf[way].low, area);
    }
    return this.#known;
  }

  /** In mm²; below zero only where pieces overlap, which is told elsewhere. */
  area(part: StandingPart, side: TileSide): Enclosure {
    return this.#areas.get(part)?.get(side) ?? none;
  }

  #cover(part: StandingPart, side: TileSide, { lo, hi }: Enclosure): void {
    const covered = { lo: negate(hi), hi: negate(lo) };
    this.#areas.get(part)?.set(side, both(this.area(part, side), covered));
  }
}

type Areas = Map<StandingPart, Map<TileSide, Enclosure>>;

const none: Enclosure = { lo: zero, hi: zero };

function both(a: Enclosure, b: Enclosure): Enclosure {
  return { lo: add(a.lo, b.lo), hi: add(a.hi, b.hi) };
}

/** Visible area by material and side. What stands on the table hides its bottom there. */
export function visibleFaces(build: Build, visible: Visible): readonly VisibleFace[] {
  const totals = new Map<string, VisibleFace>();
  for (const part of build.parts) {
    for (const side of sides) {
      if (side === 'bottom' && part.block.low.up.numerator === 0n) continue;
      const area = visible.area(part, side);
      if (!isPositive(area.hi)) continue;
      const key = `${part.material}\n${side}`;
      const known = totals.get(key);
      totals.set(key, {
        material: part.material,
        side,
        area: known === undefined ? area : both(known.area, area),
      });
    }
  }
  const order = [...new Set(build.parts.map(({ material }) => material))];
  return [...totals.values()].sort(
    (a, b) =>
      order.indexOf(a.material) - order.indexOf(b.material) || sides.indexOf(a.side) - sides.indexOf(b.side),
  );
}

function wholeSides(part: StandingPart): Map<TileSide, Enclosure> {
  return new Map(sidesOfPrism(part).map(({ way, end, area }) => [sidesOf[way][end], area]));
}
