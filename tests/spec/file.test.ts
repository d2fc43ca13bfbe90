import { describe, expect, it } from 'vitest';
import { readSpec } from '../../src/spec/index.ts';
import { check, read } from './check.ts';

describe('the keys of a file', () => {
  it('tells all independent faults in one run', () => {
    check(`
cardwright: kit
units: in
grid: { sqaure: 3 }
#       ^^^^^^ error S34: unknown key "sqaure" in the grid; did you mean "square"?
tiels: {}
^^^^^ error S34: unknown key "tiels" in a kit; did you mean "tiles"?
`);
  });

  it('guesses nothing where nothing is near', () => {
    check(`
zzzzqqq: 3
^^^^^^^ error S34: unknown key "zzzzqqq" in a session
`);
  });

  it('says which keys would do', () => {
    const [first] = read('cardwright: kit\nprint: { colour: red }\n').diagnostics;
    expect(first?.hints).toEqual(['known here: ruler, paper, margin, units, slips']);
  });

  it('says what it is, first of all', () => {
    check(`
units: in
^^^^^ fatal S30: the file does not say what it is
cardwrite: kit
`);
    check(`
units: in
cardwright: kit
^^^^^^^^^^ error S32: "cardwright" comes after "units"; it is the first key of a file
`);
    check(`
cardwright: kitt
#           ^^^^ fatal S31: "kitt" is not a kind of file; did you mean "kit"?
`);
    check(`
- cardwright
^^^^^^^^^^^^ fatal S30: the file does not say what it is
`);
  });

  it('knows keys that are not built yet', () => {
    check(`
cardwright: kit
table: []
^^^^^ error S33: "table" belongs to the language but is not built yet
tiles:
  wall:
    finish: none
#   ^^^^^^ error S33: "finish" belongs to the language but is not built yet
`);
  });

  it('keeps each key in its kind of file', () => {
    check(`
cardwright: shelf
tiles: {}
^^^^^ error S35: "tiles" has no place in a shelf
make: {}
^^^^ error S35: "make" has no place in a shelf
`);
    check(`
cardwright: kit
make: {}
^^^^ error S35: "make" has no place in a kit
`);
  });
});

describe('what would mend it', () => {
  it.each([
    ['cutting: { kref: 1/32 }', 'cutting: { kerf: 1/32 }'],
    ['cutting: {kerf:1/32}', 'cutting: {kerf: 1/32}'],
    ['loose: { a: { grain: lenght } }', 'loose: { a: { grain: length } }'],
    ['loose: { a: { good side: True } }', 'loose: { a: { good side: yes } }'],
    ['lengths: { a: b + 1 }', 'lengths: { a: (b + 1) }'],
  ])('of %s is the edit to %s', (text, mended) => {
    const head = 'cardwright: session\n';
    const [fault] = read(head + text).diagnostics;
    const { span, text: instead } = fault?.fix ?? {};
    const edited = span && span.source.text.slice(0, span.start) + instead + span.source.text.slice(span.end);
    expect(edited).toBe(head + mended);
    expect(read(head + mended).diagnostics).toEqual([]);
  });
});

