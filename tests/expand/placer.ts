/**
 * Stands a tile's pieces up by what the language says of rows, on its own: in halves and quarters of millimetres,
 * which binary floats hold exactly, and without a line of the program's. The same description is written as YAML
 * beside it.
 */

export type Way = 'across' | 'along' | 'up';
export type Side = 'left' | 'right' | 'front' | 'back' | 'bottom' | 'top';
export type DrawnSide = 'left' | 'right' | 'bottom' | 'top';
export const ways: readonly Way[] = ['across', 'along', 'up'];

export interface PieceOf {
  readonly kind: 'part';
  /** Its own name: each stands in one place of the build. */
  readonly name: string;
  readonly length: number | 'rest';
  readonly width: number | 'rest';
  readonly thickness: 'card' | 'board' | 'block';
  readonly lies: boolean;
  readonly clad: readonly DrawnSide[];
  readonly flip: 'length' | 'width' | 'both' | undefined;
  readonly says: Says;
}

export interface RowOf {
  readonly kind: 'row';
  readonly name: string;
  readonly way: Way;
  readonly members: readonly MemberOf[];
  /** How its members lie, and which way they run. */
  readonly flush: readonly Side[];
  readonly stance: Stances;
  readonly says: Says;
}

export interface GapOf {
  readonly kind: 'gap';
  readonly size: number | 'rest';
}

export type MemberOf = PieceOf | RowOf | GapOf;

interface Stances {
  readonly length?: Way | undefined;
  readonly thickness?: Way | undefined;
}

/** What a member says of itself. */
export interface Says extends Stances {
  readonly flush?: Side | undefined;
  readonly inset?: readonly [Side, number] | undefined;
  readonly times?: number | undefined;
  readonly apart?: number | undefined;
}

export interface AddedOf {
  readonly piece: PieceOf;
  readonly place:
    | { readonly kind: 'at'; readonly corner: readonly [number, number, number] }
    | { readonly kind: 'against'; readonly side: Side; readonly of: string };
}

export interface TileOf {
  readonly squares: readonly [number, number];
  readonly glue: number;
  readonly row: RowOf;
  readonly added: readonly AddedOf[];
}

export const square = 64;
export const thicknesses = { card: 1, board: 2.5, block: 8 } as const;
const skin = 0.5;

export type Box = readonly [low: readonly [number, number, number], high: readonly [number, number, number]];
type Triple = [number, number, number];

const at: Readonly<Record<Side, readonly [Way, 'low' | 'high']>> = {
  left: ['across', 'low'],
  right: ['across', 'high'],
  front: ['along', 'low'],
  back: ['along', 'high'],
  bottom: ['up', 'low'],
  top: ['up', 'high'],
};
const index = (way: Way): 0 | 1 | 2 => (way === 'across' ? 0 : way === 'along' ? 1 : 2);

/** Where every piece and strip stands, by its name in the build; undefined where a rest gets nothing. */
export function placed(tile: TileOf): ReadonlyMap<string, Box> | undefined {
  const placer = new Placer(tile);
  return placer.run() ? placer.boxes : undefined;
}

/** One end, the other, or the middle of the room; and how far inward. */
interface Lie {
  readonly end: 'low' | 'high' | 'middle';
  readonly inward: number;
}

class Placer {
  readonly boxes = new Map<string, Box>();
  readonly #known = new Map<string, Box>();
  readonly #tile: TileOf;
  readonly #counts = new Map<string, number>();
  #isWell = true;

  constructor(tile: TileOf) {
    this.#tile = tile;
  }

