import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { millimetres, rational, sum } from '../../../src/measure/index.ts';
import type { Length, Made, MaterialLayouts, NonEmpty, Settings } from '../../../src/model/index.ts';
import { type Look, widthOf } from '../../../src/print/columns/index.ts';
import { printText } from '../../../src/print/text/index.ts';
import { anyLayouts } from '../../plan/anyLayouts.ts';
import {
  crosscut,
  demand,
  inch,
  inRow,
  kind,
  layouts,
  leftOver,
  member,
  mm,
  part,
  rip,
  settings,
  sheet,
  trimmed,
} from '../../plan/byHand.ts';
import { plan } from '../../plan/planned.ts';
import { vineyard } from './vineyard.ts';

const file: Look = { width: 80, ascii: false };
const both: Settings = { ...settings, units: { value: 'both', from: 'option' } };

function withLayouts(all: readonly MaterialLayouts[], title = 'Test', its: Settings = settings): Made {
  return {
    ...vineyard,
    batch: { ...vineyard.batch, title, notes: [], materials: all.map((it) => it.demand), settings: its },
    layouts: all,
    plans: plan(all, its),
  };
}

const linesOf = (text: string) => text.split('\n');

describe('the width of the sheets', () => {
  it('is kept from 40 to 200 columns, in either set of signs, in either or both units', () => {
    for (const its of [settings, both, { ...both, firstUnit: 'mm' } satisfies Settings]) {
      const made = { ...vineyard, batch: { ...vineyard.batch, settings: its } };
      for (let width = 40; width <= 200; width += 7) {
        for (const ascii of [true, false]) {
          for (const line of linesOf(printText(made, { width, ascii }))) {
            expect(widthOf(line), `at ${width}: ${line}`).toBeLessThanOrEqual(width);
          }
        }
      }
    }
  });

  it('is kept with labels of any script and length', () => {
    const anyLabel = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 80 });
    fc.assert(
      fc.property(anyLabel, anyLabel, fc.constantFrom(40, 61, 80, 120), (a, b, width) => {
        const asked = demand(
          [
            kind(inch(3), inch(3), [member(a, 4)]),
            kind(inch(0, 1, 2), inch(3), [member(b, 6, 'x', { note: a })]),
          ],
          [sheet(inch(16), inch(3), { label: b, where: a, isOffcut: true })],
          {},
          { name: a },
        );
        const tree = inRow(
          crosscut,
          4,
          inch(3),
          part(0),
          inRow(crosscut, 6, inch(0, 1, 2), part(1, true), leftOver),
        );
        const text = printText(withLayouts([layouts(asked, [{ sheet: 0, tree, times: 1 }])], b), {
          width,
          ascii: false,
        });
        for (const line of linesOf(text)) expect(widthOf(line)).toBeLessThanOrEqual(width);
      }),
      { numRuns: 60 },
    );
  });
});

describe('signs', () => {
  it('are ASCII alone where nothing else is promised', () => {
    expect(printText(vineyard, { width: 80, ascii: true })).not.toMatch(/[^\n\x20-\x7e]/);
  });

  it('never touch the words of the user', () => {
    const made = { ...vineyard, batch: { ...vineyard.batch, title: 'Weinberg ⅜″ — 石垣' } };
    expect(printText(made, { width: 80, ascii: true })).toContain('Weinberg ⅜″ — 石垣');
  });

  it('let no control character through, wherever it was written', () => {
    const evil = '\x1b[2Jx\u202ey';
    const asked = demand(
      [kind(inch(3), inch(3), [member(evil, 1, evil, { note: evil, part: evil })])],
      [sheet(inch(4), inch(3), { label: evil, where: evil })],
      { tool: evil },
      { name: evil },
    );
    const made = withLayouts(
      [layouts(asked, [{ sheet: 0, tree: crosscut(inch(3), part(0), leftOver), times: 1 }])],
      evil,
    );
    const tiles = [{ ...vineyard.batch.tiles[0]!, label: evil, note: evil }];
    const text = printText({ ...made, batch: { ...made.batch, notes: [evil], tiles } }, file);
    expect(text.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\u202e]/u);
  });
});

