import { describe, expect, it } from 'vitest';
import { toFraction } from '../../src/measure/index.ts';
import type { Expression } from '../../src/model/index.ts';
import { check, read } from './check.ts';

/** A sum as it was understood, each step in its own brackets. */
function shape(text: string): string {
  const { value, diagnostics } = read(
    `cardwright: kit\nlengths: { core: '${text.replaceAll("'", "''")}' }\n`,
  );
  expect(diagnostics).toEqual([]);
  const [core] = value?.files[0].lengths ?? [];
  return core === undefined ? '' : written(core.value);
}

function written(it: Expression): string {
  switch (it.kind) {
    case 'measure':
      return toFraction(it.amount) + (it.unit === 'length' ? 'mm' : '');
    case 'name':
      switch (it.reference.kind) {
        case 'own':
          return it.reference.name;
        case 'square':
          return `square ${it.reference.way}`;
        case 'tile':
          return `tile ${it.reference.size}`;
        case 'size':
          return `${it.reference.size} of ${it.reference.of.value}`;
      }
      break;
    case 'negative':
      return `-${written(it.of)}`;
    case 'smaller':
    case 'larger':
      return `${it.kind}(${it.of.map(written).join(', ')})`;
    case 'up to':
    case 'down to':
    case 'nearest':
      return `(${written(it.of)} ${it.kind} ${written(it.step)})`;
    case 'faulty':
      return 'faulty';
    default: {
      const sign = { sum: '+', difference: '-', product: 'x', quotient: '/' }[it.kind];
      return `(${written(it.left)} ${sign} ${written(it.right)})`;
    }
  }
}

describe('what stands where a measure may stand', () => {
  it.each([
    ['2 3/8', '19/8'],
    ['2-3/8"', '2413/40mm'],
    ['60 mm', '60mm'],
    ['-1/2', '-1/2'],
    ['terrace', 'terrace'],
    ['deck depth', 'deck depth'],
    ['square', 'square both'],
    ['tile height', 'tile height'],
    ['thickness of packet card', 'thickness of packet card'],
    ['width of half-round', 'width of half-round'],
    ['(2)', '2'],
  ])('%s is %s', (text, understood) => {
    expect(shape(text)).toBe(understood);
  });
});

