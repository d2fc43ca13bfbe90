import { entry } from './entry.ts';
import { few } from './few.ts';

/** The codes of `fit/`. A code is never reused or renumbered. */
export const fitCodes = {
  F01: entry({
    severity: 'error',
    title: 'a build that does not close',
    say: ({ tile, what, way, comesTo, room, by, miss, sum, rows, lapping }: Unclosed) =>
      what === 'the tile'
        ? `"${tile}" comes to ${sum ?? comesTo} ${way} and should be ${room}: ${by} ${miss}`
        : `"${tile}": the ${what} comes to ${sum ?? comesTo} and has ${room} to fill: ${by} ${miss}` +
          `${rows === 1 ? '' : `, in each of ${rows} rows`}` +
          `${lapping === undefined ? '' : `; the sides of "${lapping.part}" are ${lapping.high} high, and don't count since it laps`}`,
    hint: ({ lapping }) =>
      lapping && `fill it higher, or let its sides alone make the height:   to: free   of the row`,
  }),
  F02: entry({
    severity: 'error',
    title: 'a build that does not close as it is marked',
    say: ({ tile, what, way, comesTo, room, by, miss }: Unclosed) =>
      `"${tile}" closes, but not cut to the nearest marks: ` +
      `${what === 'the tile' ? `it comes to ${comesTo} ${way}` : `the ${what} comes to ${comesTo}`}, ` +
      `and has ${room}: ${by} ${miss}`,
    hint: ({ sum }) => sum,
  }),
  F03: entry({
    severity: 'error',
    title: 'a part that sticks out',
    say: ({ tile, part, side, by, allowed, why }: SticksOut) =>
      `"${tile}": ${why?.kind === 'laps' ? `the folded sides of "${part}" stick` : `"${part}" sticks`} out ${by} at the ${side}` +
      `${allowed === undefined ? '' : `, where ${allowed} is allowed`}`,
    hint: ({ side, why }) => {
      if (why?.kind === 'laps') {
        return `it laps over what is less high: sides of at most ${why.room}, or more ${side === 'top' ? 'room above' : 'to lie on'}`;
      }
      if (why?.kind === 'square ends') {
        return `trim it upright, flush with the ends of what it lies on:   ends: plumb   or allow it:   beyond: { ${side}: … }`;
      }
      return side === 'top'
        ? 'lower it, or let the tile be higher:   height:   or the grid:   tallest:'
        : side === 'bottom'
          ? 'raise it: nothing stands below the table'
          : `move it, or allow it:   beyond: { ${side}: … }`;
    },
  }),
  F04: entry({
    severity: 'error',
    title: 'two parts in one place',
    say: ({ tile, part, other, by, way }: Overlap) =>
      `"${tile}": "${part}" and "${other}" are in one place, ${by} deep ${way}`,
    hint: () => 'move one of them, or make it smaller by that much',
  }),
  F05: entry({
    severity: 'error',
    title: 'a part that touches nothing',
    say: ({ tile, part }: { tile: string; part: string }) =>
      `"${tile}": "${part}" touches nothing of the rest, so nothing holds it`,
    hint: () => 'move it against something, or say   accepted: { floating: WHY }   of the part',
  }),
  F06: entry({
    severity: 'error',
    title: 'a floor that is off its level',
    say: ({ tile, side, end, found, declared, by, miss, part }: OffLevel) =>
      `"${tile}": the floor at the ${side}${end === undefined ? '' : `, at its ${end} end,`} is ${found} high, on "${part}"; ` +
      `its level is ${declared}: ${by} too ${miss}`,
    hint: ({ lip, part, mayBeNone }) =>
      mayBeNone
        ? `if nobody stands on "${part}", say   floor: no   of that part; else a floor may be off by the lip, ${lip}`
        : `a floor may be off its level by the lip, ${lip}`,
  }),
  F07: entry({
    severity: 'error',
    title: 'a level without a floor',
    say: ({ tile, side }: { tile: string; side: string }) =>
      `"${tile}": no floor reaches the ${side}, where a level is declared`,
    hint: ({ side }) => `leave the ${side} out of the edges, or let it be   ${side}: wall`,
  }),
  F08: entry({
    severity: 'error',
    title: 'a tile too large for its rack',
    say: ({ tile, rack, way, needs, has }: Rackful) =>
      `"${tile}" is ${needs} ${way}; the rack "${rack}" leaves ${has}`,
  }),
  F09: entry({
    severity: 'warning',
    title: 'flutes lying down in a wall that bears',
    say: ({ tile, part, others }: Habitual) =>
      `"${tile}": ${pieces(part, others)} as a wall that bears, and its flutes don't stand upright`,
    hint: () =>
      'common practice:   flutes: upright   or say   accepted: { flutes not upright: WHY }   of the part',
  }),
  F10: entry({
    severity: 'warning',
    title: 'a thin strip across the grain',
    say: ({ tile, part, others }: Habitual) =>
      `"${tile}": ${pieces(part, others)} as a thin strip that may snap, since the grain doesn't run along it`,
    hint: () =>
      'common practice: let the grain run along its longer side, or say   accepted: { weak strip: WHY }   of the part',
  }),
  F11: entry({
    severity: 'warning',
    title: 'flutes that show',
    say: ({ tile, part, others, side }: Habitual) =>
      `"${tile}": ${pieces(part, others)} with the ends of its flutes bare at the ${side}`,
    hint: () =>
      'common practice: cover them with a strip, or say   accepted: { bare flutes: WHY }   of the part',
  }),
  F12: entry({
    severity: 'error',
    title: 'a wall that leaves a way through',
    say: ({ tile, side, level, where }: WayThrough) =>
      `"${tile}": ${[`nothing closes the ${side}`, ...(level === undefined ? [] : [`from ${level} up`]), ...(where === undefined ? [] : [where])].join(', ')}`,
    hint: ({ side }) =>
      `let a part reach the ${side} there, or say in its edges what level its floor has, or nothing of it`,
  }),
  F13: entry({
    severity: 'warning',
    title: 'a verdict that hangs on a curve',
    say: ({ tile, part, other, what, side }: OnACurve) => `"${tile}": ${doubts(what, part, other, side)}`,
    hint: () => 'change a size by 0.05 mm or more, so that it is plain which it is',
  }),
  F14: entry({
    severity: 'error',
    title: 'a slope with a step in it',
    say: ({ tile, side, part, where, from, to }: Step) =>
      `"${tile}": the floor at the ${side} is to slope, and steps from ${from} to ${to} on "${part}", ${where}`,
    hint: ({ side, lip }) =>
      `a floor may step by the lip, ${lip}; a side with steps has no level: leave the ${side} out of the edges`,
  }),
  // Fittings let in: F20 to F24
  F20: entry({
    severity: 'error',
    title: 'too little left beside a hole',
    say: ({ tile, fitting, hole, part, wall, least, isOut }: ThinWall) =>
      isOut
        ? `"${tile}": the hole for "${fitting}" (${hole}) breaks out of "${part}" by ${wall}`
        : `"${tile}": the hole for "${fitting}" (${hole}) leaves ${wall} of "${part}", and ${least} is the least wall`,
    hint: () =>
      'move it, or take a thicker part or a smaller fitting; the least is said by   least wall:   of the fitting',
  }),
  F21: entry({
    severity: 'error',
    title: 'a hole where there is no part',
    say: ({ tile, fitting, hole, from, to, slanting }: HoleInTheAir) =>
      slanting === undefined
        ? `"${tile}": the hole for "${fitting}" (${hole}) has no part around it from ${from} to ${to} deep`
        : `"${tile}": the hole for "${fitting}" (${hole}) comes to "${slanting.part}" from ${from} to ${to} deep; ` +
          `that ${slanting.is}, so no hole goes square into it`,
    hint: ({ slanting, square, from, isFromTheStart }) =>
      slanting === undefined
        ? `let it into something that is there${isFromTheStart ? '' : `, or less deep:   deep: ${from}`}`
        : square.length === 0
          ? 'let it into something that neither slopes nor bends nor is folded'
          : `let it into what neither slopes nor bends nor is folded: ${few(square)}`,
  }),
  F22: entry({
    severity: 'error',
    title: 'holes that meet',
    say: ({ tile, side, fitting, pairs }: MeetingHoles) => {
      const told = pairs.slice(0, mostPairs).map(betweenThem);
      const more = pairs.length - told.length;
      return (
        `"${tile}": the holes${fitting === undefined ? '' : ` for "${fitting}"`}` +
        `${side === undefined ? '' : ` at the ${side}`} come too near each other: ` +
        `${told.join('; ')}${more === 0 ? '' : `; and ${more} more pairs`}`
      );
    },
    hint: ({ pairs, apart }) =>
      `${pairs.length === 1 ? 'move one of them' : 'move them apart, or let in fewer'}` +
      `${apart === undefined ? '' : `: their middles at least ${apart} apart`}`,
  }),
  F23: entry({
    severity: 'error',
    title: 'fittings that do not meet their neighbours',
    say: ({ tile, side, other, otherSide, where, fitting }: Unmet) =>
      `"${tile}": "${fitting}" at ${where} of its ${side} meets none at the ${otherSide} of "${other}"`,
    hint: ({ wanted }) => wanted,
  }),
  F24: entry({
    severity: 'error',
    title: 'poles that push each other away',
    say: ({ tile, side, other, otherSide, where, fitting }: Unmet) =>
      `"${tile}": "${fitting}" at ${where} of its ${side} has the same pole out as the one it meets at the ${otherSide} of "${other}"`,
    hint: () =>
      'a pair on each side meets in every turn: one pole out left of the middle, the other as far right of it',
  }),
  F25: entry({
    severity: 'note',
    title: 'something let pass that nothing does',
    say: ({ part, habit }: { part: string; habit: string }) =>
      `"${part}" lets "${habit}" pass, and in no tile does it come to that`,
    hint: () => 'leave it out of   accepted:   so that it is told when it does',
  }),
} as const;