  run(): boolean {
    const { squares, row, added } = this.#tile;
    const rooms: (number | undefined)[] = [squares[0] * square, squares[1] * square, undefined];
    const size = this.#sizeOfRow(row, rooms);
    const room: Triple = [rooms[0] ?? 0, rooms[1] ?? 0, size[2]];
    const usual: Record<Way, Lie> = {
      across: { end: 'middle', inward: 0 },
      along: { end: 'middle', inward: 0 },
      up: { end: 'low', inward: 0 },
    };
    const whole = this.#placeRow(row, rooms, [0, 0, 0], room, usual);
    this.#known.set('tile', [
      [0, 0, 0],
      [room[0], room[1], whole[1][2]],
    ]);
    for (const it of added) this.#add(it);
    return this.#isWell;
  }

  #stance(piece: PieceOf, row: { readonly way: Way; readonly stance: Stances }): readonly [Way, Way, Way] {
    const { says, lies } = piece;
    const thickness = says.thickness ?? (lies ? 'up' : (row.stance.thickness ?? row.way));
    const wish = says.length ?? row.stance.length;
    const length =
      wish !== undefined && wish !== thickness ? wish : thickness === 'across' ? 'along' : 'across';
    const width = ways.find((way) => way !== thickness && way !== length) ?? 'up';
    return [length, width, thickness];
  }

  /** How much strips add to a piece's two sizes: length, width. */
  #skins({ clad }: PieceOf): readonly [number, number] {
    const { glue } = this.#tile;
    const of = (sides: readonly DrawnSide[]) =>
      clad.filter((it) => sides.includes(it)).length * (skin + glue);
    return [of(['left', 'right']), of(['bottom', 'top'])];
  }

  /** A piece with its strips, each way; `rest` sizes take the room. */
  #sizeOfPiece(
    piece: PieceOf,
    row: { way: Way; stance: Stances },
    rooms: readonly (number | undefined)[],
  ): Triple {
    const [length, width, thickness] = this.#stance(piece, row);
    const [moreLong, moreWide] = this.#skins(piece);
    const size: Triple = [0, 0, 0];
    const sized = (stated: number | 'rest', way: Way, more: number): number => {
      if (stated !== 'rest') return stated + more;
      const room = rooms[index(way)];
      if (room === undefined || room - more <= 0) this.#isWell = false;
      return room ?? 0;
    };
    size[index(length)] = sized(piece.length, length, moreLong);
    size[index(width)] = sized(piece.width, width, moreWide);
    size[index(thickness)] = thicknesses[piece.thickness];
    return size;
  }

  /** What a member states that way; `rest` where it stretches. */
  #stated(member: MemberOf, way: Way, row: RowOf): number | 'rest' {
    if (member.kind === 'gap') return row.way === way ? member.size : 0;
    if (member.kind === 'part') {
      const [length, width] = this.#stance(member, row);
      const [moreLong, moreWide] = this.#skins(member);
      if (length === way) return member.length === 'rest' ? 'rest' : member.length + moreLong;
      if (width === way) return member.width === 'rest' ? 'rest' : member.width + moreWide;
      return thicknesses[member.thickness];
    }
    const inner = this.#repeated(member).map((it) => this.#stated(it, way, member));
    if (inner.includes('rest')) return 'rest';
    const sizes = inner as number[]; // no rest among them
    if (member.way !== way) return Math.max(0, ...sizes);
    return sizes.reduce((all, it) => all + it, this.#glueIn(this.#repeated(member)));
  }

  #repeated(row: RowOf): readonly MemberOf[] {
    return row.members.flatMap((it): readonly MemberOf[] => {
      if (it.kind === 'gap') return [it];
      const { times = 1, apart } = it.says;
      return Array.from({ length: times }).flatMap((_, i): readonly MemberOf[] =>
        i > 0 && apart !== undefined ? [{ kind: 'gap', size: apart }, it] : [it],
      );
    });
  }

  #glueIn(members: readonly MemberOf[]): number {
    const lines = members.filter(
      (it, i) => it.kind !== 'gap' && members[i + 1] !== undefined && members[i + 1]?.kind !== 'gap',
    );
    return lines.length * this.#tile.glue;
  }

  /** The room of each member of a row: its own share one way, all of the row's in the others. */
  #rooms(row: RowOf, rooms: readonly (number | undefined)[]): readonly (readonly (number | undefined)[])[] {
    const members = this.#repeated(row);
    const stated = members.map((it) => this.#stated(it, row.way, row));
    const fixed = stated.reduce<number>((all, it) => all + (it === 'rest' ? 0 : it), this.#glueIn(members));
    const stretching = stated.filter((it) => it === 'rest').length;
    const own = rooms[index(row.way)];
    const share = stretching === 0 ? 0 : ((own ?? 0) - fixed) / stretching;
    // A gap may come to nothing, a part may not.
    const onlyGaps = members.every((it, i) => stated[i] !== 'rest' || it.kind === 'gap');
    const isTooLittle = onlyGaps ? share < 0 : share <= 0;
    if (stretching > 0 && (own === undefined || isTooLittle)) this.#isWell = false;
    return members.map(
      (_, i) =>
        ways.map((way, place) => {
          if (way === row.way) return stated[i] === 'rest' ? share : stated[i];
          if (rooms[place] !== undefined) return rooms[place];
          const beside = members.flatMap((it) => (it.kind === 'gap' ? [] : [this.#stated(it, way, row)]));
          const sizes = beside.filter((it) => it !== 'rest');
          return sizes.length === 0 ? undefined : Math.max(...(sizes as number[])); // no rest among them
        }) as (number | undefined)[],
    );
  }

  #sizeOfRow(row: RowOf, rooms: readonly (number | undefined)[]): Triple {
    const members = this.#repeated(row);
    const inner = this.#rooms(row, rooms);
    const sizes = members.map((it, i) => this.#sizeOf(it, row, inner[i]!));
    const total = (way: number) => sizes.reduce((all, it) => all + it[way]!, 0);
    return ways.map((way, place) =>
      way === row.way ? total(place) + this.#glueIn(members) : Math.max(0, ...sizes.map((it) => it[place]!)),
    ) as Triple;
  }

  #sizeOf(member: MemberOf, row: RowOf, rooms: readonly (number | undefined)[]): Triple {
    if (member.kind === 'part') return this.#sizeOfPiece(member, row, rooms);
    if (member.kind === 'row') return this.#sizeOfRow(member, rooms);
    const size: Triple = [0, 0, 0];
    size[index(row.way)] = rooms[index(row.way)] ?? 0;
    return size;
  }

  #liesIn(lie: Lie, low: number, room: number, size: number): number {
    if (lie.end === 'low') return low + lie.inward;
    if (lie.end === 'high') return low + room - size - lie.inward;
    return low + (room - size) / 2;
  }

  /** What a member says, else what its row says of its members, else what that was told. */
  #lie(member: PieceOf | RowOf, row: RowOf, around: Record<Way, Lie>, way: Way): Lie {
    const { inset } = member.says;
    const flush = member.kind === 'part' ? member.says.flush : undefined;
    if (inset !== undefined && at[inset[0]][0] === way) return { end: at[inset[0]][1], inward: inset[1] };
    if (flush !== undefined && at[flush][0] === way) return { end: at[flush][1], inward: 0 };
    const ofRow = row.flush.find((side) => at[side][0] === way);
    if (ofRow !== undefined) return { end: at[ofRow][1], inward: 0 };
    return around[way];
  }

  #placeRow(
    row: RowOf,
    rooms: readonly (number | undefined)[],
    low: Triple,
    room: Triple,
    around: Record<Way, Lie>,
  ): Box {
    const members = this.#repeated(row);
    const inner = this.#rooms(row, rooms);
    const size = this.#sizeOfRow(row, rooms);
    const own = index(row.way);
    const start = this.#liesIn(around[row.way], low[own], room[own], size[own]);
    let next = start;
    const boxes: Box[] = [];
    for (const [i, member] of members.entries()) {
      const its = this.#sizeOf(member, row, inner[i]!);
      if (member.kind !== 'gap') {
        const lies: Record<Way, Lie> = { ...around };
        for (const way of ways) {
          const usual: Lie = { end: way === 'up' ? 'low' : 'middle', inward: 0 };
          lies[way] = way === row.way ? usual : this.#lie(member, row, around, way);
        }
        const slotLow: Triple = [...low];
        const slot: Triple = [...room];
        [slotLow[own], slot[own]] = [next, its[own]];
        boxes.push(
          member.kind === 'row'
            ? this.#placeRow(member, inner[i]!, slotLow, slot, lies)
            : this.#placePiece(
                member,
                row,
                its,
                ways.map((way, place) =>
                  this.#liesIn(lies[way], slotLow[place]!, slot[place]!, its[place]!),
                ) as Triple,
              ),
        );
      }
      const glued = member.kind !== 'gap' && members[i + 1] !== undefined && members[i + 1]?.kind !== 'gap';
      next += its[own] + (glued ? this.#tile.glue : 0);
    }
    const box = ([0, 1] as const).map((end) =>
      ways.map((_, place) => {
        if (place === own) return end === 0 ? start : next;
        const ends = boxes.map((it) => it[end][place]!);
        return end === 0 ? Math.min(...ends) : Math.max(...ends);
      }),
    ) as unknown as Box;
    if (!this.#known.has(row.name)) this.#known.set(row.name, box);
    return box;
  }

  #placePiece(piece: PieceOf, row: { way: Way; stance: Stances }, size: Triple, low: Triple): Box {
    const { glue } = this.#tile;
    const number = (this.#counts.get(piece.name) ?? 0) + 1;
    this.#counts.set(piece.name, number);
    const high = low.map((it, i) => it + size[i]!) as Triple;
    const whole: Box = [low, high];
    const [length, width] = this.#stance(piece, row).map(index) as [0 | 1 | 2, 0 | 1 | 2, number];
    const [coreLow, coreHigh]: [Triple, Triple] = [[...low], [...high]];
    const turned = (side: DrawnSide): DrawnSide => {
      const { flip } = piece;
      if (side === 'left' || side === 'right') {
        return flip === 'length' || flip === 'both' ? (side === 'left' ? 'right' : 'left') : side;
      }
      // What lies with its length along, or stands with it up, is turned a quarter round: its bottom is at the right.
      const isQuarterTurned = length === 2 || (length === 1 && width === 0);
      const isSwapped = (flip === 'width' || flip === 'both') !== isQuarterTurned;
      return isSwapped ? (side === 'bottom' ? 'top' : 'bottom') : side;
    };
    // Those at the bottom and top go over the ends of those at the left and right.
    for (const [axis, ends] of [
      [width, ['bottom', 'top']],
      [length, ['left', 'right']],
    ] as const) {
      const strips: (readonly [DrawnSide, Triple, Triple])[] = [];
      for (const side of piece.clad) {
        const lies = turned(side);
        if (!(ends as readonly string[]).includes(lies)) continue;
        const [from, to]: [Triple, Triple] = [[...coreLow], [...coreHigh]];
        if (lies === ends[0]) to[axis] = from[axis] + skin;
        else from[axis] = to[axis] - skin;
        strips.push([side, from, to]);
      }
      for (const [side, from, to] of strips) {
        if (from[axis] === coreLow[axis]) coreLow[axis] += skin + glue;
        else coreHigh[axis] -= skin + glue;
        this.boxes.set(`${piece.name} ${side} strip #${number}`, [from, to]);
      }
    }
    this.boxes.set(`${piece.name} #${number}`, [coreLow, coreHigh]);
    if (!this.#known.has(piece.name)) this.#known.set(piece.name, whole);
    return whole;
  }

  #add({ piece, place }: AddedOf): void {
    const row = { way: place.kind === 'at' ? ('up' as const) : at[place.side][0], stance: {} };
    const size = this.#sizeOfPiece(piece, row, [undefined, undefined, undefined]);
    if (place.kind === 'at') {
      this.#placePiece(piece, row, size, [...place.corner] as Triple);
      return;
    }
    const target = this.#known.get(place.of);
    if (target === undefined) {
      this.#isWell = false;
      return;
    }
    const [touch, end] = at[place.side];
    const low = ways.map((way, i) => {
      if (way === touch)
        return end === 'high' ? target[1][i]! + this.#tile.glue : target[0][i]! - size[i]! - this.#tile.glue;
      const { flush, inset } = piece.says;
      const lie: Lie =
        inset !== undefined && at[inset[0]][0] === way
          ? { end: at[inset[0]][1], inward: inset[1] }
          : flush !== undefined && at[flush][0] === way
            ? { end: at[flush][1], inward: 0 }
            : { end: 'middle', inward: 0 };
      return this.#liesIn(lie, target[0][i]!, target[1][i]! - target[0][i]!, size[i]!);
    }) as Triple;
    this.#placePiece(piece, row, size, low);
  }
}