describe('the picture', () => {
  // One part of a quarter of the length and half of the width; nothing narrow, so nothing is stretched.
  const asked = demand([kind(inch(4), inch(6), [member('lid', 1)])], [sheet(inch(16), inch(12))]);
  const tree = rip(inch(6), crosscut(inch(4), part(0), leftOver), leftOver);
  const made = withLayouts([layouts(asked, [{ sheet: 0, tree, times: 1 }])]);
  const lines = linesOf(printText(made, file));
  const top = lines.findIndex((line) => line.includes('┏'));
  const bottom = lines.findIndex((line) => line.startsWith('   ●'));

  it('is in proportion: a cut at a quarter of the length and half of the width is drawn there', () => {
    const left = lines[bottom]!.indexOf('●');
    const columns = lines[bottom]!.indexOf('┛') - left;
    const cutAt = lines[bottom]!.indexOf('┷') - left;
    expect(Math.abs(cutAt / columns - 4 / 16)).toBeLessThan(1 / columns);
    const rows = bottom - top;
    const ripAt = bottom - lines.findIndex((line) => line.includes('┠'));
    expect(Math.abs(ripAt / rows - 6 / 12)).toBeLessThan(1 / rows);
    // A character is twice as high as wide: 16 × 12 is 8 : 12 in characters.
    expect(Math.abs(rows / columns - 12 / 16 / 2)).toBeLessThan(1 / rows);
  });

  it('writes labels and sizes inside, the marks of the first cuts along the edge, the datum in its corner', () => {
    const picture = lines.slice(top, bottom + 2).join('\n');
    for (const words of ['lid', '4 × 6', ' 6 ┠', '12 ┏', '┛\n']) expect(picture).toContain(words);
    expect(lines[bottom + 1]).toMatch(/^ +4 +16$/);
  });

  it('gives a number to what has no room for its label, and spells it out below', () => {
    const long = 'a label that is long enough to fit nowhere';
    const narrow = demand([kind(inch(1), inch(12), [member(long, 1)])], [sheet(inch(16), inch(12))]);
    const text = printText(
      withLayouts([layouts(narrow, [{ sheet: 0, tree: crosscut(inch(1), part(0), leftOver), times: 1 }])]),
      file,
    );
    expect(text).toContain('1 is a label that is long enough to fit nowhere.');
  });

  it('joins a row of small equal parts into one outline with their count', () => {
    const small = demand(
      [kind(inch(0, 1, 2), inch(0, 1, 2), [member('stones', 30)])],
      [sheet(inch(16), inch(4))],
    );
    const row = rip(inch(0, 1, 2), inRow(crosscut, 30, inch(0, 1, 2), part(0), leftOver), leftOver);
    const text = printText(withLayouts([layouts(small, [{ sheet: 0, tree: row, times: 1 }])]), file);
    expect(text).toMatch(/[┃│].*30 × stones.*│/);
  });

  it('never joins across a cut of another strip', () => {
    // Three columns of four: the small parts of two columns lie side by side, but not in one strip.
    const small = demand([kind(inch(1), inch(1), [member('corner stone', 12)])], [sheet(inch(16), inch(4))]);
    const column = rip(inch(1), part(0), rip(inch(1), part(0), rip(inch(1), part(0), part(0))));
    const columns = inRow(crosscut, 3, inch(1), column, leftOver);
    const text = printText(withLayouts([layouts(small, [{ sheet: 0, tree: columns, times: 1 }])]), file);
    const bottomEdge = linesOf(text).find((line) => line.startsWith('  ●') || line.startsWith('    ●'));
    expect(bottomEdge?.match(/┷/g)?.length).toBe(3);
  });

  it('says where thin pieces had to be drawn wider than they are', () => {
    const thin = demand([kind(inch(16), inch(0, 1, 8), [member('lath', 3)])], [sheet(inch(16), inch(4))]);
    const laths = inRow(rip, 3, inch(0, 1, 8), part(0), leftOver);
    const text = printText(withLayouts([layouts(thin, [{ sheet: 0, tree: laths, times: 1 }])]), file);
    expect(text).toContain('Narrow pieces are drawn wider than they are.');
  });

  it('says nothing of stretching where everything is in proportion', () => {
    expect(lines.join('\n')).not.toContain('drawn wider');
  });
});