interface HoleInTheAir {
  readonly tile: string;
  readonly fitting: string;
  readonly hole: string;
  readonly from: string;
  readonly to: string;
  readonly isFromTheStart: boolean;
  /** What is there all the same, and why no hole goes square into it. */
  readonly slanting: { readonly part: string; readonly is: string } | undefined;
  /** Parts of the tile that stand square. */
  readonly square: readonly string[];
}

interface MeetingHoles {
  readonly tile: string;
  /** What all of them have in common, where they do. */
  readonly side: string | undefined;
  readonly fitting: string | undefined;
  readonly pairs: readonly {
    readonly one: string;
    readonly other: string;
    /** What stays between them, or how far they run into each other. */
    readonly left: string;
    readonly isIn: boolean;
    readonly least: string;
  }[];
  /** From middle to middle, of holes that open to one side. */
  readonly apart: string | undefined;
}

/** More make no message that anyone reads. */
const mostPairs = 4;

function betweenThem({ one, other, left, isIn, least }: MeetingHoles['pairs'][number]): string {
  return isIn
    ? `${one} and ${other} run ${left} into each other`
    : `${one} and ${other} leave ${left}, and ${least} is the least wall`;
}

interface ThinWall {
  readonly tile: string;
  readonly fitting: string;
  readonly hole: string;
  readonly part: string;
  readonly wall: string;
  readonly least: string;
  readonly isOut: boolean;
}

