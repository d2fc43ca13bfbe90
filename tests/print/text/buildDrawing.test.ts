import { describe, expect, it } from 'vitest';
import { run } from '../../cli/memoryWorld.ts';

/** Drawings of tiles that don't fit, looked at through the whole command, as a person sees them. */

const head = `cardwright: kit
units: mm
grid: { square: 60, tallest: 40 }
materials: { board: { thickness: 2 }, foam: { thickness: 10 } }
sheets: { board: [{ size: [600, 400] }], foam: [{ size: [600, 400] }] }
tiles:
`;

async function drawn(
  tiles: string,
  columns = 80,
  environment: Record<string, string> = {},
): Promise<readonly string[]> {
  const ran = await run(['check', 'kit.yaml'], {
    files: { 'kit.yaml': head + tiles },
    environment: { COLUMNS: `${columns}`, ...environment },
  });
  return ran.stdout.split('\n');
}

/** Columns at which a line has one of the signs. */
const columnsOf = (line: string, signs: string): readonly number[] =>
  [...line].flatMap((sign, column) => (signs.includes(sign) ? [column] : []));

const nested = `  nested:
    parts:
      floor: { of: board, size: [60, 60] }
      left: { of: foam, size: [20, 60], lies: yes }
      mid: { of: foam, size: [20, 60], lies: yes }
    build: { up: [floor, { across: [left, { along: [mid, gap 5], to: 60 }, left] }] }
`;
const thin = nested
  .replace('mid: { of: foam, size: [20', 'mid: { of: foam, size: [19')
  .replace('to: 60', 'to: 65');
const overlapping = `  overlapping:
    parts:
      floor: { of: board, size: [60, 60] }
      block: { of: foam, size: [20, 20] }
      other: { of: foam, size: [30, 20] }
      lone: { of: foam, size: [10, 10] }
    build: { up: [floor] }
    added:
      - { part: block, at: [0, 0, 2] }
      - { part: other, at: [15, 5, 2] }
      - { part: lone, at: [55, 45, 20] }
`;
const posts = `  posts:
    parts: { floor: { of: board, size: [60, 60] }, post: { of: board, size: [1, 1], lies: yes } }
    build: { up: [floor, { across: [{ part: post, times: 40, apart: 0.75 }] }] }
`;

const ramp = `  ramp:
    height: 40
    parts:
      floor: { of: board, size: [60, 60] }
      deck:  { of: foam, size: [60, rest] }
      cheek: { of: board, size: [rest, rest] }
    build: { up: [floor, { part: deck, slope: { to: back, rise: 25 }, up to: 1 }] }
    added: [{ part: cheek, under: deck, up to: 1 }]
`;
const cistern = `  cistern:
    height: 20
    parts: { floor: { of: board, size: [60, 60] }, wall: { of: foam, size: [rest, 19] } }
    build: { up: [floor, { frame: { front: wall, back: wall, left: wall, right: wall }, corners: mitre }] }
`;

/** The lines of one view, without what stands beside it. */
function viewOf(lines: readonly string[], title: string): readonly string[] {
  const start = lines.findIndex((line) => line.includes(title)) + 1;
  return lines.slice(start, lines.indexOf('', start)).map((line) => line.slice(4));
}

describe('what slants', () => {
  it('goes up in steps, all the way from the one side to the other, both faces of it', async () => {
    const section = viewOf(await drawn(ramp), 'section, front to the left');
    // Above the floor; without the dimensions beside the room, which ends at the last heavy line upright.
    const room = Math.max(...section.map((line) => line.lastIndexOf('┃')));
    const above = section.slice(0, -3).map((line) => line.slice(0, room));
    // The highest place at which a column has a corner or a level stretch of the deck.
    const marks = (column: number) =>
      above.flatMap((line, row) => ('─┌┐└┘'.includes(line[column] ?? ' ') ? [row] : []));
    const tops = Array.from({ length: room }, (_, column) => Math.min(...marks(column))).filter(
      Number.isFinite,
    );
    expect(tops.length).toBeGreaterThan(20);
    expect(tops).toEqual([...tops].sort((a, b) => b - a));
    expect(tops[0]! - tops.at(-1)!).toBeGreaterThanOrEqual(4);
    expect(section.some((line) => /b/.test(line))).toBe(true);
  });

  it('parts walls at their mitres in the plan, alike at all four corners', async () => {
    const plan = viewOf(await drawn(cistern), 'plan, front below');
    const steps = plan.flatMap((line, row) =>
      [...line.matchAll(/[┌┐└┘]/g)].map(({ index }) => [row, index] as const),
    );
    const at = (isTop: boolean, isLeft: boolean) =>
      steps.filter(
        ([row, column]) => row < plan.length / 2 === isTop && column < plan[0]!.length / 2 === isLeft,
      ).length;
    const corners = [at(true, true), at(true, false), at(false, true), at(false, false)];
    expect(Math.min(...corners)).toBeGreaterThan(0);
    expect(plan.filter((line) => / b /.test(line)).length).toBeGreaterThanOrEqual(3);
  });
});

