import {
  isPositive,
  millimetres,
  minus,
  multiply,
  rational,
  subtract,
  sum,
  zero,
} from '../../measure/index.ts';
import type {
  Drawn,
  Enclosure,
  FoldAngle,
  FoldMaking,
  FoldWay,
  Length,
  NonEmpty,
  Outline,
  Point,
  Rational,
} from '../../model/index.ts';
import { boxOf } from '../box.ts';
import { intersection, union } from '../combine.ts';
import { addUp, exactly, isExact, lessBy, timesExact } from '../enclosure.ts';
import { drawn, fault, undrawn } from '../fault.ts';
import { loopThrough, type Motion } from '../loop.ts';
import { onDatum, shiftToDatum } from '../makers/turned.ts';
import { movedPanel, type PanelFrame } from '../panels.ts';
import { asLengths, hair, middleOf, snappedPoint } from '../root.ts';
import { shareArea } from '../sharing.ts';
import { leftOf, less, plus, point, stretched, type Vector } from '../vector.ts';
import { selfCrossingOf } from '../wellFormed.ts';
import { halfOf, mitreOf, noTurn, type Turn, turnedBack, turnedBy, turnOf } from './bend.ts';

/**
 * A strip that is folded across: panels one after the other, seen from the side, the good side up.
 *
 *        T ───────────── T          T, B: the mitre of a fold. The size of a panel is its outer one: from one
 *         ╲ panel 1     ╱ ╲         outer corner to the next, here along the good side.
 *        B ───────── B     ╲
 *                     ╲     ╲       away: what follows turns down, away from whoever sees the good side
 */
export interface Strip {
  /** Outer sizes. */
  readonly panels: NonEmpty<Length>;
  /** One less than there are panels. */
  readonly folds: readonly Fold[];
  readonly thickness: Length;
  /** What a panel is called, by its number from 0; else `panel 1`, `panel 2`, … */
  readonly nameOf?: (panel: number) => string;
}

export interface Fold {
  /** More than none and less than half round. */
  readonly angle: FoldAngle;
  /** Which way what follows it turns, seen from the good side. */
  readonly way: FoldWay;
  readonly made: FoldMade;
}

/**
 * What the blank is shorter by for a fold than its two panels are outside: half of it on either side.
 *
 *   score   cut in from the outside, so that it opens; bends at the inner face          2 t · tan(a/2)
 *   crease  pressed, nothing cut; bends in the middle of the thickness                    t · tan(a/2)
 *   groove  a V taken out of the inside, down to the outer paper; closes as a mitre      0
 *
 * @source the geometry of a hinge at that depth; computed. Which depth bends: common practice, no source
 */
export type FoldMade = FoldMaking | { readonly allowance: Length };

export interface FoldedStrip {
  /** How long the blank is. */
  readonly length: Enclosure<Length>;
  /** Where its folds lie along it. */
  readonly lines: readonly Enclosure<Length>[];
  /** How much the blank is shorter by, fold by fold. */
  readonly allowances: readonly Enclosure<Length>[];
  /** Seen from the side, on its datum: x as the blank runs, y to the good side; what it fills once it is folded. */
  readonly body: Outline;
  /** Where in it each panel is, and what of the blank it is. */
  readonly panels: () => readonly PanelFrame[];
  /** How large that is. */
  readonly box: { readonly length: Length; readonly height: Length };
  /** The panel that lies level, from 0, and where its underside lies in the box; undefined where none does. */
  readonly base: { readonly panel: number; readonly height: Length } | undefined;
}

/**
 * Folds a strip.
 *
 * @param base  the panel that lies level, from 0; without one, a strip that is the same from both ends stands the
 *              same to both sides, and any other lies on its longest panel, of equals the first
 * @errors T30 a panel that its folds leave nothing of, T31 panels that run into each other. A facet is
 *         `['panels', i]`
 */
export function foldedStrip(strip: Strip, base?: number): Drawn<FoldedStrip> {
  const { panels, thickness, nameOf = (i: number) => `panel ${i + 1}` } = strip;
  const bends = strip.folds.map(({ angle, way, made }): Worked => {
    const turn = turnOf(angle);
    const back = timesExact(mitreOf(turn), thickness);
    return { turn, way, back, allowance: allowanceOf(made, back) };
  });
  const faults = panels.flatMap((size, i) => {
    const taken = takenOf(bends[i - 1], bends[i]);
    if (isPositive(subtract(size, taken.hi))) return [];
    return [
      fault('T30', ['panels', i], (show) => ({
        what: nameOf(i),
        size: show(size),
        taken: show(millimetres(taken.hi), isExact(taken) ? undefined : 'up'),
        thickness: show(thickness),
      })),
    ];
  });
  if (faults.length > 0) return undrawn(...faults);
  const level = base ?? levelPanel(strip);
  const quads = quadsOf(panels, bends, thickness, startOf(bends, level, panels.length));
  const round = roundOf(quads);
  const met = round === undefined ? meetingOf(quads) : undefined;
  if (met !== undefined) {
    const { one, other, shared } = met;
    return undrawn(
      fault('T31', ['panels', other], (show) => ({
        one: nameOf(one),
        other: nameOf(other),
        size: `${show(shared.length, 'near')} by ${show(shared.height, 'near')}`,
      })),
    );
  }
  const all = round ?? joined(quads);
  const whole = onDatum(all);
  const { right, top } = boxOf(whole);
  const allowances = bends.map(({ allowance }) => asLengths(allowance));
  const { lines, length } = laidOut(panels, bends);
  const places = () => placesOf({ quads, bends, lines, length }, shiftToDatum(all));
  return drawn({
    length,
    lines,
    allowances,
    body: whole,
    panels: places,
    box: { length: millimetres(right.hi), height: millimetres(top.hi) },
    base: level === undefined ? undefined : { panel: level, height: heightIn(quads, level) },
  });
}