describe('sums', () => {
  // Source: the precedence of school arithmetic, worked out by hand.
  it.each([
    ['(a + b x c)', '(a + (b x c))'],
    ['(a - b - c)', '((a - b) - c)'],
    ['(a / b / c)', '((a / b) / c)'],
    ['(a / b x c)', '((a / b) x c)'],
    ['((a + b) x c)', '((a + b) x c)'],
    ['(-a + b)', '(-a + b)'],
    ['(a - -b)', '(a - -b)'],
    ['(-(a + b) x c)', '(-(a + b) x c)'],
    ['(a − b × c · d ÷ e * f)', '(a - ((((b x c) x d) / e) x f))'],
    ['(square - 2 x thickness of greyboard)', '(square both - (2 x thickness of greyboard))'],
    ['(core / bays down to 1/32)', '((core / bays) down to 1/32)'],
    ['(core up to 1/32)', '(core up to 1/32)'],
    ['(core nearest (1 / 3))', '(core nearest (1 / 3))'],
    ['((core down to 1/32) + 1/16)', '((core down to 1/32) + 1/16)'],
    ['(thickness of thin card up to 0.5 mm)', '(thickness of thin card up to 1/2mm)'],
    ['(smaller of a and b)', 'smaller(a, b)'],
    ['(larger of a and 2 1/2 and (b + c) x 2)', '(larger(a, 5/2, (b + c)) x 2)'],
    ['(smaller of (larger of a and b) and c)', 'smaller(larger(a, b), c)'],
    ['(larger of thickness of card and 1/16 up to 1/32)', '(larger(thickness of card, 1/16) up to 1/32)'],
    ['(2 x 3/4 in)', '(2 x 381/20mm)'],
    ['(2-3/8 + 1)', '(19/8 + 1)'],
    ['(body 2 + 1)', '(body 2 + 1)'],
    ['((half x half + rise x rise) / (2 x rise))', '(((half x half) + (rise x rise)) / (2 x rise))'],
    ['( 2 )', '2'],
    ['(x-height + 1)', '(x-height + 1)'],
    ["(1' 2\" + 3')", '(1778/5mm + 4572/5mm)'],
  ])('%s is %s', (text, understood) => {
    expect(shape(text)).toBe(understood);
  });

  it('knows the place of each of its pieces', () => {
    const { value } = read('cardwright: kit\nlengths:\n  core: (a + 2 x (b - thickness of thin card))\n');
    const core = value?.files[0].lengths[0]?.value;
    const places: string[] = [];
    const visit = (it: Expression): void => {
      places.push(it.at.source.text.slice(it.at.start, it.at.end));
      if (it.kind === 'name' && it.reference.kind === 'size') {
        const { at } = it.reference.of;
        places.push(at.source.text.slice(at.start, at.end));
      }
      if ('left' in it) [it.left, it.right].forEach(visit);
    };
    if (core !== undefined) visit(core);
    expect(places).toEqual([
      '(a + 2 x (b - thickness of thin card))',
      'a',
      '2 x (b - thickness of thin card)',
      '2',
      '(b - thickness of thin card)',
      'b',
      'thickness of thin card',
      'thin card',
    ]);
  });

  it('points into quoted texts and texts of several lines', () => {
    check(`
lengths:
  a: "(b + )"
#        ^ error S63: a name or a measure is missing behind "+"
  c: (b +
    2 d)
#     ^ error S67: nothing stands between "2" and "d"
`);
  });
});

