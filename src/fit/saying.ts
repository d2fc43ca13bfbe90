import {
  absolute,
  compare,
  equal,
  isNegative,
  isZero,
  larger,
  millimetres,
  minus,
  opposite,
  rational,
  type Style,
  scaled,
  showExact,
  showLength,
  showThickness,
  sum,
  unitOfRule,
} from '../measure/index.ts';
import {
  atSpan,
  type Build,
  type Diagnostic,
  diagnose,
  endOfSide,
  type Fault,
  type Follows,
  type HolePair,
  type Length,
  type LevelSide,
  type Marked,
  type Misshared,
  type RightSize,
  type StandingFitting,
  type StandingPart,
  type Term,
  type TileFit,
  type TileSide,
  type Way,
  ways,
} from '../model/index.ts';
import { laps } from './extent.ts';

/** Puts into words what is wrong with a tile, its amounts both as a fraction and in millimetres. */
export function verdictsSaid({ build, faults }: TileFit, style: Style): readonly Diagnostic[] {
  const words = new Words(style);
  return faults.map((fault) => said(fault, build, words));
}

class Words {
  readonly #style: Style;
  readonly unit: Style['firstUnit'];

  constructor(style: Style) {
    this.#style = { ...style, units: 'both' };
    this.unit = style.firstUnit;
  }

  /** The rules at hand, as options. */
  get ruler(): string {
    return this.#style.ruler.map((it) => `--ruler '${showExact(it, unitOfRule(it))}'`).join(' ');
  }