interface Worked {
  readonly turn: Turn;
  readonly way: FoldWay;
  /** How far the inner corner of a panel lies back from its outer one. */
  readonly back: Enclosure;
  readonly allowance: Enclosure;
}

function allowanceOf(made: FoldMade, back: Enclosure): Enclosure {
  if (made === 'groove') return exactly(zero);
  if (made === 'crease') return back;
  return made === 'score' ? timesExact(back, rational(2n)) : exactly(made.allowance);
}

/** The most that is taken from one face of a panel, or from its place in the blank. */
function takenOf(before: Worked | undefined, behind: Worked | undefined): Enclosure {
  const none = exactly(zero);
  const ofFace = (way: FoldWay): Enclosure =>
    addUp(...[before, behind].map((it) => (it?.way === way ? it.back : none)));
  const ofBlank = timesExact(addUp(before?.allowance ?? none, behind?.allowance ?? none), rational(1n, 2n));
  const all = [ofFace('away'), ofFace('toward'), ofBlank];
  return all.reduce((a, b) => (isPositive(subtract(b.hi, a.hi)) ? b : a));
}

function laidOut(panels: readonly Length[], bends: readonly Worked[]): Pick<FoldedStrip, 'lines' | 'length'> {
  let [end, taken]: [Length, Enclosure] = [zero, exactly(zero)];
  const lines: Enclosure<Length>[] = [];
  for (const [i, panel] of panels.entries()) {
    end = sum(end, panel);
    const bend = bends[i];
    if (bend === undefined) break;
    const half = timesExact(bend.allowance, rational(1n, 2n));
    lines.push(asLengths(lessBy(exactly(end), addUp(taken, half))));
    taken = addUp(taken, bend.allowance);
  }
  return { lines, length: asLengths(lessBy(exactly(end), taken)) };
}

interface LaidOut extends Pick<FoldedStrip, 'lines' | 'length'> {
  readonly quads: readonly Quad[];
  readonly bends: readonly Worked[];
}

/** What lies behind a fold's line in the blank begins half its allowance behind the panel's outer corner. */
function placesOf({ quads, bends, lines, length }: LaidOut, toDatum: Motion): readonly PanelFrame[] {
  return quads.map((quad, i): PanelFrame => {
    const [before, behind] = [lines[i - 1], lines[i]];
    const half = middleOf(bends[i - 1]?.allowance ?? exactly(zero));
    const begin = subtract(middleOf(before ?? exactly(zero)), multiply(half, rational(1n, 2n)));
    const { from, to, begins, onward } = quad;
    const place: PanelFrame = {
      seen: [from.under, to.under, to.good, from.good],
      at: less(begins, stretched(onward, begin)),
      onward,
      from: millimetres(before === undefined ? zero : middleOf(before)),
      to: millimetres(middleOf(behind ?? length)),
    };
    return movedPanel(place, toDatum);
  });
}

/** Undefined where it is the same from both ends and has a fold in its middle. */
function levelPanel({ panels, folds }: Strip): number | undefined {
  const key = ({ angle, way }: Fold): string =>
    `${way} ${Object.values(turnOf(angle)).map(textOf).join(' ')}`;
  const isSame =
    panels.every((it, i) => isSameSize(it, panels[panels.length - 1 - i])) &&
    folds.map(key).join() === folds.map(key).reverse().join();
  if (isSame) return panels.length % 2 === 0 ? undefined : (panels.length - 1) / 2;
  const most = panels.reduce((a, b) => (isPositive(minus(b, a)) ? b : a));
  return panels.indexOf(most);
}

function textOf({ lo, hi }: Enclosure): string {
  return [lo, hi].map(({ numerator, denominator }) => `${numerator}/${denominator}`).join();
}

function isSameSize(a: Length, b: Length | undefined): boolean {
  return b !== undefined && minus(a, b).numerator === 0n;
}

/** How the first panel is turned, so that the base lies level, or the middle fold points up or down. */
function startOf(bends: readonly Worked[], base: number | undefined, count: number): Turn {
  const until = base ?? count / 2;
  let turn = noTurn;
  for (const [i, bend] of bends.slice(0, until).entries()) {
    const isMiddle = base === undefined && i === until - 1;
    turn = turnedBy(turn, turnedBack(signed(isMiddle ? halfOf(bend.turn) : bend.turn, bend.way)));
  }
  return turn;
}

