import { describe, expect, it } from 'vitest';
import { showExact } from '../../src/measure/index.ts';
import { batchOf, check } from './check.ts';

/** What the length of a loose part comes to, with some names around it. */
function lengthOf(expression: string, around = ''): string {
  const batch = batchOf(`cardwright: session
units: in
grid: { square: 3 }
materials:
  greyboard: { thickness: 1/16 }
  twinwall: { thickness: 3/16, measured: 4.6 mm }
loose: { it: { of: greyboard, size: [${expression}, 1/1000] } }
${around}`);
  const [kind] = batch.materials[0]?.parts ?? [];
  return kind === undefined ? 'nothing' : showExact(kind.length, 'in');
}

describe('a sum', () => {
  // Source: shop arithmetic, common practice, no source.
  it.each([
    ['2 3/8', '2 3/8 in'],
    ['(2 3/8 + 2 x 1/16 in)', '2 1/2 in'],
    ['(2 3/8 + 2 x thickness of greyboard)', '2 1/2 in'],
    ['(square - 2 x thickness of greyboard)', '2 7/8 in'],
    ['((3 in + 1/2) / 2)', '1 3/4 in'],
    ['(-1 + 3)', '2 in'],
    ['(1 in + 25.4 mm)', '2 in'],
    ['(6 in / 2 in x 1/4 in)', '3/4 in'],
    ['(smaller of 3 and 2 1/2)', '2 1/2 in'],
    ['(square / 7 down to 1/32)', '13/32 in'],
    ['(square / 7 up to 1/32)', '7/16 in'],
    ['(square / 7 nearest 1/32)', '7/16 in'],
    ['(1/3 nearest 1 mm)', '40/127 in'],
  ])('%s comes to %s', (expression, inches) => {
    expect(lengthOf(expression)).toBe(inches);
  });

  // Source: geometry of the circle: radius = (half² + rise²) / (2 rise); half 3 and rise 1 make 5.
  it('lets an area stand on the way', () => {
    const names = 'lengths: { half: 3, rise: 1 }\n';
    expect(lengthOf('((half x half + rise x rise) / (2 x rise))', names)).toBe('5 in');
  });

  it('takes the measured thickness where there is one, and tonight’s reading before that', () => {
    // 4.6 mm = 23/127 in; 5.08 mm = 1/5 in (1 in = 25.4 mm).
    expect(lengthOf('thickness of twinwall')).toBe('23/127 in');
    expect(lengthOf('thickness of twinwall', 'measured: { twinwall: 5.08 mm }\n')).toBe('1/5 in');
  });

  it('knows names in any order, and numbers are never converted', () => {
    const names =
      'lengths: { a: (b x bays), b: (c / 2), c: 1 }\nnumbers: { bays: (n + 1), n: 2 }\nlevels: { top: (2 x a) }\n';
    expect(lengthOf('top', names)).toBe('3 in');
  });
});

describe('each file’s sums are worked out with what that file sees', () => {
  const files = {
    'kit.yaml': `cardwright: kit
units: mm
grid: { square: 60 }
lengths: { base: 10, twice: (2 x base), plain: (5 + base) }
`,
  };

  it('with its own units, grid and names', () => {
    const batch = batchOf(
      `cardwright: session
units: in
uses: [kit.yaml]
materials: { card: { thickness: 1/16 } }
loose: { a: { of: card, size: [plain, twice] }, b: { of: card, size: [(square + 1), 1] } }
`,
      files,
    );
    const sizes = batch.materials[0]?.parts.map(({ length, width }) => [
      showExact(length, 'mm'),
      showExact(width, 'mm'),
    ]);
    expect(sizes).toEqual([
      ['85.4 mm', '25.4 mm'],
      ['20 mm', '15 mm'],
    ]);
  });

  it('and a name with two meanings is refused only where it is used', () => {
    check(
      `cardwright: session
units: in
uses: [kit.yaml]
lengths: { base: 1 }
materials: { card: { thickness: 1/16 } }
loose: { a: { of: card, size: [twice, base] } }
#                                     ^^^^ error E02: "base" means more than one thing here
`,
      files,
    );
  });
});
