import type { Build, Contact, GlueStep, StandingMember, StandingPart, StandingRow } from '../model/index.ts';

/**
 * In which order the pieces are glued: inside out. A row inside a row is put together first and goes on as
 * one piece; a stack grows from the bottom, a row of walls from its middle outward; what is added comes last.
 *
 *   along: │face│ core │back│      core, then face and back
 *   up:      bed · fill · turf     bed, fill, turf
 *
 * What would hang in the air waits for what carries it. What carries weight or is moved as one has to dry first.
 *
 * @source common practice, no source
 */
export function glueSteps(build: Build, contacts: readonly Contact[]): readonly GlueStep[] {
  const touches = touchesOf(contacts);
  if (build.glueOrder !== undefined) return statedSteps(build, build.glueOrder, touches);
  const gluing = new Gluing(touches, (piece) => carriersOf(piece, contacts));
  gluing.putTogether(build.row);
  const standing = new Standing(touches, gluing.settled(piecesIn(build.row)));
  for (const member of build.added) {
    if (gluing.isWaiting) {
      const beneath = new Set(piecesIn(member).flatMap((it) => carriersOf(it, contacts)));
      gluing.putWaiting(standing, (it) => beneath.has(it));
    }
    gluing.put(member, standing, 'whole');
    gluing.putCarried(standing);
  }
  gluing.putWaiting(standing, () => true);
  return gluing.steps;
}

/** What a piece lies on. */
function carriersOf(piece: StandingPart, contacts: readonly Contact[]): readonly StandingPart[] {
  return contacts.flatMap(({ part, other, way, slant }) => {
    const isUp = way === 'up' || slant?.way === 'up';
    const [lower, upper] = way === 'up' || slant?.isSame === true ? [part, other] : [other, part];
    return isUp && upper === piece ? [lower] : [];
  });
}

class Gluing {
  readonly steps: GlueStep[] = [];
  readonly #touches: Touches;
  readonly #carriersOf: (piece: StandingPart) => readonly StandingPart[];
  /** What doesn't lie on anything yet: what is added beneath it comes first. */
  #waiting: readonly StandingPart[] = [];
  /** How many rows are being put together, each inside the one before. */
  #depth = 0;

  constructor(touches: Touches, carriersOf: (piece: StandingPart) => readonly StandingPart[]) {
    this.#touches = touches;
    this.#carriersOf = carriersOf;
  }

