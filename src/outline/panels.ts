import { compareRationals, minus, zero } from '../measure/index.ts';
import type { Length, Outline, Panel, Profile } from '../model/index.ts';
import { type Motion, pointsOf } from './loop.ts';
import { nearRoot, snapped } from './root.ts';
import { dot, less, opposite, plus, point, shrunk, square, stretched } from './vector.ts';

/** Where a flat piece lies, whatever is cut into it. */
export type PanelFrame = Omit<Panel, 'outline'>;

/** A profile with the outline that its flat pieces share; as it is where nothing is cut into them. */
export function withPanels(profile: Profile, outline: Outline, frames: () => readonly PanelFrame[]): Profile {
  return isPlainBlank(outline) ? profile : { ...profile, panels: frames().map((it) => ({ ...it, outline })) };
}

/** True for an upright rectangle, whatever is marked on it. */
export function isPlainBlank({ rim, holes }: Outline): boolean {
  const isUpright = rim.every(
    ({ kind, from, to }) =>
      kind === 'line' && (compareRationals(from.x, to.x) === 0 || compareRationals(from.y, to.y) === 0),
  );
  return holes.length === 0 && rim.length === 4 && isUpright;
}

/**
 * The one flat piece of a board that slopes. Its outline lies in its faces, from the corner that is furthest back.
 *
 *            ╱╱
 *          ╱╱ onward
 *        ╱╱
 *       ● x = 0
 *
 * @param rise below zero where it goes down
 */
export function slopedPanel(
  { rim }: Outline,
  { run, rise }: { readonly run: Length; readonly rise: Length },
  long: Length,
): PanelFrame {
  const way = point(run, rise);
  const one = shrunk(way, nearRoot(square(way)));
  const onward = point(snapped(one.x), snapped(one.y));
  const seen = pointsOf(rim);
  const at = seen.reduce((a, b) => (dot(less(b, a), onward).numerator < 0n ? b : a));
  return { seen, at, onward, from: zero, to: long };
}

/** A panel where its profile is laid otherwise; its own outline stays as it is. */
export function movedPanel<P extends PanelFrame>(panel: P, { move, swapsHands }: Motion): P {
  const seen = panel.seen.map(move);
  const at = move(panel.at);
  const onward = less(move(plus(panel.at, panel.onward)), at);
  return { ...panel, seen: swapsHands ? seen.reverse() : seen, at, onward };
}

/** A panel of the other hand: its profile is mirrored, and the blank that it is part of, which is that long. */
export function mirroredPanel(panel: PanelFrame, profile: Motion, long: Length): PanelFrame {
  const there = movedPanel(panel, profile);
  return {
    ...there,
    at: plus(there.at, stretched(there.onward, long)),
    onward: opposite(there.onward),
    from: minus(long, panel.to),
    to: minus(long, panel.from),
  };
}