describe('the values of keys', () => {
  it('wants the right sort', () => {
    check(`
title: [a]
#      ^^^ error S36: a list stands where the text of title is wanted
grid: 3
#     ^ error S36: "3" stands where a map for the grid is wanted
sheets: { card: { size: A4 } }
#               ^^^^^^^^^^^^ error S36: a map stands where a list of sheets is wanted
loose:
  a: { size: 3 x 2, count: [2] }
#            ^^^^^ error S36: "3 x 2" stands where a list of two measures is wanted
#                          ^^^ error S36: a list stands where a measure, a name or a sum is wanted
uses: shelf.yaml
#     ^^^^^^^^^^ error S36: "shelf.yaml" stands where a list of paths is wanted
`);
  });

  it('shows how a size is written', () => {
    const hint = (size: string) =>
      read(`cardwright: session\nloose: { a: { size: ${size} } }\n`).diagnostics[0]?.hints;
    expect(hint('[16 12]')).toEqual(['a comma is missing: [16, 12]']);
    expect(hint('[1,25, 3]')).toEqual(['a decimal comma? write 1.25']);
    expect(hint('[3 1/2]')).toEqual(['[3, 2 1/2]']);
    expect(read('cardwright: session\nloose: { a: { size: 3 x 2 1/2 } }\n').diagnostics[0]?.hints).toEqual([
      '[3, 2 1/2]',
    ]);
  });

  it('wants something behind a key', () => {
    check(`
loose:
  a:
# ^ error S38: nothing stands behind "a"
  b: { of: , size: [1, 2] }
#      ^^ error S38: nothing stands behind "of"
`);
  });

  it('takes yes and no, nothing else', () => {
    check(`
materials:
  card: { thickness: 1/16, grain: yes, flutes: no }
  felt: { thickness: 1/16, grain: true, flutes: No }
#                                 ^^^^ error S40: "grain" is yes or no, not "true"
#                                               ^^ error S40: "flutes" is yes or no, not "No"
`);
  });

  it('takes words of closed sets', () => {
    check(`
units: inch
#      ^^^^ error S39: "units" can't be "inch"
loose:
  a: { grain: lenght, flutes: across }
#             ^^^^^^ error S39: "grain" can't be "lenght"; did you mean "length"?
#                             ^^^^^^ error S39: "flutes" can't be "across"
offcuts: { card: [{ size: A4, grain: unknown, count: as needed }, { size: A44 }] }
#                                                                         ^^^ error S39: "size" can't be "A44"; did you mean "a4"?
print: { units: cm, paper: Leter }
#               ^^ error S39: "units" can't be "cm"
#                          ^^^^^ error S39: "paper" can't be "Leter"; did you mean "letter"?
cutting: { effort: quik }
#                  ^^^^ error S39: "effort" can't be "quik"; did you mean "quick"?
`);
  });

  it('takes paper either way up, but no other words', () => {
    check('print: { paper: A4 landscape }');
    check('print: { paper: landscape }');
    check('print: { paper: [11, 8 1/2] }');
    check(`
print: { paper: A4 sideways }
#               ^^^^^^^^^^^ error S39: "paper" can't be "A4 sideways"
`);
  });

  it('reads prices exactly, with their money', () => {
    const spec = read('cardwright: shelf\nsheets: { card: [{ size: A4, price: 2.40 EUR }] }\n').value;
    expect(spec?.files[0].sheets[0]?.value[0]?.price?.value).toEqual({
      amount: { numerator: 12n, denominator: 5n },
      currency: 'EUR',
    });
    check(`
sheets:
  card:
    - { size: A4, price: 2.40 }
#                        ^^^^ error S45: "2.40" is not a price
    - { size: A4, price: EUR 2 }
#                        ^^^^^ error S45: "EUR 2" is not a price
`);
  });

  it('keeps numbers as they were typed', () => {
    const spec = read('cardwright: session\nloose: { a: { count: 007, size: [0.1, 1.50] } }\n').value;
    const part = spec?.files[0].loose[0]?.value;
    expect(part?.count).toMatchObject({ amount: { numerator: 7n, denominator: 1n } });
    expect(part?.size?.length).toMatchObject({ amount: { numerator: 1n, denominator: 10n } });
    check(`
loose:
  a: { count: 0x1F, size: [1e3, 1_000] }
#             ^^^^ error M15: "0x1F" is not written in tens
#                          ^^^ error M14: "1e3" has an exponent
#                               ^^^^^ error M09: "1_000" sets its thousands apart
`);
  });

  it('gives a trim to each side, or to all', () => {
    const trim = (text: string) =>
      read(`cardwright: shelf\nsheets: { card: [{ size: A4, trim: ${text} }] }\n`).value?.files[0].sheets[0]
        ?.value[0]?.trim;
    expect(trim('1/8')?.top).toMatchObject({ kind: 'measure' });
    expect(trim('{ left: 1/8 }')?.left).toMatchObject({ kind: 'measure' });
    expect(trim('{ left: 1/8 }')?.top).toBeUndefined();
  });

  it('takes none only where something is there to be taken away', () => {
    check(`
tiles:
  a: { parts: { wall: { of: card, size: [1, 2], note: none } } }
#                                                     ^^^^ error S47: "note: none" takes away nothing, since this is like no other
  b: { like: a, parts: { wall: { note: none }, lid: none }, lengths: { core: none } }
`);
  });

  it('refuses squares beside a footprint', () => {
    check(`
tiles:
  a: { squares: [1, 1], footprint: none }
#                       ^^^^^^^^^ error S46: "a" has both squares and a footprint
`);
  });
});

