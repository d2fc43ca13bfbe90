import { compare, larger, smaller, sum, times } from '../measure/index.ts';
import type { Build, Contact, Fault, StandingPart, TileSide } from '../model/index.ts';
import { sidesOf, type Visible } from './faces.ts';

type HabitFault = Extract<Fault, { kind: 'habit' }>;

/**
 * What makers warn each other of. None of it is wrong by measure; each is let pass part by part, with a reason, and
 * what is let pass is among these, too.
 *
 * @source common practice, no source: corrugated board bends easily along its flutes and bears weight along
 *         them; a strip cut across the grain tears or folds like along a perforation
 */
export function habitFaults(
  build: Build,
  contacts: readonly Contact[],
  visible: Visible,
): readonly HabitFault[] {
  const bearing = new Set(contacts.filter(({ way }) => way === 'up').map(({ part }) => part));
  const found = build.parts.flatMap((part): readonly HabitFault[] => [
    ...flutesNotUpright(part, bearing.has(part)),
    ...weakStrip(part),
    ...bareFlutes(build, part, visible),
  ]);
  return oncePerPart(found);
}

/** A fluted board that stands and carries something, with its flutes lying down. */
function flutesNotUpright(part: StandingPart, bears: boolean): readonly HabitFault[] {
  const stands = part.stance.thickness !== 'up';
  if (!stands || !bears || part.flutes === undefined || part.flutes === 'up') return [];
  return [habitOf('flutes not upright', part, undefined)];
}

/** So many thicknesses wide or less, and so many widths long or more, is a strip that may snap. */
const narrowest = 6;
const longest = 6;

function weakStrip(part: StandingPart): readonly HabitFault[] {
  // A strip that is folded up is stiff, and its sizes are those of what it is folded up to.
  if (part.isFolded === true) return [];
  const { length, width, thickness } = part.size;
  const [long, short] = [larger(length, width), smaller(length, width)];
  const isStrip =
    compare(short, times(thickness, narrowest)) <= 0 && compare(long, times(short, longest)) >= 0;
  const fibres = part.grain ?? part.flutes;
  const longWay = compare(length, width) >= 0 ? part.stance.length : part.stance.width;
  if (!isStrip || fibres === undefined || fibres === longWay) return [];
  return [habitOf('weak strip', part, undefined)];
}

/**
 * The two ends of the flutes, where nothing covers them. At the sides of the footprint the next tile hides
 * them, and the table what stands on it.
 */
function bareFlutes(build: Build, part: StandingPart, visible: Visible): readonly HabitFault[] {
  const { flutes, block } = part;
  if (flutes === undefined || flutes === 'either') return [];
  const ends: readonly (readonly [TileSide, boolean])[] = [
    [sidesOf[flutes].low, compare(block.low[flutes], build.slack) <= 0],
    [
      sidesOf[flutes].high,
      flutes !== 'up' && compare(sum(block.high[flutes], build.slack), build.footprint[flutes]) >= 0,
    ],
  ];
  const bare = ends.find(([side, isHidden]) => !isHidden && visible.isBareEnd(part, side));
  return bare === undefined ? [] : [habitOf('bare flutes', part, bare[0])];
}

function habitOf(habit: HabitFault['habit'], part: StandingPart, side: TileSide | undefined): HabitFault {
  return { kind: 'habit', habit, part, others: 0, side };
}

/** Equal pieces share one warning. */
function oncePerPart(faults: readonly HabitFault[]): readonly HabitFault[] {
  const byPart = new Map<string, HabitFault>();
  for (const fault of faults) {
    const key = `${fault.habit}\n${fault.part.part}`;
    const known = byPart.get(key);
    byPart.set(key, known === undefined ? fault : { ...known, others: known.others + 1 });
  }
  return [...byPart.values()];
}