describe('sums that are refused', () => {
  const refuse = (lines: string): void => check(`lengths:\n${lines}`);

  it('wants brackets, and shows them', () => {
    refuse(
      `
  a: core + 1/16
#    ^^^^^^^^^^^ error S60: "core + 1/16" is a sum without its brackets
  b: 2 x thickness of card
#    ^^^^^^^^^^^^^^^^^^^^^ error S60: "2 x thickness of card" is a sum without its brackets
  c: core down to 1/32
#    ^^^^^^^^^^^^^^^^^ error S60: "core down to 1/32" is a sum without its brackets
  d: (b + 1) x 2
#    ^^^^^^^^^^^ error S60: "(b + 1) x 2" is a sum without its brackets
  e: smaller of b and c
#    ^^^^^^^^^^^^^^^^^^ error S60: "smaller of b and c" is a sum without its brackets
  f: -b
#    ^^ error S60: "-b" is a sum without its brackets
`.slice(1),
    );
    expect(read('cardwright: kit\nlengths: { a: core + 1/16 }\n').diagnostics[0]).toMatchObject({
      hints: ['(core + 1/16)'],
      fix: { text: '(core + 1/16)' },
    });
  });

  it('leaves sums of numbers alone to the measures', () => {
    refuse(
      `
  a: 2 - 3/8
#      ^ error M07: "2 - 3/8" has a dash that could join or subtract
`.slice(1),
    );
  });

  it('wants brackets in pairs', () => {
    refuse(
      `
  a: ((b + 1)
#    ^ error S61: this ( is not closed
  c: (b + 1))
#           ^ error S61: this ) closes nothing
  d: (b # the first
#    ^ error S61: this ( is not closed before the # that begins a remark
  e: [(b, c)]
#    ^^^^^^^^ error S36: a list stands where a measure, a name or a sum is wanted
`.slice(1),
    );
    check(`
loose:
  a: { size: [(b + smaller of c, d), 3] }
#             ^ error S61: this ( is not closed before the comma that ends the item
`);
  });

  it('wants spaces around its signs', () => {
    refuse(
      `
  a: (core -1/16)
#          ^ error S62: "-" needs a space on both sides
  b: (core+ 1)
#         ^ error S62: "+" needs a space on both sides
  c: (core*2)
#         ^ error S62: "*" needs a space on both sides
  d: ((a) x(b))
#         ^ error S62: "x" needs a space on both sides
`.slice(1),
    );
  });

  it('wants something on both sides of a sign', () => {
    refuse(
      `
  a: (b + )
#       ^ error S63: a name or a measure is missing behind "+"
  c: ()
#    ^ error S63: a name or a measure is missing behind "("
  d: (x 2)
#    ^ error S63: a name or a measure is missing behind "("
  e: (thickness of)
#     ^^^^^^^^^^^^ error S63: a name is missing behind "thickness of"
  f: (smaller of a)
#                ^ error S63: and, with another to choose from, is missing behind "a"
  g: (a - - - b)
#         ^ error S63: a name or a measure is missing behind "-"
  h: (a up to)
#       ^^^^^ error S63: a name or a measure is missing behind "up to"
`.slice(1),
    );
  });

  it('knows its signs', () => {
    refuse(
      `
  a: (b ^ 2)
#       ^ error S65: "^" has no meaning in a sum
  c: (b – 2)
#       ^ error S65: "–" has no meaning in a sum
  d: (sqrt(2))
#         ^ error S67: nothing stands between "sqrt" and "("
  e: (b; c)
#      ^ error S65: ";" has no meaning in a sum
  f: (b and c)
#       ^^^ error S65: "and" has no meaning in a sum
`.slice(1),
    );
  });

  it('rounds last', () => {
    refuse(
      `
  a: (b down to 1/32 + 1)
#       ^^^^^^^ error S66: "down to" and its step are the last thing in a bracket
  c: (b nearest 1/2 up to 1/4)
#       ^^^^^^^ error S66: "nearest" and its step are the last thing in a bracket
`.slice(1),
    );
  });

  it('multiplies nothing by standing side by side', () => {
    refuse(
      `
  a: (2 (b))
#       ^ error S67: nothing stands between "2" and "("
  c: (2 core)
#       ^^^^ error S67: nothing stands between "2" and "core"
`.slice(1),
    );
  });

  it('asks for sizes that there are', () => {
    refuse(
      `
  a: (thikness of card)
#     ^^^^^^^^^^^ error S69: "thikness of" asks for nothing known; did you mean "thickness"?
  b: height of card
#    ^^^^^^^^^ error S69: "height of" asks for nothing known
`.slice(1),
    );
  });

  it('refuses what is nothing at all', () => {
    refuse(
      `
  a: core!
#    ^^^^^ error S68: "core!" is neither a measure nor a name nor a sum
  b: "?"
#     ^ error M02: "?" is not a measure; a measure begins with a number
`.slice(1),
    );
  });

  it('tells what is wrong with a measure in it', () => {
    refuse(
      `
  a: (b + 1 7/4)
#         ^^^^^ error M06: "1 7/4" has a fraction of 1 or more behind a whole number
  c: (b / 1/0)
#         ^^^ error M13: "1/0" divides by zero
`.slice(1),
    );
  });

  it('has an end: 500 characters, 40 brackets', () => {
    const deep = (brackets: number): string => `${'('.repeat(brackets)}2${')'.repeat(brackets)}`;
    expect(shape(deep(40))).toBe('2');
    refuse(
      `  a: ${deep(41)}\n#    ${' '.repeat(40)}^ error S64: brackets lie 41 deep in each other; at most 40 are read\n`,
    );
    const long = (characters: number): string => `(${'2'.padEnd(characters - 2)})`;
    expect(shape(long(500))).toBe('2');
    refuse(
      `  a: ${long(501)}\n#    ${'^'.repeat(501)} error S64: a sum of 501 characters; at most 500 are read\n`,
    );
  });
});