  /** In the user's unit alone, where a line would grow too long. */
  brief(length: Length): string {
    return showLength(length, { ...this.#style, units: this.unit }).text;
  }

  full(length: Length): string {
    return showLength(length, this.#style).text;
  }
}

type Unclosed = Extract<Fault, { kind: 'does not close' }>;
type SticksOut = Extract<Fault, { kind: 'sticks out' }>;

type WhyOut =
  /** Its folded sides are longer than what they lap over. */
  | { readonly kind: 'laps'; readonly room: string }
  /** It is bent over something, and its ends are cut square. */
  | { readonly kind: 'square ends' };

function said(fault: Fault, build: Build, words: Words): Diagnostic {
  const { tile } = build;
  switch (fault.kind) {
    case 'does not close': {
      const hints =
        fault.misshared === undefined
          ? fault.right.map((it) => rightSize(it, words))
          : [sharedOut(fault.misshared, words)];
      const { rows, follows, pieces, lapping } = fault;
      const facts = {
        ...unclosed(fault, tile, words),
        sum: sumText(fault.sum, fault.extent, words),
        rows,
        lapping: lapping && { part: lapping.part, high: words.brief(lapping.high) },
      };
      return diagnose('F01', atSpan(fault.at), facts, {
        hints: [
          ...hints,
          ...(pieces === undefined ? [] : [rightCount(pieces, rows)]),
          ...follows.map((it) => following(it, fault.way, words)),
          ...(fault.isOnlyThickness && lapping === undefined ? [onlyThickness(fault)] : []),
        ],
      });
    }
    case 'does not close as marked': {
      const marked = fault.marked.map((it) => markText(it)).join(', ');
      const facts = {
        ...unclosed(fault, tile, words),
        sum: marked === '' ? undefined : `the nearest marks: ${marked}`,
        rows: 1,
        lapping: undefined,
      };
      const serves = fault.serves.map((marks) => withItsRule(marks, words));
      const none = fault.isUnfinished
        ? 'there are too many sizes to try all their marks'
        : 'no marks of this rule serve, nor of 1/64 in or 0.5 mm';
      return diagnose('F02', atSpan(fault.at), facts, {
        hints: serves.length > 0 ? serves : [none],
      });
    }
    case 'sticks out': {
      const { part, side, by } = fault;
      const over = allowedAt(fault);
      const facts = {
        tile,
        part: part.name,
        side,
        by: words.full(by),
        allowed: over && words.brief(over),
        why: whyOut(fault, build, words),
      };
      return diagnose('F03', atSpan(part.at), facts);
    }
    case 'overlaps': {
      const { part, other, way, shared } = fault;
      const related = [{ place: atSpan(other.at), message: `"${other.name}"` }];
      const facts = { tile, part: part.name, other: other.name, way, by: words.full(shared[way]) };
      return diagnose('F04', atSpan(part.at), facts, { related });
    }
    case 'floats':
      return diagnose('F05', atSpan(fault.part.at), { tile, part: fault.part.name });
    case 'level is off': {
      const { side, found, declared, lip, part, end } = fault;
      const apart = minus(found, declared);
      const facts = {
        tile,
        side,
        end,
        part: part.name,
        found: words.brief(found),
        declared: words.brief(declared),
        by: words.full(absolute(apart)),
        miss: isNegative(apart) ? 'low' : 'high',
        lip: showExact(lip, words.unit),
        mayBeNone:
          !isNegative(apart) && (part.stance.thickness !== 'up' || compare(apart, part.size.thickness) > 0),
      } as const;
      return diagnose('F06', atSpan(fault.at), facts);
    }
    case 'steps': {
      const { side, part, where, from, to, lip } = fault;
      const facts = {
        tile,
        side,
        part: part.name,
        where: `${words.brief(where)} from its ${firstEnd(side)} end`,
        from: words.brief(from),
        to: words.brief(to),
        lip: showExact(lip, words.unit),
      };
      return diagnose('F14', atSpan(fault.at), facts);
    }
    case 'hangs on a curve': {
      const { part, other, what, side } = fault;
      const related = other && [{ place: atSpan(other.at), message: `"${other.name}"` }];
      const facts = { tile, part: part.name, other: other?.name, what, side };
      return diagnose('F13', atSpan(fault.at), facts, related === undefined ? {} : { related });
    }
    case 'no floor':
      return diagnose('F07', atSpan(fault.at), { tile, side: fault.side });
    case 'not closed': {
      const { side, isFoot, level, from, to, isAllAlong } = fault;
      const where = `between ${words.brief(from)} and ${words.full(to)} from its ${firstEnd(side)} end`;
      const facts = {
        tile,
        side,
        level: isFoot ? words.brief(level) : undefined,
        where: isAllAlong ? undefined : where,
      };
      return diagnose('F12', atSpan(fault.at), facts);
    }
    case 'does not fit the rack': {
      const { rack, way, needs, has } = fault;
      const facts = { tile, rack, way, needs: words.full(needs), has: words.brief(has) };
      return diagnose('F08', atSpan(fault.at), facts);
    }
    case 'thin wall': {
      const { hole, part, wall } = fault;
      const facts = {
        tile,
        fitting: hole.fitting,
        hole: placeOf(hole, words),
        part: part.name,
        wall: words.full(absolute(wall)),
        least: words.full(hole.leastWall),
        isOut: isNegative(wall),
      };
      const related = [{ place: atSpan(part.at), message: `"${part.name}"` }];
      return diagnose('F20', atSpan(hole.at), facts, { related });
    }
    case 'hole in the air': {
      const { hole, from, to, slanting, square } = fault;
      const facts = {
        tile,
        fitting: hole.fitting,
        hole: placeOf(hole, words),
        from: words.brief(from),
        to: words.brief(to),
        isFromTheStart: isZero(from),
        slanting: slanting && { part: slanting.name, is: slantOf(slanting, words) },
        square,
      };
      const related = slanting && [{ place: atSpan(slanting.at), message: `"${slanting.name}"` }];
      return diagnose('F21', atSpan(hole.at), facts, related === undefined ? {} : { related });
    }
    case 'holes meet': {
      const related = [...new Set(fault.pairs.map(({ other }) => other.at))].flatMap((at) =>
        at === fault.at ? [] : [{ place: atSpan(at), message: 'the other holes' }],
      );
      return diagnose('F22', atSpan(fault.at), { tile, ...pairsSaid(fault.pairs, words) }, { related });
    }
    case 'does not meet': {
      const { hole, side, where, high, other, otherSide, otherAt, isPushedAway } = fault;
      const related = [{ place: atSpan(otherAt), message: `the ${otherSide} of "${other}"` }];
      const at = `${words.brief(where)} from the left end and ${words.brief(high)} up`;
      const wanted = `one is wanted there ${words.brief(where)} from the right end and ${words.brief(high)} up, seen from outside`;
      const facts = { tile, side, other, otherSide, where: at, fitting: hole.fitting, wanted };
      return diagnose(isPushedAway ? 'F24' : 'F23', atSpan(hole.at), facts, { related });
    }
    case 'habit': {
      const code = { 'flutes not upright': 'F09', 'weak strip': 'F10', 'bare flutes': 'F11' } as const;
      const { part, others, side, habit } = fault;
      return diagnose(code[habit], atSpan(part.at), { tile, part: part.part, others, side });
    }
  }
}

/** `left, 0 across, 2 1/4 along, 1/4 up` */
function placeOf({ side, middle }: StandingFitting, words: Words): string {
  return [side, ...ways.map((way) => `${words.brief(middle[way])} ${way}`)].join(', ');
}

/** Where places along a side are measured from. */
function firstEnd(side: LevelSide): 'left' | 'front' {
  return side === 'front' || side === 'back' ? 'left' : 'front';
}

function unclosed(
  fault: Extract<Fault, { kind: 'does not close' | 'does not close as marked' }>,
  tile: string,
  words: Words,
) {
  const { what, way, extent, room } = fault;
  const by = minus(extent, room);
  return {
    tile,
    what,
    way,
    comesTo: words.brief(extent),
    room: words.brief(room),
    by: words.full(absolute(by)),
    miss: isNegative(by) ? ('short' as const) : ('over' as const),
  };
}

/** `1/16 face + 2 7/8 core + 1/16 back = 3 in`. */
function sumText(terms: readonly Term[], total: Length, words: Words): string | undefined {
  if (terms.length < 2 && (terms[0]?.count ?? 1) < 2) return undefined;
  const texts = terms.map(({ name, count, size: each }) => {
    const text = termText(each, words.unit);
    return count === 1 ? `${text} ${name}` : `${count} x ${text} ${name}`;
  });
  return `${texts.join(' + ')} = ${words.brief(total)}`;
}

/** Bare in the user's unit; a thickness read off a caliper in the unit in which it can be read. */
function termText(length: Length, unit: Style['firstUnit']): string {
  const own = showExact(length, unit);
  const isReadable = (text: string): boolean => !/\/(?!(?:2|4|8|16|32|64)\b)/u.test(text);
  const other = showExact(length, unit === 'in' ? 'mm' : 'in');
  return isReadable(own) || !isReadable(other) ? own.replace(/ (?:in|mm)$/u, '') : other;
}

function onlyThickness({ extent, room, isWhole }: Unclosed): string {
  const why = 'no size alone makes it right: thicknesses add up to it';
  const isShort = compare(extent, room) < 0;
  return isShort && !isWhole ? `${why}; more layers do, or   gap rest   where it may stay open` : why;
}

function sharedOut({ sizes, share, instead }: Misshared, words: Words): string {
  const names = sizes.map(({ part, size: which }) => `${which} of ${part}`).join(', ');
  const isOne = sizes.length === 1;
  return (
    `${names}: ${isOne ? 'its rest is a share' : 'their rest is a share each'} of what is left, like each gap rest: ` +
    `${words.brief(share)}. Say   ${instead.size} of ${instead.part}   in its place`
  );
}

/** `1 brick less in each row closes it`. */
function rightCount({ part, more }: NonNullable<Unclosed['pieces']>, rows: number): string {
  const many = Math.abs(more);
  const verb = many === 1 ? 'closes' : 'close';
  return `${many} ${part} ${more > 0 ? 'more' : 'less'}${rows === 1 ? '' : ' in each row'} ${verb} it`;
}

/** What lets a part stick out that nobody would think of at once. */
function whyOut({ part, side, by }: SticksOut, { parts }: Build, words: Words): WhyOut | undefined {
  const { way, end } = endOfSide[side];
  const high = minus(part.block.high[way], part.block.low[way]);
  if (laps(part) && way === part.stance.thickness) {
    return { kind: 'laps', room: words.brief(minus(high, by)) };
  }
  const { inclined, stance } = part;
  if (inclined?.how.kind !== 'bend' || stance[inclined.size] !== way) return undefined;
  const { over } = inclined.how;
  const edges = parts.filter(({ name }) => over.includes(name));
  // Trimmed upright it ends where they do.
  const isBeyond = edges.every(({ block }) => compare(minus(block.high[way], block.low[way]), high) < 0);
  return isBeyond && !endsUpright(part, edges, { way, end }) ? { kind: 'square ends' } : undefined;
}

/** It stands out by its whole thickness, so its end is upright as it is and has nothing to trim. */
function endsUpright(
  { block, size: { thickness } }: StandingPart,
  edges: readonly StandingPart[],
  { way, end }: { readonly way: Way; readonly end: 'low' | 'high' },
): boolean {
  const out = ({ block: edge }: StandingPart): Length =>
    end === 'low' ? minus(edge.low[way], block.low[way]) : minus(block.high[way], edge.high[way]);
  return edges.some((it) => compare(sum(out(it), hundredth), thickness) >= 0);
}

const hundredth = millimetres(rational(1n, 100n));

/** Each pair of holes that come too near; what all of them have in common is said once. */
function pairsSaid(pairs: readonly HolePair[], words: Words) {
  const holes = pairs.flatMap(({ hole, other }) => [hole, other]);
  const inCommon = (what: (it: StandingFitting) => string): string | undefined => {
    const all = new Set(holes.map(what));
    return all.size === 1 ? [...all][0] : undefined;
  };
  const ownWay = ({ side, middle }: StandingFitting) =>
    `${side}, ${words.brief(middle[endOfSide[side].way])} ${endOfSide[side].way}`;
  const side = inCommon(ownWay) === undefined ? undefined : inCommon((it) => it.side);
  const isOneFitting = inCommon((it) => it.fitting) !== undefined;
  const place = (it: StandingFitting): string => {
    const { way } = endOfSide[it.side];
    const where = ways.filter((other) => side === undefined || other !== way);
    return [
      ...(side === undefined ? [it.side] : []),
      ...where.map((other) => `${words.brief(it.middle[other])} ${other}`),
    ].join(', ');
  };
  const named = (it: StandingFitting) => (isOneFitting ? `(${place(it)})` : `"${it.fitting}" (${place(it)})`);
  return {
    side,
    fitting: inCommon((it) => it.fitting),
    pairs: pairs.map(({ hole, other, left, least }) => ({
      one: named(hole),
      other: named(other),
      left: words.brief(absolute(left.lo)),
      isIn: isNegative(left.lo),
      least: showThickness(least, words.unit),
    })),
    apart: farEnough(pairs, words),
  };
}

/** How far the middles of holes that open to one side have to be from each other; undefined where they open to two. */
function farEnough(pairs: readonly HolePair[], { unit }: Words): string | undefined {
  const sides = new Set(pairs.flatMap(({ hole, other }) => [hole.side, other.side]));
  if (sides.size > 1) return undefined;
  const needed = pairs.map(({ hole, other, least }) =>
    sum(scaled(sum(hole.diameter, other.diameter), rational(1n, 2n)), least),
  );
  return showThickness(needed.reduce(larger), unit);
}

/** `rises 3 in over 4 in`; why no hole goes square into it. */
function slantOf({ inclined, isFolded }: StandingPart, words: Words): string {
  if (inclined?.how.kind === 'slope') {
    return `rises ${words.brief(inclined.how.rise)} over ${words.brief(inclined.how.run)}`;
  }
  return inclined?.how.kind === 'bend' ? 'is bent' : isFolded === true ? 'is folded' : 'is not square there';
}

/** A size that no measure of the part says, and what of it could be changed. */
function following({ part, from, extent }: Follows, way: Way, words: Words): string {
  const other = {
    'its slope': 'another rise or run',
    'its folds': 'other panels or angles',
    'its tray': 'another size of that',
  }[from];
  return `${part} is ${words.brief(extent)} ${way} by ${from}: ${other}`;
}

function rightSize({ parts, right }: RightSize, words: Words): string {
  const names = [
    ...new Set(
      parts.map(({ part, size: which }) =>
        which === 'run' ? `run of the slope of ${part}` : `${which} of ${part}`,
      ),
    ),
  ];
  return `${names.join(', ')}: ${words.full(right)} closes it`;
}

/** The marks of one rule that serve, and how to say that it is at hand. */
function withItsRule(marks: readonly Marked[], words: Words): string {
  const { scale } = marks.find(({ exact, mark }) => !equal(exact, mark)) ?? marks[0] ?? {};
  const names = marks.map(markText).join(', ');
  if (scale === undefined) return `marks that serve: ${names}`;
  const rule = showExact(scale, unitOfRule(scale));
  const options = [...new Set([words.ruler, `--ruler '${rule}'`])].join(' ');
  return `marks that serve, with a rule of ${rule}: ${names}; say so by   ${options}   or in   print: { ruler: … }`;
}

/** The mark as it stands on its rule: `width of core 2 55/64 in`. */
function markText({ part, size: which, mark, scale }: Marked): string {
  return `${which} of ${part} ${showExact(mark, unitOfRule(scale))}`;
}

/** How far beyond the footprint it may reach; undefined where that is no further than the footprint itself. */
function allowedAt({ side, limit }: SticksOut): Length | undefined {
  if (side === 'top') return limit;
  const isLow: readonly TileSide[] = ['left', 'front', 'bottom'];
  if (isLow.includes(side)) return isZero(limit) ? undefined : opposite(limit);
  return undefined;
}