describe('names', () => {
  it.each(['body 2', 'half-round', "maker's mark", "boys' wall", 'étage', 'T 1-a', 'Up', 'b', 'X'])(
    'takes %s',
    (name) => {
      check(`lengths:\n  ${name}: 3\nmaterials:\n  ${name}: { thickness: 3 }\n`);
    },
  );

  it.each([
    ['2nd', 'it does not begin with a letter'],
    ['a+b', '"+" is in it'],
    ['a  b', 'its spaces are not single ones'],
    ['a -b', 'each word begins and ends with a letter or a digit'],
    ['a (b)', '"(" is in it'],
  ])('refuses %s', (name, why) => {
    check(
      `lengths:\n  ${name}: 3\n# ${'^'.repeat(name.length)} error S41: "${name}" can't be a name: ${why}\n`,
    );
  });

  it('keeps the words of sums and of the language', () => {
    check(`
lengths:
  height of wall: 3
#        ^^ error S42: "of" means something in the language, so it can't be in the name "height of wall"
  gap wide: 3
# ^^^ error S42: "gap" means something in the language, so it can't be in the name "gap wide"
  inch: 3
# ^^^^ error S42: "inch" means something in the language, so it can't be a name
  square: 3
# ^^^^^^ error S42: "square" means something in the language, so it can't be a name
  wall: 3
# ^^^^ error S42: "wall" means something in the language, so it can't be a name
materials:
  wall: { thickness: 3 }
  rest: { thickness: 3 }
# ^^^^ error S42: "rest" means something in the language, so it can't be a name
`);
  });

  it('lets tiles and loose parts be called anything that can be printed', () => {
    check('tiles:\n  2 x 2 floor (left): {}\nloose:\n  "3/4 strip": { of: card, size: [1, 2] }\n');
  });

  it('goes to 80 characters', () => {
    check(
      `lengths:\n  ${'a'.repeat(80)}: 3\n  ${'b'.repeat(81)}: 3\n# ${'^'.repeat(81)} error S44: a name of 81 characters; at most 80 are allowed\n`,
    );
  });

  it('finds a name again that is composed otherwise', () => {
    const spec = read('cardwright: kit\nlengths: { "e\u0301tage": 3, b: \u00e9tage }\n').value;
    const [first, second] = spec?.files[0].lengths ?? [];
    expect(second?.value).toMatchObject({ reference: { name: first?.name } });
  });
});

describe('files', () => {
  const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
  const alone = (content: Uint8Array) =>
    readSpec([{ path: 'kit.yaml', bytes: content }], () => ({ kind: 'missing', reason: 'none' }));
  const codes = (content: Uint8Array): readonly string[] =>
    alone(content).diagnostics.map(({ code }) => code);

  it('takes a byte order mark and CR LF, and keeps its places', () => {
    const { diagnostics } = alone(bytes('\ufeffcardwright: kit\r\ngrid: { sqaure: 3 }\r\n'));
    const [first] = diagnostics;
    expect(
      first?.place.kind === 'span' &&
        first.place.span.source.text.slice(first.place.span.start, first.place.span.end),
    ).toBe('sqaure');
    expect(diagnostics).toHaveLength(1);
  });

  it.each([
    ['nothing', new Uint8Array(), 'S04'],
    ['remarks alone', bytes('# later\n'), 'S04'],
    ['a picture', Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13), 'S02'],
    ['UTF-16 with its mark', Uint8Array.of(0xff, 0xfe, 0x63, 0), 'S02'],
    ['UTF-16 without it', Uint8Array.of(0x63, 0, 0x61, 0, 0x72, 0), 'S02'],
    ['Latin 1', Uint8Array.of(...bytes('cardwright: kit\ntitle: caf'), 0xe9, 0x0a), 'S02'],
    ['an overlong form', Uint8Array.of(0xc0, 0xaf), 'S02'],
    ['more than 1 MB', new Uint8Array(1_000_001).fill(0x20), 'S03'],
    ['a bell', bytes('cardwright: kit\ntitle: a\u0007\n'), 'S05'],
    ['a turn of direction', bytes('cardwright: kit\ntitle: a\u202eb\n'), 'S05'],
    ['a mark inside', bytes('cardwright: kit\ntitle: a\ufeffb\n'), 'S05'],
  ])('refuses %s', (_, content, code) => {
    expect(codes(content)).toEqual([code]);
  });

  it('follows uses from the folder of the file that names them', () => {
    const asked: string[] = [];
    const paths: readonly string[] = [
      'a/b/kit.yaml',
      './kit.yaml',
      '/home/me/kit.yaml',
      '<stdin>',
      '../kit.yaml',
    ];
    for (const path of paths) {
      readSpec([{ path, bytes: bytes('cardwright: kit\nuses: [../shared/./cards.yaml]\n') }], (found) => {
        asked.push(found);
        return { kind: 'missing', reason: 'none' };
      });
    }
    expect(asked).toEqual([
      'a/shared/cards.yaml',
      '../shared/cards.yaml',
      '/home/shared/cards.yaml',
      '../shared/cards.yaml',
      '../../shared/cards.yaml',
    ]);
  });

  it('says that a file is not there', () => {
    check(`
uses: [cards.yaml, felts.yaml]
#      ^^^^^^^^^^ fatal S01: can't read "cards.yaml": there is no such file
#                  ^^^^^^^^^^ fatal S01: can't read "felts.yaml": there is no such file
`);
  });

  it('tells faults of a used file in that file, once', () => {
    const shelf = 'cardwright: shelf\ntitel: x\n';
    const { diagnostics } = read('cardwright: kit\nuses: [a.yaml, b.yaml]\n', {
      'a.yaml': 'cardwright: shelf\nuses: [b.yaml]\n',
      'b.yaml': shelf,
    });
    expect(
      diagnostics.map(({ code, place }) => [code, place.kind === 'span' && place.span.source.path]),
    ).toEqual([['S34', 'b.yaml']]);
  });

  it('makes one object of a file that several use', () => {
    const kit = read('cardwright: kit\nuses: [a.yaml, b.yaml]\n', {
      'a.yaml': 'cardwright: shelf\nuses: [b.yaml]\n',
      'b.yaml': 'cardwright: shelf\n',
    }).value?.files[0];
    expect(kit?.uses[0]?.uses[0]).toBe(kit?.uses[1]);
  });

  it('sees a loop at the place that closes it', () => {
    const { diagnostics } = read('cardwright: kit\nuses: [a.yaml]\n', {
      'a.yaml': 'cardwright: shelf\nuses: [kit.yaml]\n',
    });
    expect(diagnostics.map(({ message }) => message)).toEqual([
      'these files use each other: kit.yaml → a.yaml → kit.yaml',
    ]);
  });

  it('refuses a session that is used, and paths of one computer', () => {
    check(
      `
uses: [a.yaml, /etc/cards.yaml, "c:\\\\cards.yaml", http://cards/a.yaml]
#      ^^^^^^ error S07: "a.yaml" is a session; only kits and shelves are used by others
#              ^^^^^^^^^^^^^^^ error S08: "/etc/cards.yaml" is not a path from this file's folder
#                               ^^^^^^^^^^^^^^^^ error S08: "c:\\cards.yaml" is not a path from this file's folder
#                                                 ^^^^^^^^^^^^^^^^^^^ error S08: "http://cards/a.yaml" is not a path from this file's folder
`,
      { 'a.yaml': 'cardwright: session\n' },
    );
  });

  it('has no value where a file is not known at all', () => {
    expect(read('cardwright: kit\nuses: [a.yaml]\n').value).toBeUndefined();
    expect(read('cardwright: kit\ntitel: x\n').value).toBeDefined();
    expect(read('cardwright: kit\ntiels: {}\n').value).toBeUndefined();
  });
});

