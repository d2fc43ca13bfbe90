import { describe, expect, it } from 'vitest';
import { catalogue } from '../../src/model/index.ts';
import { check, expandText } from './check.ts';

describe('names', () => {
  it('are known, or the nearest is named (E01)', () => {
    check(`
lengths: { rise: 3/4, step: (risee / 3), far: (nonsense + 1) }
#                            ^^^^^ error E01: unknown name "risee"; did you mean "rise"?
#                                              ^^^^^^^^ error E01: unknown name "nonsense"
`);
  });

  it('are offered with numbers first where one is wanted (E01)', () => {
    const names = Array.from({ length: 9 }, (_, i) => `l${i}: 1`).join(', ');
    const text = `cardwright: kit
units: in
lengths: { ${names} }
numbers: { dozen: 12 }
materials: { card: { thickness: 1/16 } }
tiles: { wall: { footprint: none, parts: { face: { of: card, size: [(odd), 1], count: (many) } } } }
`;
    const hints = expandText(text).diagnostics.map((it) => it.hints);
    expect(hints).toEqual([
      ['known here: l0, l1, l2, l3, l4, l5, l6, l7 and 2 more'],
      ['known here: dozen, l0, l1, l2, l3, l4, l5, l6 and 2 more'],
    ]);
  });

  it('of materials and parts are no measures (E01)', () => {
    check(`
lengths: { a: (greyboard + 1) }
#              ^^^^^^^^^ error E01: "greyboard" is a material, not a measure
`);
  });

  it('are never "rest", which only stands where something is left over (E01)', () => {
    const text = `
lengths: { a: (1 + rest) }
#                  ^^^^ error E01: nothing is left over here that "rest" could be
tiles:
  t:
    footprint: none
    parts:
      a: { of: greyboard, folds: { panels: [1, rest, 1], angles: [90, 90], width: 2 } }
#                                              ^^^^ error E01: nothing is left over here that "rest" could be
`;
    check(text);
    const hints = expandText(text.replace(/^#.*\n/gmu, '')).diagnostics.flatMap((it) => it.hints);
    expect(hints).toEqual(
      Array(2).fill('a measure; rest is for the size of a part or a gap in a build, and stands alone'),
    );
  });

  it('that fail are told once, however many sums lean on them', () => {
    check(`
lengths: { a: (nope + 1), b: (2 x a), c: (a + b), d: (3 x c) }
#              ^^^^ error E01: unknown name "nope"
`);
  });

  it('have one meaning (E02)', () => {
    check(`
lengths: { foam: 1, step: (foam / 2) }
#                          ^^^^ error E02: "foam" means more than one thing here
numbers: { foam: 2 }
`);
  });

  it('behind "of" fit one kind (E02)', () => {
    check(`
parts: { card: { of: greyboard, size: [1, 1] } }
lengths: { a: (thickness of card + 1) }
#                           ^^^^ error E02: "card" means more than one thing here
`);
  });

  it('do not need each other in a ring, which is told once (E03)', () => {
    check(`
lengths: { c: (a + 1), a: (b + 1), b: (c + 1), d: (a + 1) }
#          ^ error E03: these need each other: c → a → b → c
`);
  });

  it('do not need themselves through the sizes of a part (E03)', () => {
    check(`
tiles:
  wall:
    footprint: none
    height: (length of face + 1)
#           ^^^^^^^^^^^^^^^^^^^^ error E03: these need each other: tile height → length of face → tile height
    parts: { face: { of: greyboard, size: [tile height, 1] } }
`);
  });

  it('behind "of" are known (E04)', () => {
    check(`
lengths: { a: (thickness of grayboard), b: (length of posts) }
#                           ^^^^^^^^^ error E04: no material or part is called "grayboard"; did you mean "greyboard"?
#                                                     ^^^^^ error E04: no part or master is called "posts"
`);
  });
});

describe('a fault', () => {
  it('brings the edit along that would mend a slip of the pen', () => {
    const text = 'lengths: { rise: 3/4, step: (risee / 3) }\n';
    const [fault] = expandText(text).diagnostics;
    expect(fault?.fix?.text).toBe('rise');
    const { span } = fault?.fix ?? {};
    expect(span?.source.text.slice(span.start, span.end)).toBe('risee');
  });

  it('shows every place that gives a name a meaning', () => {
    const [fault] = expandText(`
parts: { card: { of: greyboard, size: [1, 1] } }
lengths: { a: (thickness of card + 1) }
`).diagnostics;
    const shown = fault?.related.map(({ place, message }) => {
      if (place.kind !== 'span') return message;
      const { source, start, end } = place.span;
      return `${source.text.slice(start, end)}: ${message}`;
    });
    expect(shown).toEqual(['card: a material called "card"', 'card: a part called "card"']);
  });
});

describe('kinds', () => {
  it('need a unit for a length (E06)', () => {
    check(
      `
cardwright: session
materials: { card: { thickness: 1 mm } }
loose: { post: { of: card, size: [2 in, (3 + 1 mm)] } }
#                                        ^ error E06: "3" has no unit, and this file has none either
`.slice(1),
    );
  });

  it('do not take a number for a length (E07)', () => {
    check(`
numbers: { bays: 3 }
lengths: { a: (2 x 3/4), b: bays, c: (2 x 3/4 in), d: (3/4), e: (bays / 2 nearest 1) }
#             ^^^^^^^^^ error E07: "(2 x 3/4)" is the plain number 1 1/2; a length is wanted
#                           ^^^^ error E07: "bays" is the plain number 3; a length is wanted
#                                                               ^^^^^^^^^^^^^^^^^^^^ error E07: "(bays / 2 nearest 1)" is the plain number 2; a length is wanted
`);
  });

  it('do not take a length for a number (E08)', () => {
    check(`
numbers: { a: square, b: (square / 1 in), c: 3/4, d: 3 in }
#             ^^^^^^ error E08: "square" is a length; a plain number is wanted
#                                                    ^^^^ error E08: "3 in" is a length; a plain number is wanted
`);
  });

  it('have no use for an area (E09)', () => {
    check(`
lengths: { a: (square x square) }
#             ^^^^^^^^^^^^^^^^^ error E09: "(square x square)" is an area, a length times a length; a length is wanted
numbers: { b: (square x square) }
#             ^^^^^^^^^^^^^^^^^ error E09: "(square x square)" is an area, a length times a length; a number is wanted
`);
  });

  it('go together or do not (E10)', () => {
    check(`
numbers: { n: 3 }
lengths: { a: (square + n), b: (n / square x 1), c: (square x square x square) }
#             ^^^^^^^^^^^^ error E10: "square" is a length, "n" a plain number: they don't go together
#                               ^^^^^^^^^^ error E10: "n" is a plain number, "square" a length: the one can't be divided by the other
#                                                   ^^^^^^^^^^^^^^^^^^^^^^^^^^ error E10: "square x square" is an area, "square" a length: there is no measure for their product
`);
  });

  it('say which number could have been the length', () => {
    const hintsOf = (sum: string) =>
      expandText(`lengths: { a: ${sum} }\nnumbers: { bays: 3 }\n`).diagnostics.map(({ code, hints }) => [
        code,
        ...hints,
      ]);
    expect(hintsOf('(2 x 3/4)')).toEqual([['E07', 'which is the length?   (2 x 3/4 in)']]);
    expect(hintsOf('(square - 2 x 1/16)')).toEqual([['E10', 'which is the length?   2 x 1/16 in']]);
    expect(hintsOf('(square - bays)')).toEqual([['E10', 'both have to be lengths, or both plain numbers']]);
  });

  it('are not divided by zero (E11)', () => {
    check(`
lengths: { void: 0, a: (square / void), b: (square / (2 - 2)) }
#                                ^^^^ error E11: division by zero: "void" comes to 0
#                                                    ^^^^^^^ error E11: division by zero: "(2 - 2)" comes to 0
`);
  });

  it('are rounded to steps above zero (E20)', () => {
    check(`
lengths: { a: (square / 3 down to 0) }
#                                 ^ error E20: can't round to steps of "0"; a step is above zero
`);
  });
});

describe('limits', () => {
  it('of sizes (E12)', () => {
    check(`
levels: { pit: (1 - 2) }
#              ^^^^^^^ error E12: comes to -1 in; it has to be at least zero
lengths: { drop: (1 - 2) }
parts: { a: { of: greyboard, size: [0, 1] } }
#                                   ^ error E12: comes to 0 in; it has to be above zero
tiles: { t: { footprint: none, parts: { a: { like: a } } } }
`);
  });

  it('of what can be laid out on the floor (E13)', () => {
    check(`
lengths: { a: 100 m, b: 100.001 m, c: (0 - 101 m) }
#                       ^^^^^^^^^ error E13: comes to 3937 6/127 in; lengths go to 100 m
#                                     ^^^^^^^^^^^ error E13: comes to -3976 48/127 in; lengths go to 100 m
`);
  });

  it('of digits (E16)', () => {
    check(`
numbers:
  n: 123456789012345678901234567890
  o: (n x n x n x n)
  l: (o x o)
  k: (l x l)
#    ^^^^^^^ error E16: "(l x l)" comes to a number of more than 300 digits
  j: (k x k)
`);
  });

  it('of names that lean on names (E17), told once', () => {
    const chain = Array.from({ length: 900 }, (_, index) => `  n${index}: n${index + 1}\n`).join('');
    const { diagnostics } = expandText(`numbers:\n${chain}  n900: 1\n`);
    expect(diagnostics.map(({ code }) => code)).toEqual(['E17']);
    const short = chain.split('\n').slice(600).join('\n');
    expect(expandText(`numbers:\n${short}  n900: 1\n`).diagnostics).toEqual([]);
  });

  it('does not count the signs of a long sum as depth', () => {
    const long = (name: string) => `(${name}${' + 1'.repeat(110)})`;
    const names = Array.from({ length: 20 }, (_, index) => `  n${index}: ${long(`n${index + 1}`)}\n`);
    expect(expandText(`numbers:\n${names.join('')}  n20: 1\n`).diagnostics).toEqual([]);
  });

  it('of counts (E14, E15)', () => {
    check(`
numbers: { half: 1/2 }
tiles:
  t:
    footprint: none
    parts:
      a: { of: greyboard, size: [1, 1], count: half }
#                                              ^^^^ error E14: parts come in whole numbers, not 1/2
      b: { of: greyboard, size: [1, 1], count: 0 }
#                                              ^ error E15: parts go from 1 to 1 000 000, not 0
      c: { of: greyboard, size: [1, 1], count: 1000001 }
#                                              ^^^^^^^ error E15: parts go from 1 to 1 000 000, not 1000001
      d: { of: greyboard, size: [1, 1], count: (half x 4) }
make: { t: -1 }
#          ^^ error E15: tiles go from 0 to 1 000 000, not -1
`);
  });
});

describe('the ground of a tile', () => {
  it('is the grid, or a footprint (E18)', () => {
    check(
      `
cardwright: kit
units: in
materials: { card: { thickness: 1/16 } }
lengths: { a: (square / 2) }
#              ^^^^^^ error E18: there is no grid here
tiles:
  wall: { parts: { face: { of: card, size: [3, 2] } } }
# ^^^^ error E18: there is no grid here
  hut: { footprint: [2, 2], parts: { face: { of: card, size: [tile across, 2] } } }
`.slice(1),
    );
  });

  it('is as long as it is wide where a sum says square alone (E18)', () => {
    check(
      `
cardwright: kit
units: in
grid: { square: [3, 2] }
materials: { card: { thickness: 1/16 } }
tiles: { wall: { parts: { face: { of: card, size: [square, square along] } } } }
#                                                  ^^^^^^ error E18: the grid is not as long as it is wide
`.slice(1),
    );
  });

  it('is what the tile states (E19)', () => {
    check(`
lengths: { a: (tile across / 2) }
#              ^^^^^^^^^^^ error E19: "tile across" belongs to a tile, and this is in none
tiles:
  bundle: { footprint: none, parts: { a: { of: greyboard, size: [tile along, tile height] } } }
#                                                                ^^^^^^^^^^ error E19: "tile along": the tile has no footprint
#                                                                            ^^^^^^^^^^^ error E19: "tile height": the tile has no height
`);
  });

  it('has a tallest height (E39)', () => {
    check(
      `
cardwright: kit
units: in
grid: { square: 3, tallest: 2 }
materials: { card: { thickness: 1/16 } }
tiles: { wall: { height: (2 + 1/64), parts: { face: { of: card, size: [3, 2] } } } }
#                        ^^^^^^^^^^ error E39: the tile is 2 1/64 in high; the grid allows 2 in
`.slice(1),
    );
  });
});

describe('parts and tiles', () => {
  it('are of a known material, and have a size (E05, E25, E26)', () => {
    check(`
tiles:
  wall:
    parts:
      a: { of: grayboard, size: [1, 1] }
#              ^^^^^^^^^ error E05: unknown material "grayboard"; did you mean "greyboard"?
      b: { size: [1, 1] }
#     ^ error E25: "b" doesn't say what it is cut from
      c: { of: greyboard }
#     ^ error E26: "c" has no size
`);
  });

  it('are of a known material also where no tile takes them up (E05)', () => {
    check(`
parts: { bed: { of: grayboard, size: [tile across, rise] } }
#                   ^^^^^^^^^ error E05: unknown material "grayboard"; did you mean "greyboard"?
`);
  });

  it('mind only the grain and flutes that are there (E27)', () => {
    check(`
tiles:
  wall:
    parts:
      a: { of: greyboard, size: [1, 1], grain: length }
#                                              ^^^^^^ error E27: "a" minds the grain, but "greyboard" has no grain
      b: { of: greyboard, size: [1, 1], flutes: width, grain: any }
#                                               ^^^^^ error E27: "b" minds the flutes, but "greyboard" has none
      c: { of: card, size: [1, 1], grain: length, flutes: width }
`);
  });

  it('are like what there is (E21, E22), and what they miss then is no second fault', () => {
    check(`
tiles:
  wall: { parts: { a: { like: bat }, bar: { of: greyboard, size: [1, 1] } } }
#                             ^^^ error E21: no part "bat" to be like; did you mean "bar"?
  fence: { like: wal }
#                ^^^ error E22: unknown tile "wal"; did you mean "wall"?
`);
  });

  it('are not like each other in a ring (E23)', () => {
    check(`
tiles:
  a: { like: b }
# ^ error E23: like each other in a ring: a → b → a
  b: { like: a }
  c: { footprint: none, parts: { p: { like: q }, q: { like: p } } }
#                                ^ error E23: like each other in a ring: p → q → p
`);
  });

  it('take away what is there (E24)', () => {
    check(`
tiles:
  a: { lengths: { rise: 1 }, parts: { cap: { of: greyboard, size: [1, rise] } } }
  b: { like: a, lengths: { rize: none }, parts: { kap: none } }
#                          ^^^^ error E24: "a" has no "rize" to take away; did you mean "rise"?
#                                                 ^^^ error E24: "a" has no "kap" to take away; did you mean "cap"?
`);
  });

  it('that are nothing are worth a warning (E40)', () => {
    check(`
tiles: { wall: { height: 1 } }
#        ^^^^ warning E40: "wall" has no parts, so nothing is cut for it
`);
  });
});

describe('materials and sheets', () => {
  it('have a thickness and a size (E28, E29)', () => {
    check(
      `
cardwright: shelf
units: in
materials: { card: { tool: knife } }
#            ^^^^ error E28: "card" has no thickness
sheets: { card: [{ count: 2 }], cord: [{ size: A4 }] }
#                ^^^^^^^^^^^^ error E29: this sheet of "card" has no size
#                               ^^^^ error E05: unknown material "cord"; did you mean "card"?
`.slice(1),
    );
  });

  it('that have a fault leave their material without sheets, rather than to mislead about the rest', () => {
    const { value } = expandText('sheets: { greyboard: [{ size: A4 }, { count: 2 }] }\n');
    expect(value?.materials.map(({ material, sheets }) => [material.name, sheets])).toEqual([
      ['greyboard', []],
    ]);
  });

  it('say which way the grain runs (E30, E31, E32)', () => {
    check(`
sheets:
  card: [{ size: A4, flutes: length }, { size: A4, grain: unknown, flutes: width }]
#        ^^^^^^^^^^^^^^^^^^^^^^^^^^^^ error E30: "card" has grain; which side of this sheet does it follow?
#                                                         ^^^^^^^ error E31: only an offcut may have unknown grain
  greyboard: [{ size: A4, grain: length }]
#                                ^^^^^^ error E32: "greyboard" has no grain, so a sheet can't say how it runs
offcuts:
  card: [{ size: A4, grain: unknown, flutes: unknown }, { size: A4, grain: length }]
#                                                       ^^^^^^^^^^^^^^^^^^^^^^^^^^^ error E30: "card" has flutes; which side of this sheet do they follow?
`);
  });

  it('keep something inside of the trim (E33)', () => {
    check(`
sheets: { greyboard: [{ size: [8, 5], trim: { left: 4, right: 4 } }, { size: [8, 5], trim: 2 1/2 }, { size: [8, 5], trim: 2 }] }
#                                           ^^^^^^^^^^^^^^^^^^^^^ error E33: the trim takes 8 in off the length, which is 8 in: nothing is left
#                                                                                          ^^^^^ error E33: the trim takes 5 in off the width, which is 5 in: nothing is left
`);
  });

  it('are squared up where their edges are not true (E34)', () => {
    check(`
sheets: { greyboard: [{ size: [8, 5], true edges: no, trim: { left: 1/8, top: 1/8 } }, { size: [8, 5], true edges: no, trim: 1/8 }] }
#                                                 ^^ error E34: the edges are not true, but no trim is taken off the right, bottom
`);
  });
});

describe('sessions', () => {
  it('ask for something (E35)', () => {
    check(
      `
cardwright: session
units: in
grid: { square: 3 }
materials: { card: { thickness: 1/16 } }
tiles: { wall: { parts: { face: { of: card, size: [3, 2] } } } }
make: { wall: 0 }
#     ^^^^^^^^^^^ error E35: nothing is asked for: no tile and no loose part
`.slice(1),
    );
    check(
      `
cardwright: kit
units: in
materials: { card: { thickness: 1/16 } }
# whole file error E35: nothing is asked for: no tile and no loose part`.slice(1),
    );
  });

  it('name tiles that there are (E22), and say no more about it', () => {
    check(
      `
cardwright: session
units: in
grid: { square: 3 }
materials: { card: { thickness: 1/16 } }
tiles: { wall: { parts: { face: { of: card, size: [3, 2] } } } }
make: { wal: 2 }
#       ^^^ error E22: unknown tile "wal"; did you mean "wall"?
`.slice(1),
    );
  });

  it('are read with a rule that has such marks (E37) and printed on paper that is left (E38)', () => {
    check(`
print: { ruler: [1/32, 3/32, 0.5 mm, 0.3 mm], paper: [4, 6], margin: 2 }
#                      ^^^^ error E37: a ruler of 3/32 in divides neither an inch nor a millimetre
#                                    ^^^^^^ error E37: a ruler of 3/254 in divides neither an inch nor a millimetre
#                                                                    ^ error E38: two margins of 2 in leave nothing of paper 4 in wide
`);
  });
});

describe('sizes and counts out of range', () => {
  it('each say what would do', () => {
    const { E12, E15 } = catalogue;
    const lengths = (least: 'above zero' | 'zero', units: 'in' | 'mm', key?: string) =>
      E12.hint?.({ comesTo: '-3', least, units, key });
    expect(lengths('above zero', 'in')).toBe('a length that can be cut, as in 2 1/2');
    expect(lengths('above zero', 'mm')).toBe('a length that can be cut, as in 60');
    expect(lengths('above zero', 'mm', 'climb')).toContain('leave   climb   out for none, or a length');
    expect(lengths('zero', 'in')).toContain('0 for none');
    const counts = (comesTo: string, least: string) =>
      E15.hint?.({ what: 'parts', comesTo, least, most: '1 000 000' });
    expect(counts('1000001', '1')).toContain('a digit too many');
    expect(counts('0', '1')).toContain('leave out');
    expect(counts('-1', '0')).toContain('0 for none');
  });
});

describe('pieces of one part', () => {
  it('that would differ are told with their tile, their size and their names (E55)', () => {
    check(`
tiles:
  shed:
    parts:
      slab: { of: greyboard, size: [3, 3] }
      post: { of: greyboard, size: [rest, 1], lies: yes }
#                                   ^^^^ error E55: "shed": the length of "post" would be 2 in as "post 1" and 1 in as "post 2"
      end:  { of: greyboard, size: [1, 1], lies: yes }
    build: { up: [slab, { across: [post, end] }, { across: [post, 2 x end] }] }
`);
  });

  it('are counted where there are too many, and it is said of which (E71)', () => {
    check(`
tiles:
  garden wall:
    footprint: [3, 1/16]
    parts: { brick: { of: greyboard, size: [1/2, 1/4] }, base: { of: greyboard, size: [3, 1/16] } }
    build: { up: [base, { courses: brick, long: 900, high: 900 }] }
#            ^^ error E71: the build of "garden wall" comes to 810001 pieces, 810000 of them "brick"; 10000 are the most
`);
  });
});