describe('the words', () => {
  const text = printText(vineyard, file);

  it('tell the stop, the count and the check of a run in one line of work', () => {
    expect(text.replaceAll(/\s+/g, ' ')).toContain(
      '24 × edging in all; set a stop at 1 1/4, cut 12; check: the last ends at 15',
    );
  });

  it('tell a rest that is too thin for a strip as trimming', () => {
    const hair = millimetres(rational(1n, 50n));
    const said = (count: number, rest: Length) => {
      const asked = demand(
        [kind(inch(1), inch(2), [member('a', count)])],
        [sheet(sum(inch(count), rest), inch(2))],
      );
      const tree = inRow(crosscut, count, inch(1), part(0), leftOver);
      return printText(withLayouts([layouts(asked, [{ sheet: 0, tree, times: 1 }])]), file);
    };
    expect(said(1, hair)).toContain('Crosscut the sheet: trim to 1 → a.\n');
    expect(said(1, hair)).not.toContain('rest ');
    expect(said(3, hair).replaceAll(/\s+/g, ' ')).toContain(
      'at 1, 2, 3 → 3 × a; set a stop at 1, cut 3, the last to trim it; check: the last ends at 3',
    );
    expect(said(1, inch(0, 1, 2))).toContain('at 1 → a; rest 1/2 → scrap.');
  });

  it('tell how many sheets, and what is known of that number', () => {
    expect(text).toContain('twinwall: 3 sheets, the fewest possible');
    expect(text).toContain('foam: 1 sheet, at most 1 more than the fewest possible');
    const unsure = { ...vineyard.plans[0]!, proof: { kind: 'none' } as const };
    expect(printText({ ...vineyard, plans: [unsure] }, file)).toContain('greyboard: 1 sheet and 1 offcut\n');
  });

  it('tell to label before the cut that frees, on the face that will be hidden', () => {
    expect(text).toContain('Label before you crosscut, on the face that will be hidden: ');
    expect(text).toContain('Label in the same way before you rip: ');
  });

  it('tell to keep together what is not written on', () => {
    const flat = text.replaceAll(/\s+/g, ' ');
    expect(flat).toContain('keep together as they come off: one slip for all 48 × RW stones');
    expect(flat).not.toMatch(/Label[^;.]*RW stones/);
  });

  it('name what the labels of each tile begin with', () => {
    const flat = text.replaceAll(/\s+/g, ' ');
    expect(flat).toContain('To make 4 × terrace (TE), 1 × cistern (CI), 2 × retaining wall (RW)');
  });

  it('name every rule that the marks are read on, in the unit of the marks', () => {
    const ruled = (units: 'in' | 'mm', ...steps: NonEmpty<Length>) => {
      const { batch } = vineyard;
      const settings: Settings = {
        ...batch.settings,
        units: { value: units, from: 'option' },
        firstUnit: units,
        ruler: { value: steps, from: 'option' },
      };
      return printText({ ...vineyard, batch: { ...batch, settings } }, file).replaceAll(/\s+/g, ' ');
    };
    const [sixteenth, thirtySecond] = [inch(0, 1, 16), inch(0, 1, 32)];
    expect(ruled('in', sixteenth, thirtySecond)).toContain('a rule of 1/16 in and of 1/32 in;');
    // 2 7/8 in is 73.025 mm: 0.025 above a whole millimetre.
    const inMm = ruled('mm', mm(1));
    expect(inMm).toContain('a rule of 1 mm;');
    expect(inMm).toContain('73 full (+0.025)');
    expect(inMm).not.toMatch(/(at|stop at|ends at) [\d.]*\d\.\d/);
  });

  it('say which thickness was measured only where it is another', () => {
    const [first, ...others] = vineyard.plans;
    const measured = (nominal: Length) => {
      const material = { ...first!.demand.material, measured: first!.demand.material.thickness, nominal };
      const plan = { ...first!, demand: { ...first!.demand, material } };
      return printText({ ...vineyard, plans: [plan, ...others] }, file);
    };
    expect(measured(inch(0, 1, 16))).toContain('1/16 in thick as measured. ');
    expect(measured(inch(0, 1, 8))).toContain('1/16 in thick as measured (nominal 1/8 in). ');
  });

  it('tie the good side to its own row, and alike strips of unlike parts to the picture', () => {
    const good = { ...kind(inch(3), inch(4), [member('a', 1), member('b', 1)]), goodSide: true };
    const asked = demand([good], [sheet(inch(16), inch(5))]);
    const one = rip(inch(4), part(0), leftOver);
    const tree = crosscut(inch(3), one, crosscut(inch(3), one, leftOver));
    const text = printText(withLayouts([layouts(asked, [{ sheet: 0, tree, times: 1 }])]), file);
    expect(text).toContain('good side up: a, b\n');
    expect(text).toContain('Rip both strips A alike, a mark at both ends, labels as in the picture');
  });

  it('send a picture that only differs in its labels to the steps of the earlier one', () => {
    expect(text.replaceAll(/\s+/g, ' ')).toContain('Cut it by the steps of No. 1–2. The labels here: ');
  });

  it('mark a rounded diagonal with its signed error', () => {
    // Computed: √(8² + 5²) = 9.43398…, the nearest sixteenth is 9 7/16 = 9.4375: 0.0035 too much.
    expect(text).toMatch(/both diagonals measure 9 7\/16 scant \(-0\.0035\)/);
  });

  it('hold every label and every number of every step', () => {
    for (const { sheets, demand: asked } of vineyard.plans) {
      for (const { label } of asked.parts.flatMap((it) => it.members)) expect(text).toContain(label);
      for (const { number } of sheets[0]!.steps) expect(text).toMatch(new RegExp(`☐ ${number}  `));
    }
  });

  it('count the money of new sheets by currency, and none for offcuts', () => {
    // Source: 3 × 1.10 = 3.30, common arithmetic.
    const price = { amount: { numerator: 11n, denominator: 10n }, currency: 'EUR' };
    const asked = demand(
      [kind(inch(4), inch(6), [member('lid', 4)])],
      [sheet(inch(4), inch(7), { price }), sheet(inch(4), inch(7), { price, isOffcut: true })],
    );
    const tree = rip(inch(6), part(0), leftOver);
    const made = withLayouts([
      layouts(asked, [
        { sheet: 1, tree, times: 1 },
        { sheet: 0, tree, times: 3 },
      ]),
    ]);
    expect(printText(made, file)).toContain('3 sheets (3.30 EUR), the fewest possible, and 1 offcut');
  });

  it('name the parts that are on no sheet', () => {
    const asked = demand([kind(inch(4), inch(6), [member('lid', 3)])], [sheet(inch(4), inch(7))]);
    const made = withLayouts([
      layouts(asked, [{ sheet: 0, tree: rip(inch(6), part(0), leftOver), times: 1 }], {
        unplaced: [{ part: 0, count: 2 }],
        proof: { kind: 'none' },
      }),
    ]);
    const text = printText(made, file);
    expect(text).toContain('Not on any sheet: 2 × lid.');
    // Before anyone has picked up a knife, too.
    expect(text.indexOf('Missing  not on any sheet: 2 × lid.')).toBeLessThan(text.indexOf('━━ greyboard'));
    expect(text).toMatch(/made\/asked .*\n─.*\n +1\/3 +4 × 6 +1\/3 × lid\n/);
  });

  it('say of which material nothing could be laid out', () => {
    const text = printText({ ...vineyard, plans: vineyard.plans.slice(1) }, file);
    expect(text).toContain('greyboard: nothing could be laid out\n');
    expect(text).toContain('twinwall: 3 sheets, the fewest possible\n');
  });

  it('follow the trim edge by edge', () => {
    const asked = demand(
      [kind(mm(50), mm(30), [member('lid', 1)])],
      [sheet(mm(60), mm(40), { trim: { ...trimmed(mm(0)), left: mm(3), bottom: mm(2) } })],
    );
    const metric: Settings = {
      ...settings,
      units: { value: 'mm', from: 'kit' },
      firstUnit: 'mm',
      ruler: { value: [mm(1)], from: 'kit' },
    };
    const tree = rip(mm(30), crosscut(mm(50), part(0), leftOver), leftOver);
    const words = printText(
      withLayouts([layouts(asked, [{ sheet: 0, tree, times: 1 }])], 'Trim', metric),
      file,
    );
    expect(words.replaceAll(/\s+/g, ' ')).toContain(
      'Square up: true the bottom edge (take 2 off); square the left edge from it (take 3 off); check: 57 × 38, and',
    );
  });
});

