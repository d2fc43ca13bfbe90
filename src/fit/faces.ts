import { add, isPositive, minus, multiply, negate } from '../measure/index.ts';
import {
  type Build,
  type Contact,
  type Length,
  type Rational,
  type StandingPart,
  type TileSide,
  type VisibleFace,
  type Way,
  ways,
} from '../model/index.ts';

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
    for (const { part, other, way, size } of this.#contacts) {
      const covered = negate(multiply(size[0], size[1]));
      this.#add(part, sidesOf[way].high, covered);
      this.#add(other, sidesOf[way].low, covered);
    }
    return this.#known;
  }

  /** In mm²; below zero only where pieces overlap, which is told elsewhere. */
  area(part: StandingPart, side: TileSide): Rational {
    return this.#areas.get(part)?.get(side) ?? { numerator: 0n, denominator: 1n };
  }

  #add(part: StandingPart, side: TileSide, area: Rational): void {
    this.#areas.get(part)?.set(side, add(this.area(part, side), area));
  }
}

type Areas = Map<StandingPart, Map<TileSide, Rational>>;

/** Visible area by material and side. What stands on the table hides its bottom there. */
export function visibleFaces(build: Build, visible: Visible): readonly VisibleFace[] {
  const totals = new Map<string, VisibleFace>();
  for (const part of build.parts) {
    for (const side of sides) {
      if (side === 'bottom' && part.block.low.up.numerator === 0n) continue;
      const area = visible.area(part, side);
      if (!isPositive(area)) continue;
      const key = `${part.material}\n${side}`;
      const known = totals.get(key);
      totals.set(key, {
        material: part.material,
        side,
        area: known === undefined ? area : add(known.area, area),
      });
    }
  }
  const order = [...new Set(build.parts.map(({ material }) => material))];
  return [...totals.values()].sort(
    (a, b) =>
      order.indexOf(a.material) - order.indexOf(b.material) || sides.indexOf(a.side) - sides.indexOf(b.side),
  );
}

function wholeSides({ block }: StandingPart): Map<TileSide, Rational> {
  const span = (way: Way): Length => minus(block.high[way], block.low[way]);
  const areas = new Map<TileSide, Rational>();
  for (const way of ways) {
    const [one, two] = ways.filter((it) => it !== way);
    const area = multiply(span(one ?? way), span(two ?? way));
    areas.set(sidesOf[way].low, area);
    areas.set(sidesOf[way].high, area);
  }
  return areas;
}
