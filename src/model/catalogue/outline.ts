import { type Entry, entry } from './entry.ts';
import { foldCodes } from './folds.ts';

/** The codes of `outline/`. A code is never reused or renumbered. */
export const outlineCodes = {
  T01: entry({
    severity: 'error',
    title: 'a size of an outline that is not above zero',
    say: ({ what, found }: { what: string; found: string }) =>
      `the ${what} is ${found}, and has to be above 0`,
  }),
  T02: entry({
    severity: 'error',
    title: 'an arch that is more than half a circle',
    say: ({ rise, span }: { rise: string; span: string; half: string }) =>
      `a rise of ${rise} over ${span} is more than half a circle`,
    hint: ({ half }) => `a rise of at most ${half}, half the width`,
  }),
  T03: entry({
    severity: 'error',
    title: 'a radius that is too small for its arc',
    say: ({ radius, span }: { radius: string; span: string; half: string }) =>
      `an arc of radius ${radius} does not reach over ${span}`,
    hint: ({ half }) => `a radius of at least ${half}, half of that`,
  }),
  T04: entry({
    severity: 'error',
    title: 'too few points',
    say: ({ found, least }: { found: number; least: number }) =>
      `${found === 1 ? '1 point' : `${found} points`}, where at least ${least} are needed`,
  }),
  T05: entry({
    severity: 'error',
    title: 'a point given twice',
    say: ({ point, number, other }: { point: string; number: number; other: number }) =>
      `point ${number}, [${point}], is where point ${other} is`,
    hint: () => 'leave one of the two out',
  }),
  T06: entry({
    severity: 'error',
    title: 'points out of order',
    say: ({ number, along, before }: { number: number; along: string; before: string }) =>
      `point ${number} lies ${along} along, not to the right of the one before it at ${before}`,
    hint: () => 'give the points from left to right',
  }),
  T07: entry({
    severity: 'error',
    title: 'a top edge that goes down to its base',
    say: ({ number, height }: { number: number; height: string }) =>
      `the top edge is ${height} high at point ${number}, so nothing is left there`,
    hint: () => 'heights above 0; only the first or the last may be 0',
  }),
  T08: entry({
    severity: 'error',
    title: 'an outline that crosses itself',
    say: ({ near, first, second }: { near: string; first: number; second: number }) =>
      first === second
        ? `the outline crosses itself near [${near}], in its piece ${first}`
        : `the outline crosses itself near [${near}], where its pieces ${first} and ${second} meet`,
    hint: () => 'take the points in the order in which the edge runs',
  }),
  T09: entry({
    severity: 'error',
    title: 'an outline without an area',
    say: () => 'all points of the outline lie on one line',
  }),
  T10: entry({
    severity: 'error',
    title: 'corners that have no room beside each other',
    say: ({ side, needs, has }: { side: string; needs: string; has: string }) =>
      `the corners take ${needs} of the ${side} side, which is ${has} long`,
    hint: ({ has }) => `corners that come to at most ${has} together`,
  }),
  T11: entry({
    severity: 'error',
    title: 'no square corner there',
    say: ({ corner }: { corner: string }) =>
      corner === 'any'
        ? 'the outline has no square corner'
        : `the outline has no square corner at its ${corner}`,
    hint: () => 'round and clip take a square corner of the box around the outline',
  }),
  T12: entry({
    severity: 'error',
    title: 'a cut that is wider than its edge',
    say: ({ cut, needs, has, side }: WideCut) =>
      `the ${cut} takes ${needs} along the ${side} edge, which is ${has} long`,
    hint: ({ has, most }) => `at most ${has} in all${most === undefined ? '' : `:   times: ${most}`}`,
  }),
  T13: entry({
    severity: 'error',
    title: 'a cut that severs the part',
    say: ({ cut, pieces, deep }: { cut: string; pieces: number; deep: string; least: string | undefined }) =>
      `the ${cut}, ${deep} deep, severs the part into ${pieces} pieces`,
    hint: ({ least }) =>
      least === undefined
        ? 'another place for it, or two parts'
        : `less than ${least} deep, another place for it, or two parts`,
  }),
  T14: entry({
    severity: 'error',
    title: 'a hole that is not inside',
    say: ({ what, takes, which }: HoleOut) => {
      const where =
        what === 'outside'
          ? 'lies outside the part'
          : what === 'over the edge'
            ? 'runs over the edge of the part, or touches it'
            : 'runs into another hole, or touches it';
      const hole = which === undefined ? 'the hole' : `hole ${which.number} of ${which.times}`;
      return `${hole} ${where}: it takes ${takes}`;
    },
    hint: ({ what, part, which }) => {
      const fewer = which?.most === undefined ? [] : [`times: ${which.most}`];
      const clear = `keep clear of the edges of the part, which is ${part}; a notch or an arch is open at its edge`;
      const all = what === 'over another hole' ? fewer : [...fewer, clear];
      return all.length === 0 ? undefined : all.join(', or ');
    },
  }),
  T15: entry({
    severity: 'error',
    title: 'nothing left of an outline',
    say: ({ why }: { why: string }) => `nothing is left of the outline ${why}`,
  }),
  T16: entry({
    severity: 'error',
    title: 'an outline that falls apart',
    say: ({ why, pieces }: { why: string; pieces: number }) =>
      `the outline falls into ${pieces} pieces ${why}`,
  }),
  T17: entry({
    severity: 'error',
    title: 'repeats that run into each other',
    say: ({ cut, every, size }: { cut: string; every: string; size: string }) =>
      `the ${cut} is ${size} wide and is repeated every ${every}`,
    hint: ({ size }) => `every more than ${size}`,
  }),
  T18: entry({
    severity: 'error',
    title: 'a half that does not meet its mirror image',
    say: () => 'the half has no edge on its right side, where its mirror image joins on',
    hint: () => 'let the half end in a straight edge on its right',
  }),
  T19: entry({
    severity: 'warning',
    title: 'a cut that takes nothing away',
    say: ({ cut }: { cut: string }) => `the ${cut} takes nothing away`,
  }),
  T20: entry({
    severity: 'error',
    title: 'a cut as deep as the part',
    say: ({ cut, deep, has }: { cut: string; deep: string; has: string }) =>
      `the ${cut} is ${deep} deep, and the part only ${has}`,
    hint: ({ has }) => `less than ${has}`,
  }),
  T40: entry({
    severity: 'error',
    title: 'a mark off its part',
    say: ({ mark, at }: { mark: 'cross' | 'line'; at: string; part: string }) =>
      mark === 'cross' ? `the cross lies off the part: ${at}` : `the line goes off the part: ${at}`,
    hint: ({ part }) => `points go along and up from the left bottom corner of the part, which is ${part}`,
  }),
  ...foldCodes,
} as const;

interface WideCut {
  readonly cut: string;
  readonly needs: string;
  readonly has: string;
  readonly side: string;
  /** So many of its repeats have room; undefined where not even one has, or it isn't repeated. */
  readonly most: number | undefined;
}

interface HoleOut {
  readonly what: 'outside' | 'over the edge' | 'over another hole';
  /** `2 1/2 in to 3 1/2 in along and 1/2 in to 1 1/2 in up` */
  readonly takes: string;
  readonly part: string;
  /** Of what is repeated: which of them, counted from 1, and how many would be clear; undefined where none would. */
  readonly which:
    | { readonly number: number; readonly times: number; readonly most: number | undefined }
    | undefined;
}

export type OutlineCode = keyof typeof outlineCodes;
export type OutlineFacts<C extends OutlineCode> =
  (typeof outlineCodes)[C] extends Entry<infer Facts> ? Facts : never;