/** A fitting at a side of a tile, and the side of a tile that it would lie against. */
interface Unmet {
  readonly tile: string;
  readonly side: string;
  readonly other: string;
  readonly otherSide: string;
  readonly where: string;
  readonly fitting: string;
  readonly wanted: string;
}

interface OnACurve {
  readonly tile: string;
  readonly part: string;
  readonly other: string | undefined;
  readonly what: 'overlap' | 'touch' | 'level' | 'way through';
  readonly side: string | undefined;
}

interface Step {
  readonly tile: string;
  readonly side: string;
  readonly part: string;
  /** Where along the side. */
  readonly where: string;
  readonly from: string;
  readonly to: string;
  readonly lip: string;
}

function doubts(what: OnACurve['what'], part: string, other = '', side = ''): string {
  const hangs = "hangs on less than 0.01 mm of a curve, and can't be told";
  switch (what) {
    case 'overlap':
      return `whether "${part}" and "${other}" are in one place ${hangs}`;
    case 'touch':
      return `whether "${part}" touches "${other}" ${hangs}`;
    case 'level':
      return `whether the floor at the ${side} is at its level, on "${part}", ${hangs}`;
    case 'way through':
      return `whether "${part}" closes the ${side} ${hangs}`;
  }
}

interface WayThrough {
  readonly tile: string;
  readonly side: string;
  /** Undefined where it is to be closed from the table up. */
  readonly level: string | undefined;
  /** From where to where along the side; undefined for all of it. */
  readonly where: string | undefined;
}

interface Unclosed {
  readonly tile: string;
  /** `the tile`, or what the row is called. */
  readonly what: string;
  readonly way: string;
  readonly comesTo: string;
  readonly room: string;
  readonly by: string;
  readonly miss: 'over' | 'short';
  /** How it adds up, or which marks make it. */
  readonly sum: string | undefined;
  /** So many rows that one place says come to the same. */
  readonly rows: number;
  /** What of a folded part goes past the sum. */
  readonly lapping: { readonly part: string; readonly high: string } | undefined;
}

interface SticksOut {
  readonly tile: string;
  readonly part: string;
  readonly side: string;
  readonly by: string;
  readonly allowed: string | undefined;
  /** What lets it stick out, where that is not plain. */
  readonly why:
    | { readonly kind: 'laps'; readonly room: string }
    | { readonly kind: 'square ends' }
    | undefined;
}

interface Overlap {
  readonly tile: string;
  readonly part: string;
  readonly other: string;
  readonly by: string;
  readonly way: string;
}

interface OffLevel {
  readonly tile: string;
  readonly side: string;
  /** The end of the side, where it slopes. */
  readonly end: string | undefined;
  readonly part: string;
  readonly found: string;
  readonly declared: string;
  readonly by: string;
  readonly miss: 'high' | 'low';
  readonly lip: string;
  /** True where it stands on edge, or is off by more than its own thickness: perhaps it is no floor. */
  readonly mayBeNone: boolean;
}

interface Rackful {
  readonly tile: string;
  readonly rack: string;
  readonly way: string;
  readonly needs: string;
  readonly has: string;
}

interface Habitual {
  readonly tile: string;
  readonly part: string;
  readonly others: number;
  readonly side: string | undefined;
}

function pieces(part: string, others: number): string {
  return others === 0 ? `"${part}" stands` : `"${part}" stands ${others + 1} times`;
}
