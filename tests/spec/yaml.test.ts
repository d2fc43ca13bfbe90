import { describe, expect, it } from 'vitest';
import { positionOf } from '../../src/model/index.ts';
import { check, read } from './check.ts';

describe('YAML, where it would mislead', () => {
  it('takes a decimal comma for a comma, and says so', () => {
    check(`
loose:
  a: { of: card, size: [1,25 in, 3] }
#                      ^^^^^^^^^^^^ error S37: 3 items stand where two are wanted
`);
  });

  it('warns of a text that a # cuts off', () => {
    check(`
loose:
  a: { of: card, size: [1, 3],
       label: wall #2
#             ^^^^ warning S24: the text ends at "wall": "#2" is a remark to YAML
  }
`);
  });

  it('takes two spaces before a # for a remark', () => {
    check('title: wall  # two of them\n');
  });

  it('says that a # at the start of a value hides it', () => {
    check(`
title: #2
^^^^^ error S38: nothing stands behind "title"
`);
  });

  it('wants a space behind a colon, in braces', () => {
    check(`
cutting: {kerf:1/32}
#         ^^^^^^^^^ error S23: "kerf:1/32" has no space behind its colon
`);
  });

  it('wants a space behind a colon, on a line of its own', () => {
    check(`
title: x
units:in
^^^^^^^^ error S23: "units:in" has no space behind its colon
`);
  });

  it('says that an inch mark needs no quotes', () => {
    check(`
loose:
  a: { size: ["4"", 3] }
#             ^^^^ fatal S14: "4"" goes on behind its closing quote
`);
    check(`
loose:
  a:
    size: ["4" in, 3]
#          ^^^^^^ fatal S14: "4" in goes on behind its closing quote
`);
  });

  it.each(['`', '@', '%', '&', '!', '*'])('refuses a text that starts with %s', (sign) => {
    const found = sign === '&' || sign === '!' ? `${sign}x` : `${sign}x y`;
    if (sign === '!') {
      check(`title: ${sign}x y\n#      ^^ fatal S17: "!x" is a YAML tag; tags are not read\n`);
    } else if (sign === '*') {
      check(`title: *x\n#      ^^ fatal S13: "*x" starts with *, which means something else in YAML\n`);
    } else if (sign !== '&') {
      check(
        `title: ${found}\n#      ^^^^ fatal S13: "${found}" starts with ${sign}, which means something else in YAML\n`,
      );
    }
  });

  it.each(['> 2 in', '| x', '|x'])('refuses the text %s', (found) => {
    const carets = '^'.repeat(found.length);
    check(
      `title: ${found}\n#      ${carets} fatal S13: "${found}" starts with ${found[0]}, which means something else in YAML\n`,
    );
  });

  it('refuses a tab that indents', () => {
    check(`
grid:
\tsquare: 3
^ fatal S10: a tab stands where a line is indented
`);
  });

  it('points at the quote that is not closed', () => {
    check(`
title: "Jetty
#      ^ fatal S11: this " is opened and never closed
units: in
`);
    check(`
title: it's 4" wide
note: 'a wall
#     ^ fatal S11: this ' is opened and never closed
units: in
`);
  });

  it('points at the bracket that is not closed', () => {
    check(`
grid: { square: 3
#     ^ fatal S12: this { is never closed
units: in
`);
    check(`
loose:
  a: { size: [3, 4 }
#            ^ fatal S12: this [ is never closed
units: in
`);
  });

  it('says that a # hides the bracket which is missing', () => {
    const { diagnostics } = read('cardwright: session\nloose: { a: { label: wall #2 } }\nunits: in\n');
    expect(diagnostics).toMatchObject([{ code: 'S12', related: [{ message: 'this is a remark' }] }]);
    expect(diagnostics[0]?.hints[0]).toContain('quotes around a text that holds a #');
  });

  it('points at the bracket that closes nothing', () => {
    check(`
loose:
  a: { size: [3, 4]] }
#                  ^ fatal S12: this ] closes nothing
`);
  });

  it('points at a line that does not line up', () => {
    check(`
grid:
    square: 3
  lip: 1/64
# ^^^^^^^^^ fatal S15: this line does not line up with the ones around it
`);
    check(`
units: in
  title: x
# ^^^^^^^^ fatal S15: this line does not line up with the ones around it
`);
  });

  it('passes over empty lines and remarks to the line that does not line up', () => {
    check(`
units: in
# how it is called

  title: x
# ^^^^^^^^ fatal S15: this line does not line up with the ones around it
`);
  });

  it('points at commas that stand between nothing', () => {
    check(`
levels: { low: 3 },
#                 ^ fatal S15: this comma stands outside of all brackets
units: in
`);
    check(`
levels: { low: 3,, high: 4 }
#                ^ fatal S15: nothing stands between this comma and the one before it
`);
  });

  it('points at a line without a colon', () => {
    check(`
units: in
title
^^^^^ fatal S15: this has no value; a colon and a space are missing
note: x
`);
  });

  it('points at a second colon', () => {
    check(`
title: Jetty: the long one
#      ^^^^^^^^^^^^^^^^^^^ fatal S26: "Jetty: the long one" holds a second colon and a space
`);
  });

  it('points at a key that is there twice, once for each time', () => {
    check(`
units: in
title: a
units: mm
^^^^^ error S16: "units" is here twice
`);
  });

  it('points at where a comma is missing', () => {
    check(`
loose:
  a: { of: card size: [1, 2] }
#          ^^^^^^^^^^ fatal S27: a comma is missing in "card size:"
`);
    check(`
loose:
  a: { size: [1, 2] of: card }
#                   ^^^^^^^^ fatal S27: a comma is missing before "of: card"
`);
    check(`
loose:
  a: { of: card
#          ^^^^ fatal S27: a comma is missing in "card size:"
       size: [1, 2] }
`);
    check(`
sheets: { card: [{ size: A4 } { size: A3 }] }
#                             ^^^^^^^^^^ fatal S27: a comma is missing before "{ size: A3"
`);
    check(`
loose: { a: { note: soon: paint it, size: [1, 2] } }
#                   ^^^^^^^^^^^^^^ fatal S26: "soon: paint it" holds a second colon and a space
`);
  });

  it('refuses tags', () => {
    check(`
title: !!str 7
#      ^^^^^ fatal S17: "!!str" is a YAML tag; tags are not read
`);
  });

  it('refuses a second document', () => {
    check(`
units: in
---
^^^ fatal S20: a second document begins here; a file holds one
title: x
`);
  });

  it('points at the line that ends the first one, whatever stands in the text', () => {
    check(`
note: one --- two
...
^^^ fatal S20: a second document begins here; a file holds one
units: in
`);
  });

  it('reads one document with its marks', () => {
    check('---\ncardwright: kit\n...\n');
  });

  it('refuses a key that is no word', () => {
    check(`
lengths:
  [a]: 3
# ^^^ error S22: a list stands where a key is wanted
`);
  });

  it('refuses unknown escapes', () => {
    check(`
title: "a\\qb"
#        ^^ fatal S25: "\\q" means nothing between double quotes
`);
  });

  it('follows aliases', () => {
    check(`
cardwright: kit
units: in
tiles:
  a: { parts: &both { wall: { of: card, size: [1, 2] } } }
  b: { parts: *both }
`);
  });

  it('tells a fault once that an alias repeats', () => {
    check(`
tiles:
  a: { parts: &both { wall: { off: card } } }
#                             ^^^ error S34: unknown key "off" in a part; did you mean "of"?
  b: { parts: *both }
`);
  });

  it('refuses an alias that holds itself', () => {
    check(`
tiles: &t
  a: { parts: *t }
#             ^^ fatal S18: "*t" stands inside the very thing it repeats
`);
  });

  it('refuses a bomb of aliases at once', () => {
    const levels = 'bcdefghij'.split('').map((name, i) => {
      const before = 'abcdefghij'[i];
      return `${name}: &${name} [${Array.from({ length: 9 }, () => `*${before}`).join(', ')}]`;
    });
    check(
      `cardwright: kit\n^^^^^^^^^^^^^^^ fatal S19: the aliases of this file repeat it more than ten times over\na: &a [x, x, x]\n${levels.join('\n')}\n`,
    );
  });

  it('refuses lists more than 64 deep, and takes 64', () => {
    const nested = (depth: number): string => `title: ${'['.repeat(depth)}${']'.repeat(depth)}\n`;
    const caret = ' '.repeat(7 + 63 - 1);
    check(`${nested(64)}#${caret}^ fatal S21: lists and maps lie more than 64 deep in each other\n`);
    check(
      `${nested(63)}#      ${'^'.repeat(126)} error S36: a list stands where the text of title is wanted\n`,
    );
  });
});