/** The tile as a kit in the language. */
export function written(tile: TileOf): string {
  const pieces = new Map<string, PieceOf>();
  const learn = (member: MemberOf): void => {
    if (member.kind === 'part') pieces.set(member.name, member);
    if (member.kind === 'row') for (const it of member.members) learn(it);
  };
  learn(tile.row);
  for (const { piece } of tile.added) pieces.set(piece.name, piece);
  const parts = [...pieces.values()].map((it) => {
    const clad =
      it.clad.length === 0 ? '' : `, clad: { ${it.clad.map((side) => `${side}: skin`).join(', ')} }`;
    const lies = it.lies ? ', lies: yes' : '';
    return `      ${it.name}: { of: ${it.thickness}, size: [${it.length}, ${it.width}]${lies}${clad} }`;
  });
  const added = tile.added.map(({ piece, place }) => {
    const where =
      place.kind === 'at' ? `at: [${place.corner.join(', ')}]` : `against: ${place.side} of ${place.of}`;
    return `      - ${says(`part: ${piece.name}`, piece.says, [where, ...(piece.flip ? [`flip: ${piece.flip}`] : [])])}`;
  });
  return `cardwright: kit
units: mm
grid: { square: ${square}, glue line: ${tile.glue} }
materials:
${Object.entries(thicknesses)
  .map(([name, it]) => `  ${name}: { thickness: ${it} }`)
  .join('\n')}
  skin: { thickness: ${skin} }
tiles:
  tile:
    squares: [${tile.squares.join(', ')}]
    parts:
${parts.join('\n')}
    build: ${rowText(tile.row, true)}
${added.length === 0 ? '' : `    added:\n${added.join('\n')}\n`}`;
}