describe('the drawing of a tile that does not fit', () => {
  it('marks the row that is off, from its own beginning to its own end', async () => {
    const lines = await drawn(thin);
    const below = lines.find((line) => line.includes('59 mm')) ?? '';
    const [from, to] = columnsOf(below, '├┤');
    // The row lies in the middle of its 60 mm: half a millimetre from the room's heavy lines on either side.
    const plan = lines.slice(lines.findIndex((line) => line.includes('plan')));
    const sides = columnsOf(plan.find((line) => / b /.test(line)) ?? '', '┃│');
    expect(sides.slice(0, 2)).toEqual([4, from]);
    expect(sides).toContain(to);
    expect(below).toContain('60 mm to fill: 1 mm short');
  });

  it('marks a row inside a row where that is off, and not the row around it', async () => {
    const lines = await drawn(nested);
    expect(lines.join('\n')).toContain('65 mm');
    const bar = lines.find((line) => line.includes('├') && line.includes('65 mm')) ?? '';
    const section = lines[lines.indexOf(bar) - 1] ?? '';
    const [from, to] = columnsOf(bar, '├┤');
    // Five millimetres longer than the room: it sticks out on both sides of it.
    const heavy = columnsOf(section, '┗┛');
    expect(from).toBeLessThan(heavy[0] ?? 0);
    expect(to).toBeGreaterThan(heavy[1] ?? 99);
    expect(bar).toContain('60 mm to fill: 5 mm over');
  });

  it('draws what is off upward beside it', async () => {
    const lines = await drawn(
      '  stack:\n    height: 11\n    parts: { floor: { of: board, size: [60, 60] }, fill: { of: foam, size: [60, 60] } }\n    build: { up: [floor, fill] }\n',
    );
    const top = lines.findIndex((line) => line.endsWith('┬'));
    const bottom = lines.findIndex((line) => line.endsWith('┴'));
    expect(bottom).toBeGreaterThan(top + 2);
    expect(lines.slice(top, bottom).join('\n')).toMatch(/12 mm\n.*11 mm to fill: 1 mm over/);
  });

  it('marks no more than what is shared, or stands out', async () => {
    const lines = await drawn(overlapping);
    const shared = columnsOf(lines.find((line) => line.includes('in one place')) ?? '', '├┤');
    const out = columnsOf(lines.find((line) => line.includes('lone sticks out')) ?? '', '├┤');
    for (const [from = 0, to = 99] of [shared, out]) expect(to - from).toBeLessThan(6);
    expect(shared[1]).toBeLessThan(out[0] ?? 0);
    expect(lines).toContain('    lone touches nothing');
  });

  it('gives each part a letter where it is seen', async () => {
    const plan = (await drawn(overlapping)).join('\n').split('plan')[1] ?? '';
    for (const letter of ['a', 'b', 'c', 'd']) expect(plan).toMatch(new RegExp(`[ ━─]${letter}[ ━─┃]`));
  });

  it.each([40, 52, 80, 120])('keeps within %d columns', async (columns) => {
    for (const tiles of [nested, thin, overlapping, posts]) {
      const lines = await drawn(tiles, columns);
      expect(lines.length).toBeGreaterThan(10);
      expect(lines.filter((line) => [...line].length > columns || /[ \u00a0]$/.test(line))).toEqual([]);
    }
  });

  it('is ASCII where no more is promised, and still tells the room from the parts', async () => {
    const text = (await drawn(thin, 80, { LC_ALL: 'C' })).join('\n');
    expect(text.match(/[^\x00-\x7f]+/g) ?? []).toEqual([]);
    expect(text).toMatch(/\+={10,}/);
    expect(text).toContain('= the room it has');
  });

  it('is drawn once for all variants that take the fault over', async () => {
    const lines = await drawn(
      `${nested}  wide:\n    like: nested\n    label: broad\n  other:\n    like: nested\n`,
    );
    expect(lines.filter((line) => line.includes('plan'))).toHaveLength(1);
    expect(lines).toContain('no  broad   one fault; as drawn at "nested"; 4 parts');
    const mended = nested.replace('  nested:', '  other:').replace('to: 60', 'to: 64');
    const two = await drawn(nested + mended);
    expect(two.filter((line) => line.includes('plan'))).toHaveLength(2);
  });
});