  putTogether(row: StandingRow): void {
    const standing = new Standing(this.#touches);
    this.#depth++;
    for (const member of inOrder(row))
      this.put(member, standing, row.way === 'up' ? 'piece by piece' : 'whole');
    this.#depth--;
  }

  /**
   * Sets a member on what stands already. A row goes on as one where its pieces hold together; in a stack
   * they go on one by one where each of them has something to lie on.
   */
  put(member: Held, standing: Standing, how: 'whole' | 'piece by piece'): void {
    if (member.kind === 'part') {
      if (this.#hangs(member, standing)) this.#waiting = [...this.#waiting, member];
      else this.#set(member, standing);
      return;
    }
    const pieces = piecesIn(member);
    const [first] = pieces;
    if (first !== undefined && pieces.length === 1) {
      this.put(first, standing, how);
      return;
    }
    const onto = standing.metBy(pieces);
    const lieAlone = pieces.every((it) => standing.meets(it));
    if ((how === 'piece by piece' && lieAlone) || !holdTogether(pieces, this.#touches)) {
      for (const inner of inOrder(member)) this.put(inner, standing, how);
      return;
    }
    this.putTogether(member);
    // The first thing in hand is built on as it is.
    if (!standing.isEmpty) this.steps.push({ what: nameOf(member), onto, afterDrying: true });
    for (const piece of this.settled(pieces)) standing.add(piece);
  }

  get isWaiting(): boolean {
    return this.#waiting.length > 0;
  }

  /** Those that don't slope, once all that they lie on is there; what each of them carries comes after it. */
  putCarried(standing: Standing): void {
    const isCarried = (it: StandingPart): boolean =>
      it.inclined === undefined && this.#carriersOf(it).every((beneath) => standing.has(beneath));
    while (this.#waiting.some(isCarried)) {
      const next = this.#waiting.find(isCarried);
      this.putWaiting(standing, (it) => it === next);
    }
  }

  /** It would be glued in the air. A row that is moved as one is put together lying about, without what carries it. */
  #hangs(part: StandingPart, standing: Standing): boolean {
    if (standing.meets(part)) return false;
    return (
      part.inclined !== undefined ||
      (this.#depth < 2 && !standing.isEmpty && this.#carriersOf(part).length > 0)
    );
  }

  putWaiting(standing: Standing, is: (it: StandingPart) => boolean): void {
    const next = this.#waiting.filter(is);
    this.#waiting = this.#waiting.filter((it) => !is(it));
    for (const part of next) this.#set(part, standing);
  }

  /** Those of some pieces that don't wait. */
  settled(pieces: readonly StandingPart[]): readonly StandingPart[] {
    return pieces.filter((it) => !this.#waiting.includes(it));
  }

  #set(part: StandingPart, standing: Standing): void {
    this.steps.push({ what: part.name, onto: standing.metBy([part]), afterDrying: false });
    standing.add(part);
  }
}

/** The pieces that are set already, in the order in which they were. */
class Standing {
  readonly #touches: Touches;
  readonly #places = new Map<StandingPart, number>();

  constructor(touches: Touches, pieces: readonly StandingPart[] = []) {
    this.#touches = touches;
    for (const piece of pieces) this.add(piece);
  }

  get isEmpty(): boolean {
    return this.#places.size === 0;
  }

  add(piece: StandingPart): void {
    this.#places.set(piece, this.#places.size);
  }

  has(piece: StandingPart): boolean {
    return this.#places.has(piece);
  }

  meets(piece: StandingPart): boolean {
    for (const next of this.#touches.get(piece) ?? []) if (this.#places.has(next)) return true;
    return false;
  }

  /** The names of those that some of the pieces touch. */
  metBy(pieces: readonly StandingPart[]): readonly string[] {
    const met = new Map<StandingPart, number>();
    for (const piece of pieces) {
      for (const next of this.#touches.get(piece) ?? []) {
        const place = this.#places.get(next);
        if (place !== undefined) met.set(next, place);
      }
    }
    return [...met].sort(([, a], [, b]) => a - b).map(([{ name }]) => name);
  }
}

type Held = Exclude<StandingMember, { kind: 'gap' }>;

/** A stack from the bottom, a row of walls from its middle outward; a part before the strips over its sides. */
function inOrder(row: StandingRow): readonly Held[] {
  const members = row.members.filter((it) => it.kind !== 'gap');
  if (row.core !== undefined) {
    const isStrip = (it: Held): boolean => it.kind === 'part' && it.clads !== undefined;
    return [...members.filter((it) => !isStrip(it)), ...members.filter(isStrip)];
  }
  return row.way === 'up' ? members : fromTheMiddle(members);
}

/** True where every piece is joined to every other by pieces that touch. */
function holdTogether(pieces: readonly StandingPart[], touches: Touches): boolean {
  const [first] = pieces;
  if (first === undefined) return true;
  const own = new Set(pieces);
  const reached = new Set([first]);
  for (const piece of reached) {
    for (const next of touches.get(piece) ?? []) if (own.has(next)) reached.add(next);
  }
  return reached.size === pieces.length;
}

type Touches = ReadonlyMap<StandingPart, ReadonlySet<StandingPart>>;

function touchesOf(contacts: readonly Contact[]): Touches {
  const touches = new Map<StandingPart, Set<StandingPart>>();
  const note = (one: StandingPart, two: StandingPart): void => {
    const known = touches.get(one);
    if (known === undefined) touches.set(one, new Set([two]));
    else known.add(two);
  };
  for (const { part, other } of contacts) {
    note(part, other);
    note(other, part);
  }
  return touches;
}

/** The middle member, then its neighbours, one side and the other by turns. */
function fromTheMiddle<T>(members: readonly T[]): readonly T[] {
  const middle = (members.length - 1) / 2;
  return members
    .map((member, index) => ({ member, away: Math.abs(index - middle), index }))
    .sort((a, b) => a.away - b.away || a.index - b.index)
    .map(({ member }) => member);
}

function statedSteps(build: Build, order: readonly string[], touches: Touches): readonly GlueStep[] {
  const standing = new Standing(touches);
  return order.flatMap((name) =>
    build.parts
      .filter(
        ({ part, clads, isWall }) =>
          isWall !== true && (part === name || (clads === name && !order.includes(part))),
      )
      .sort((a, b) => Number(a.clads === name) - Number(b.clads === name))
      .map((piece) => {
        const onto = standing.metBy([piece]);
        standing.add(piece);
        return { what: piece.name, onto, afterDrying: false };
      }),
  );
}

function nameOf(member: Held): string {
  if (member.kind === 'part') return member.name;
  if (member.core !== undefined) return `${member.core.name} with its strips`;
  return member.name ?? `the glued-up ${listed(piecesIn(member).map(({ part, clads }) => clads ?? part))}`;
}

function listed(names: readonly string[]): string {
  const different = [...new Set(names)];
  const last = different.at(-1) ?? '';
  return different.length < 2 ? last : `${different.slice(0, -1).join(', ')} and ${last}`;
}

function piecesIn(member: StandingMember): StandingPart[] {
  if (member.kind === 'part') return [member];
  return member.kind === 'row' ? member.members.flatMap(piecesIn) : [];
}
