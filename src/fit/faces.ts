import { add, isPositive, negate } from '../measure/index.ts';
import {
  type Build,
  type Contact,
  type Enclosure,
  endOfSide,
  type StandingPart,
  type TileSide,
  type VisibleFace,
  type Way,
} from '../model/index.ts';
import { bodyOf, looksThere, sideAreaOf, slantAreaOf } from '../outline/index.ts';
import { standsAsCut } from './extent.ts';

export const sidesOf: Readonly<Record<Way, { readonly low: TileSide; readonly high: TileSide }>> = {
  across: { low: 'left', high: 'right' },
  along: { low: 'front', high: 'back' },
  up: { low: 'bottom', high: 'top' },
};

const sides: readonly TileSide[] = ['top', 'front', 'back', 'left', 'right', 'bottom'];

/** What is left of each side of each piece when what its neighbours cover is taken away. */
export class Visible {
  readonly #contacts: readonly Contact[];
  #covering: ReadonlyMap<StandingPart, readonly Covering[]> | undefined;

  constructor(contacts: readonly Contact[]) {
    this.#contacts = contacts;
  }

  /** Found when the first side is asked for. */
  #against(part: StandingPart, side: TileSide): readonly Contact[] {
    this.#covering ??= coveringsOf(this.#contacts);
    return (this.#covering.get(part) ?? []).filter((it) => it.side === side).map(({ contact }) => contact);
  }

  /** In mm²; below zero only where pieces overlap, which is told elsewhere. */
  area(part: StandingPart, side: TileSide): Enclosure {
    const { way, end } = endOfSide[side];
    return this.#against(part, side).reduce(
      (left, { area: { lo, hi } }) => both(left, { lo: negate(hi), hi: negate(lo) }),
      sideAreaOf(bodyOf(part), way, end),
    );
  }

  /** True where some of a side is surely bare; where nothing lies against it, no area has to be worked out. */
  isBare(part: StandingPart, side: TileSide): boolean {
    const { way, end } = endOfSide[side];
    if (!looksThere(bodyOf(part), way, end)) return false;
    return this.#against(part, side).length === 0 || isPositive(this.area(part, side).lo);
  }

  /** As `isBare`, of an edge that is cut at a slant, too: there it shows the ends of what runs that way. */
  isBareEnd(part: StandingPart, side: TileSide): boolean {
    if (part.profile === undefined || !standsAsCut(part)) return this.isBare(part, side);
    const { way, end } = endOfSide[side];
    const body = bodyOf(part);
    const covered = [...this.#against(part, side), ...this.#slantedAgainst(part, side)];
    const left = covered.reduce(
      (sum, { area: { lo, hi } }) => both(sum, { lo: negate(hi), hi: negate(lo) }),
      both(sideAreaOf(body, way, end), slantAreaOf(body, way, end)),
    );
    return isPositive(left.lo);
  }

  #slantedAgainst(part: StandingPart, side: TileSide): readonly Contact[] {
    const { way, end } = endOfSide[side];
    return this.#contacts.filter((it) => {
      if (it.slant?.way !== way || (it.part !== part && it.other !== part)) return false;
      return ((it.part === part) === it.slant.isSame) === (end === 'high');
    });
  }
}

interface Covering {
  readonly side: TileSide;
  readonly contact: Contact;
}

function coveringsOf(contacts: readonly Contact[]): ReadonlyMap<StandingPart, readonly Covering[]> {
  const found = new Map<StandingPart, Covering[]>();
  const note = (part: StandingPart, side: TileSide, contact: Contact): void => {
    const known = found.get(part);
    if (known === undefined) found.set(part, [{ side, contact }]);
    else known.push({ side, contact });
  };
  for (const contact of contacts) {
    note(contact.part, sidesOf[contact.way].high, contact);
    note(contact.other, sidesOf[contact.way].low, contact);
  }
  return found;
}

function both(a: Enclosure, b: Enclosure): Enclosure {
  return { lo: add(a.lo, b.lo), hi: add(a.hi, b.hi) };
}

/** Visible area by material and side. What stands on the table hides its bottom there. */
export function visibleFaces(build: Build, visible: Visible): readonly VisibleFace[] {
  const totals = new Map<string, VisibleFace>();
  for (const part of build.parts) {
    for (const side of sides) {
      if (side === 'bottom' && part.block.low.up.numerator === 0n) continue;
      // What less than 0.01 mm of a curve would tell is left out.
      if (!visible.isBare(part, side)) continue;
      const area = visible.area(part, side);
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