function signed(turn: Turn, way: FoldWay): Turn {
  return way === 'toward' ? turn : turnedBack(turn);
}

/** The four corners of a panel: along its underside, then back along its good side. */
interface Quad {
  readonly from: Corner;
  readonly to: Corner;
  readonly isExact: boolean;
  /** Where its outer size begins, on its underside; and the way it goes from there. */
  readonly begins: Point;
  readonly onward: Point;
}

interface Corner {
  readonly under: Point;
  readonly good: Point;
}

function quadsOf(
  panels: readonly Length[],
  bends: readonly Worked[],
  thickness: Length,
  start: Turn,
): readonly Quad[] {
  const quads: Quad[] = [];
  let turn = start;
  // The outer corner at which the panel begins lies on its underside, or a thickness above it.
  let corner: { readonly at: Vector; readonly isGood: boolean } = { at: point(zero, zero), isGood: false };
  let from: Corner | undefined;
  let isSure = true;
  for (const [i, panel] of panels.entries()) {
    isSure &&= isExact(turn.sine) && isExact(turn.cosine);
    const onward = point(middleOf(turn.cosine), middleOf(turn.sine));
    const up = stretched(leftOf(onward), thickness);
    const under = corner.isGood ? less(corner.at, up) : corner.at;
    const at = (along: Rational): Corner => {
      const here = plus(under, stretched(onward, along));
      return { under: here, good: plus(here, up) };
    };
    const bend = bends[i];
    isSure &&= bend === undefined || isExact(bend.back);
    const outer = at(panel);
    const inner = bend === undefined ? outer : at(subtract(panel, middleOf(bend.back)));
    const end =
      bend?.way === 'away'
        ? { under: inner.under, good: outer.good }
        : { under: outer.under, good: inner.good };
    const to = isSure ? end : snapped(end);
    const start = at(rational(0n));
    const begins = point(under.x, under.y);
    const way = isSure ? onward : snappedPoint(onward);
    quads.push({ from: from ?? (isSure ? start : snapped(start)), to, isExact: isSure, begins, onward: way });
    from = to;
    if (bend === undefined) break;
    corner = { at: bend.way === 'away' ? outer.good : outer.under, isGood: bend.way === 'away' };
    turn = turnedBy(turn, signed(bend.turn, bend.way));
  }
  return quads.map((it) => ({ ...it, isExact: isSure }));
}

function snapped({ under, good }: Corner): Corner {
  return { under: snappedPoint(under), good: snappedPoint(good) };
}

function outlineOfQuad({ from, to, isExact }: Quad): Outline {
  return {
    rim: loopThrough([from.under, to.under, to.good, from.good]),
    holes: [],
    marks: [],
    within: isExact ? zero : hair,
  };
}

/** All along its underside, then back along its good side; undefined where that meets itself. */
function roundOf(quads: readonly Quad[]): Outline | undefined {
  const [first] = quads;
  if (first === undefined) return undefined;
  const corners = [first.from, ...quads.map(({ to }) => to)];
  const rim = loopThrough([
    ...corners.map(({ under }) => under),
    ...corners.map(({ good }) => good).reverse(),
  ]);
  if (selfCrossingOf(rim) !== undefined) return undefined;
  return { rim, holes: [], marks: [], within: first.isExact ? zero : hair };
}

interface Meeting {
  readonly one: number;
  readonly other: number;
  /** How large what they share is, as it is seen from the side. */
  readonly shared: FoldedStrip['box'];
}

/** The first two panels that share space; those beside each other are parted by their mitre. */
function meetingOf(quads: readonly Quad[]): Meeting | undefined {
  const all = quads.map(outlineOfQuad);
  for (const [other, second] of all.entries()) {
    for (const [one, first] of all.slice(0, Math.max(0, other - 1)).entries()) {
      if (shareArea(first, second) === 'yes') return { one, other, shared: sharedSize(first, second) };
    }
  }
  return undefined;
}

function sharedSize(first: Outline, second: Outline): FoldedStrip['box'] {
  const [shared] = intersection(first, second);
  if (shared === undefined) return { length: zero, height: zero };
  const { left, right, bottom, top } = boxOf(shared);
  return { length: minus(right.hi, left.lo), height: minus(top.hi, bottom.lo) };
}

/** Panels that touch in a round leave a hole between them. */
function joined(quads: readonly Quad[]): Outline {
  const [first, ...rest] = quads.map(outlineOfQuad);
  return rest.reduce((all, it) => union(all, it)[0] ?? all, first as Outline); // there is a first panel
}

/** Of the underside of a level panel, over the lowest point of all. */
function heightIn(quads: readonly Quad[], base: number): Length {
  const heights = quads.flatMap(({ from, to }) => [from, to].flatMap(({ under, good }) => [under.y, good.y]));
  const lowest = heights.reduce((a, b) => (isPositive(minus(a, b)) ? b : a));
  return minus(quads[base]?.from.under.y ?? lowest, lowest);
}