function memberText(member: MemberOf): string {
  if (member.kind === 'gap') return `{ gap: ${member.size} }`;
  if (member.kind === 'row') return rowText(member, false);
  return says(`part: ${member.name}`, member.says, member.flip ? [`flip: ${member.flip}`] : []);
}

function rowText(row: RowOf, isOutermost: boolean): string {
  const more = [
    `name: ${row.name}`,
    'to: free',
    ...(row.flush.length === 0 ? [] : [`flush: [${row.flush.join(', ')}]`]),
    ...(row.stance.length === undefined ? [] : [`length: ${row.stance.length}`]),
    ...(row.stance.thickness === undefined ? [] : [`thickness: ${row.stance.thickness}`]),
  ];
  const { inset, times, apart } = row.says;
  const own = isOutermost ? {} : { inset, times, apart };
  return says(`${row.way}: [${row.members.map(memberText).join(', ')}]`, own, more);
}

function says(
  first: string,
  { flush, inset, times, apart, length, thickness }: Says,
  more: readonly string[],
): string {
  const all = [
    first,
    ...(length === undefined ? [] : [`length: ${length}`]),
    ...(thickness === undefined ? [] : [`thickness: ${thickness}`]),
    ...(flush === undefined ? [] : [`flush: ${flush}`]),
    ...(inset === undefined ? [] : [`inset: { ${inset[0]}: ${inset[1]} }`]),
    ...(times === undefined ? [] : [`times: ${times}`]),
    ...(apart === undefined ? [] : [`apart: ${apart}`]),
    ...more,
  ];
  return `{ ${all.join(', ')} }`;
}
