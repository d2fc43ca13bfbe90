import {
  atSpan,
  diagnose,
  type Modifiers,
  type PartMemberSpec,
  type Placed,
  type RowSpec,
  type Way,
  ways,
} from '../model/index.ts';
import type { Faults } from './faults.ts';
import type { Fields } from './fields.ts';
import type { MemberReading } from './frames.ts';
import { optional, Values } from './values.ts';
import { clipped, type Entry, type Node } from './yaml/node.ts';

/** Keys beside `courses`. */
export const courseKeys: readonly string[] = ['half', 'long', 'high', 'run', 'stack', 'to'];

/**
 * Bricks in courses, every other one begun with a half:
 *
 *     { courses: brick, half: half brick, long: 3, high: 3 }
 *
 *     ┌───────┬───────┬───────┐
 *     │       │       │       │
 *     ├───┬───┴───┬───┴───┬───┤
 *     │   │       │       │   │
 *     ├───┴───┬───┴───┬───┴───┤
 *     │       │       │       │
 *     └───────┴───────┴───────┘
 *
 * It is a row of rows, and is read as one: how many there are, and whether they fill their room, follows as ever.
 *
 * @errors S57 how many is no number of digits, or the courses run the way they are stacked
 */
export function readCourses(
  { key, value }: Entry,
  fields: Fields,
  read: MemberReading,
  faults: Faults,
): RowSpec | undefined {
  const { amount, reference, word } = new Values(faults);
  const of = reference(value, 'courses');
  const half = optional(fields, 'half', reference);
  const [long, high] = (['long', 'high'] as const).map((name) => howMany(fields, name, key, faults));
  const run = optional(fields, 'run', word(ways)) ?? { value: 'across', at: key.at };
  const stack = optional(fields, 'stack', word(ways)) ?? { value: 'up', at: key.at };
  if (run.value === stack.value) {
    faults.report(diagnose('S57', atSpan(run.at), { why: 'one way', way: run.value }));
    return faults.tear();
  }
  if (
    of === undefined ||
    long === undefined ||
    high === undefined ||
    fields.has('half') !== (half !== undefined)
  ) {
    return faults.tear();
  }
  const bricks = (part: Placed<string>, twice: number): readonly PartMemberSpec[] =>
    twice === 0 ? [] : [{ ...read.plain, kind: 'part', at: part.at, part, twice }];
  const course = courseOf(run, stack, read.plain);
  const full = course(bricks(of, long));
  const offset =
    half === undefined ? full : course([...bricks(half, 1), ...bricks(of, long - 1), ...bricks(half, 1)]);
  return {
    ...read.modifiers(fields),
    kind: 'row',
    at: key.at,
    way: stack.value,
    members: Array.from({ length: high }, (_, i) => (i % 2 === 0 ? full : offset)),
    to: optional(fields, 'to', (it) => (it.kind === 'text' && it.text === 'free' ? 'free' : amount(it))),
  };
}

/** Its bricks lie with their length along it, and their thickness the way that is left. */
function courseOf(
  run: Placed<Way>,
  stack: Placed<Way>,
  plain: Modifiers,
): (members: readonly PartMemberSpec[]) => RowSpec {
  const through = ways.find((way) => way !== run.value && way !== stack.value) ?? 'along'; // two of three are taken
  return (members) => ({
    ...plain,
    kind: 'row',
    at: run.at,
    way: run.value,
    length: run,
    thickness: { value: through, at: stack.at },
    members,
    to: undefined,
  });
}

function howMany(
  fields: Fields,
  name: 'long' | 'high',
  courses: Entry['key'],
  faults: Faults,
): number | undefined {
  const entry = fields.get(name);
  const count = entry === undefined ? undefined : wholeIn(entry.value);
  if (count !== undefined) return count;
  const at = atSpan(entry?.value.at ?? courses.at);
  const found = entry?.value.kind === 'text' ? clipped(entry.value.text) : undefined;
  return faults.report(diagnose('S57', at, { why: 'how many', name, found }));
}

function wholeIn(node: Node): number | undefined {
  const count = node.kind === 'text' && /^\d{1,5}$/u.test(node.text) ? Number(node.text) : 0;
  return count >= 1 && count <= mostOfCourses ? count : undefined;
}

/** As many as a tile may have pieces. */
const mostOfCourses = 10_000;