describe('several faults of YAML in one file', () => {
  const codes = (text: string): readonly (readonly [string, number])[] =>
    read(`cardwright: session\n${text}`).diagnostics.map(({ code, place }) => [
      code,
      place.kind === 'span' ? positionOf(place.span).line : 0,
    ]);

  it('are all told where none follows from another', () => {
    expect(codes('title: a: b\nnote: @x\nloose:\n\ta: 1\nsheets\ncutting: "a" b\n')).toEqual([
      ['S26', 2],
      ['S13', 3],
      ['S10', 5],
      ['S15', 6],
      ['S14', 7],
    ]);
  });

  it('are told once for lines in a row that are indented alike', () => {
    expect(codes('loose:\n   a: { of: card }\n  b: { of: card }\n  c: { of: card }\ntitle: x: y\n')).toEqual([
      ['S15', 4],
      ['S26', 6],
    ]);
  });

  it('are told up to a bracket or a quote that is not closed, since all behind it is read askew', () => {
    expect(codes('title: @x\nloose: { a: { of: card }\nnote: a: b\nsheets: ]\n')).toEqual([
      ['S13', 2],
      ['S12', 3],
    ]);
    expect(codes('note: "x\nloose: { a: { of: card } }\ntitle: a: b\n')).toEqual([['S11', 2]]);
    expect(codes('note: [1]]\nloose: {}\ntitle: a: b\n')).toEqual([['S12', 2]]);
  });

  it('are told in the order of the text', () => {
    const found = codes('a: @x\nb: `y`\nc: %z\n');
    expect(found.map(([, line]) => line)).toEqual([2, 3, 4]);
  });
});