describe('whatever the layout', () => {
  it('the picture fits the width, closes its frame, and every label can be read', () => {
    fc.assert(
      fc.property(anyLayouts, fc.constantFrom(40, 80, 133), fc.boolean(), (material, width, ascii) => {
        const made = withLayouts([material]);
        const text = printText(made, { width, ascii });
        for (const line of linesOf(text)) expect(widthOf(line)).toBeLessThanOrEqual(width);
        for (const { label } of material.demand.parts.flatMap((it) => it.members)) {
          expect(text.replaceAll(/\s+/g, ' ')).toContain(label);
        }
        if (!ascii) expect(text.match(/┏/g)?.length).toBe(text.match(/┛/g)?.length);
      }),
      { numRuns: 80 },
    );
  });
});

it('gives the same text for the same plan', () => {
  expect(printText(vineyard, file)).toBe(printText(vineyard, file));
});

describe('the sign of a rounded decimal', () => {
  it('is explained beneath the list where it stands there, and nowhere else', () => {
    const says = '~ marks a decimal that is rounded; in brackets how much more it truly is.';
    const oneOf = (length: Length): string => {
      const only = kind(length, inch(1), [member('A', 1)]);
      const whole = sheet(inch(6), inch(4));
      return printText(withLayouts([layouts(demand([only], [whole]), [])], 'Test', both), file);
    };
    // A seventh of an inch is a fraction of no rule and no short decimal.
    expect(oneOf(inch(2, 1, 7))).toContain(says);
    expect(oneOf(inch(2))).not.toContain(says);
  });
});