describe('a drawer', () => {
  it('holds sheets and offcuts, and nothing that says what things are', () => {
    check(`
cardwright: drawer
uses: [a.yaml]
^^^^ error S35: "uses" has no place in a drawer
materials: {}
^^^^^^^^^ error S35: "materials" has no place in a drawer
sheets: { card: [{ size: [16, 12] }] }
offcuts: { card: [{ size: [8, 5], label: G1 }] }
make: {}
^^^^ error S35: "make" has no place in a drawer
`);
  });

  it('is named by a session, and by nothing else', () => {
    const others = {
      'a.yaml': 'cardwright: drawer\noffcuts: { card: [{ size: [8 in, 5 in] }] }\n',
      'b.yaml': 'cardwright: shelf\n',
    };
    expect(read('cardwright: session\ndrawer: a.yaml\n', others).value?.files[0].drawer?.kind).toBe('drawer');
    check(
      'drawer: b.yaml\n#       ^^^^^^ error S09: "b.yaml" is a shelf; behind "drawer" stands a drawer',
      others,
    );
    check(
      'uses: [a.yaml]\n#      ^^^^^^ error S07: "a.yaml" is a drawer; only kits and shelves are used by others',
      others,
    );
    check('cardwright: kit\ndrawer: a.yaml\n^^^^^^ error S35: "drawer" has no place in a kit', others);
    check('drawer: c.yaml\n#       ^^^^^^ fatal S01: can\'t read "c.yaml": there is no such file', others);
  });
});

describe('an angle with its unit', () => {
  it.each([
    ['90 deg', 'deg', '90'],
    ['45degrees', 'degrees', '45'],
    ['22 1/2°', '°', '22 1/2'],
  ])('is told to be a bare number: %s', (written, found, bare) => {
    const text = `cardwright: kit
units: mm
materials: { card: { thickness: 1 } }
parts: { u: { of: card, folds: { panels: [10, 10], angles: [${written}], width: 5 } } }
`;
    const bytes = new TextEncoder().encode(text);
    const told = readSpec([{ path: 'u.yaml', bytes }], () => ({ kind: 'missing', reason: 'none' }));
    expect(told.diagnostics.map(({ code, message, hints }) => [code, message, hints])).toEqual([
      ['M03', `"${found}" is not a unit of length known here`, [`${bare} alone: angles are in degrees`]],
    ]);
  });
});
