import { describe, expect, it } from 'vitest';
import { millimetres, rational, sum, toFraction, toInches } from '../../src/measure/index.ts';
import type { CutTree, Length, NonEmpty, PartKind, SheetPlan, Step } from '../../src/model/index.ts';
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
} from './byHand.ts';
import { plan } from './planned.ts';

const inIn = (length: Length) => toFraction(toInches(length));

type CutStep = Extract<Step, { kind: 'rip' | 'crosscut' }>;
const cutsOf = (sheetPlan: SheetPlan) =>
  sheetPlan.steps.filter((step): step is CutStep => step.kind === 'rip' || step.kind === 'crosscut');
const labelsOf = (sheetPlan: SheetPlan) => sheetPlan.pieces.map((piece) => piece.member.label);

describe('squaring up', () => {
  const squared = (length: Length, width: Length, trim = mm(0)) => {
    const tree = rip(mm(1), part(0), leftOver);
    const asked = demand(
      [kind(length, mm(1), [member('a', 1)])],
      [sheet(length, width, { trim: trimmed(trim) })],
    );
    const [step] = plan([layouts(asked, [{ sheet: 0, tree, times: 1 }])], settings)[0]!.sheets[0]!.steps;
    if (step.kind !== 'square up') throw new Error('the first step squares the sheet up');
    return step;
  };

  // Source: Pythagorean triples, known since antiquity.
  it.each([
    [3, 4, 5],
    [5, 12, 13],
    [8, 15, 17],
    [20, 21, 29],
  ])('checks %i × %i by a diagonal of exactly %i', (a, b, c) => {
    const { diagonal } = squared(inch(a), inch(b));
    expect([inIn(diagonal.length), diagonal.isExact, toFraction(diagonal.error)]).toEqual([
      `${c}`,
      true,
      '0',
    ]);
  });

  it('takes the diagonal of what trim leaves, not of the sheet as bought', () => {
    const step = squared(inch(4, 1, 4), inch(3, 1, 4), inch(0, 1, 8));
    expect([inIn(step.length), inIn(step.width), inIn(step.diagonal.length)]).toEqual(['4', '3', '5']);
  });

  it('marks a diagonal that is not on the rule as rounded, with its signed error', () => {
    // Computed: √2 in = 1.41421356… in = 35.921024… mm. 1 7/16 in = 36.5125 mm is nearer than 1 6/16 in =
    // 34.925 mm, and 35.921024 − 36.5125 = −0.591476.
    const { diagonal } = squared(inch(1), inch(1));
    expect([inIn(diagonal.length), diagonal.isExact]).toEqual(['23/16', false]);
    expect(toFraction(diagonal.error)).toBe('-147869/250000');
  });
});

describe('a run of equal pieces', () => {
  const row = (kerf: Length, last: typeof leftOver | undefined, length: Length) => {
    const asked = demand([kind(inch(1, 1, 4), inch(2), [member('edging', 12)])], [sheet(length, inch(2))], {
      kerf,
    });
    const tree = inRow(crosscut, 12, inch(1, 1, 4), part(0), last);
    return cutsOf(plan([layouts(asked, [{ sheet: 0, tree, times: 1 }])], settings)[0]!.sheets[0]!);
  };

  it('is one step: set a stop at 1 1/4, cut 12; the last ends at 15', () => {
    // Source: 12 × 1 1/4 = 15, common practice.
    const [step, ...more] = row(inch(0), leftOver, inch(16));
    expect(more).toEqual([]);
    const [run] = step!.runs;
    expect([inIn(run.size), run.count, run.cuts, inIn(run.endsAt)]).toEqual(['5/4', 12, 12, '15']);
    expect(run.gives).toEqual([{ what: 'part', name: 'edging', count: 12 }]);
    expect(inIn(step!.remains!)).toBe('1');
  });

  it('counts the kerfs between the pieces into the check', () => {
    // Computed: 12 × 5/4 + 11 × 1/32 = 15 11/32 = 491/32.
    const [step] = row(inch(0, 1, 32), leftOver, inch(16));
    expect(inIn(step!.runs[0].endsAt)).toBe('491/32');
    expect(inIn(step!.marks[1]!)).toBe('81/32');
  });

  it('needs one cut less where the last piece ends on the edge', () => {
    const asked = demand([kind(inch(1), inch(2), [member('a', 3)])], [sheet(inch(3), inch(2))]);
    const tree = crosscut(inch(1), part(0), crosscut(inch(1), part(0), part(0)));
    const [step] = cutsOf(plan([layouts(asked, [{ sheet: 0, tree, times: 1 }])], settings)[0]!.sheets[0]!);
    expect([step!.marks.map(inIn), step!.runs[0].count, step!.runs[0].cuts]).toEqual([['1', '2'], 3, 2]);
    expect(inIn(step!.remains!)).toBe('1');
  });

  it('needs every cut where the last leaves less than a kerf', () => {
    const [step] = row(inch(0, 1, 8), undefined, inch(16, 7, 16)); // 15 + 11/8 = 16 3/8, and 1/16 is lost
    expect([step!.marks.length, step!.runs[0].cuts, step!.remains]).toEqual([12, 12, undefined]);
  });
});

describe('a run that ends in a rest of the same size', () => {
  it('leaves the rest to itself, to be told from the parts', () => {
    const asked = demand([kind(inch(1), inch(2), [member('a', 3)])], [sheet(inch(4), inch(2))]);
    const tree = inRow(crosscut, 3, inch(1), part(0), leftOver);
    const [step] = cutsOf(plan([layouts(asked, [{ sheet: 0, tree, times: 1 }])], settings)[0]!.sheets[0]!);
    expect(step!.runs.map((run) => [inIn(run.size), run.count, run.cuts, run.gives])).toEqual([
      ['1', 3, 3, [{ what: 'part', name: 'a', count: 3 }]],
      ['1', 1, 0, [{ what: 'scrap', name: 'scrap', count: 1 }]],
    ]);
  });
});

const tenths = (count: number) => millimetres(rational(BigInt(count), 10n));

// Source: common practice, no source. The rule of these tests has a mark at every 1/16 in, which is 1.5875 mm.
describe('a rest that is no strip', () => {
  const trims = (rest: Length, thickness: Length, rules = {}) => {
    const asked = demand(
      [kind(inch(1), inch(2), [member('a', 3)])],
      [sheet(sum(inch(3), rest), inch(2))],
      rules,
      { thickness },
    );
    const tree = inRow(crosscut, 3, inch(1), part(0), leftOver);
    const [step] = cutsOf(plan([layouts(asked, [{ sheet: 0, tree, times: 1 }])], settings)[0]!.sheets[0]!);
    return [step!.isTrimmed, step!.marks.length, toFraction(step!.remains!)];
  };

  it.each([
    ['less than from mark to mark', tenths(15), tenths(5), true],
    ['from mark to mark', inch(0, 1, 16), tenths(5), undefined],
    ['narrower than it is thick', tenths(17), tenths(18), true],
    ['as wide as it is thick', tenths(18), tenths(18), undefined],
    ['narrower than 2 mm, of foam', tenths(19), inch(0, 1, 2), true],
    ['2 mm wide, of foam', mm(2), inch(0, 1, 2), undefined],
  ])('is told where it is %s', (_, rest, thickness, isTrimmed) => {
    // The cut that trims it is a cut like any other: three marks.
    expect(trims(rest, thickness)).toEqual([isTrimmed, 3, toFraction(rest)]);
  });

  it('is never what is kept', () => {
    expect(trims(mm(1), mm(1), { worthKeeping: { long: mm(1), short: mm(1) } })[0]).toBeUndefined();
  });
});

describe('what is labelled', () => {
  const labelled = (tree: CutTree, ...kinds: NonEmpty<PartKind>) => {
    const [planned] = plan(
      [layouts(demand(kinds, [sheet(inch(16), inch(4))]), [{ sheet: 0, tree, times: 1 }])],
      settings,
    );
    return planned!.sheets[0]!.steps.flatMap((step) => (step.kind === 'label' ? step.labels : []));
  };

  it('is each part, where it can be written on and lies among others', () => {
    const [a, b] = [kind(inch(3), inch(4), [member('a', 4)]), kind(inch(1), inch(4), [member('b', 1)])];
    const tree = inRow(crosscut, 4, inch(3), part(0), crosscut(inch(1), part(1), leftOver));
    expect(labelled(tree, a, b)).toEqual([
      { label: 'a', count: 4, on: 'each' },
      { label: 'b', count: 1, on: 'each' },
    ]);
  });

  it('is a slip of paper for parts too small to be written on', () => {
    const small = kind(inch(0, 1, 2), inch(4), [member('a', 1)]);
    const large = kind(inch(3), inch(4), [member('b', 1)]);
    const tree = crosscut(inch(0, 1, 2), part(0), crosscut(inch(3), part(1), leftOver));
    expect(labelled(tree, small, large).map(({ on }) => on)).toEqual(['slip', 'each']);
  });

  it('is a slip of paper for a strip that gives one label again and again', () => {
    const run = (count: number) =>
      labelled(
        inRow(crosscut, count, inch(3), part(0), leftOver),
        kind(inch(3), inch(4), [member('a', count)]),
      );
    expect([run(4), run(3)].flat().map(({ count, on }) => [count, on])).toEqual([
      [4, 'slip'],
      [3, 'each'],
    ]);
  });
});

describe('the order of the hands', () => {
  const strips = rip(
    mm(30),
    inRow(crosscut, 2, mm(30), part(0), leftOver),
    rip(mm(30), inRow(crosscut, 2, mm(30), part(0), leftOver), crosscut(mm(50), part(1), leftOver)),
  );
  const asked = demand(
    [kind(mm(30), mm(30), [member('a', 4)]), kind(mm(50), mm(40), [member('b', 1)])],
    [sheet(mm(100), mm(100))],
    { worthKeeping: { long: mm(40), short: mm(30) } },
  );
  const planned = plan([layouts(asked, [{ sheet: 0, tree: strips, times: 1 }])], settings)[0]!;
  const [only] = planned.sheets;

  it('squares up, rips everything, labels, then crosscuts strip by strip, alike strips together', () => {
    const told = only!.steps.map((step) =>
      step.kind === 'rip' || step.kind === 'crosscut'
        ? `${step.kind} ${step.piece.name} x${step.piece.count} at ${step.marks.map(toFraction).join(' ')}`
        : step.kind,
    );
    expect(told).toEqual([
      'square up',
      'rip sheet x1 at 30 60',
      'label',
      'crosscut strip A x2 at 30 60',
      'crosscut strip B x1 at 50',
    ]);
    expect(only!.steps.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5]);
  });

  it('names strips where they lie, one name for all that are cut alike', () => {
    expect(only!.strips.map(({ name, box }) => `${name} from ${toFraction(box.bottom)}`)).toEqual([
      'strip A from 0',
      'strip A from 30',
      'strip B from 60',
    ]);
  });

  it('tells of each part which steps free it', () => {
    expect(only!.pieces.map(({ member: it, steps }) => `${it.label} ${steps.join(' ')}`)).toEqual([
      'a 2 4',
      'a 2 4',
      'a 2 4',
      'a 2 4',
      'b 2 5',
    ]);
  });

  it('names what is worth keeping, one name for equal leftovers, and calls the rest scrap', () => {
    expect(only!.leftovers.map(({ keep }) => keep)).toEqual(['keep 1', 'keep 1', 'keep 2']);
    expect(cutsOf(only!)[1]!.runs[1]!.gives).toEqual([{ what: 'keep', name: 'keep 1', count: 2 }]);
  });

  it('sets out 30 once for strips and parts, then 50 for b; what remains needs none', () => {
    expect(planned.order.map(({ size, uses }) => [toFraction(size), uses])).toEqual([
      [
        '30',
        [
          { sheet: 1, step: 2, piece: 'sheet', cuts: 2 },
          { sheet: 1, step: 4, piece: 'strip A', cuts: 4 },
        ],
      ],
      ['50', [{ sheet: 1, step: 5, piece: 'strip B', cuts: 1 }]],
    ]);
    expect(planned.settingsByPicture).toBe(2);
  });
});

it('cuts a near piece that is parted on in the same direction with the marks of the whole', () => {
  const tree = rip(mm(50), rip(mm(20), part(0), part(1)), part(2));
  const asked = demand(
    [
      kind(mm(60), mm(20), [member('a', 1)]),
      kind(mm(60), mm(29), [member('b', 1)]),
      kind(mm(60), mm(49), [member('c', 1)]),
    ],
    [sheet(mm(60), mm(100))],
    { kerf: mm(1) },
  );
  const [step, ...more] = cutsOf(
    plan([layouts(asked, [{ sheet: 0, tree, times: 1 }])], settings)[0]!.sheets[0]!,
  );
  expect([step!.marks.map(toFraction), more]).toEqual([['20', '50'], []]);
});

it('labels a sheet that is one whole part, and cuts nothing', () => {
  const asked = demand([kind(mm(60), mm(40), [member('lid', 1)])], [sheet(mm(60), mm(40))]);
  const [only] = plan([layouts(asked, [{ sheet: 0, tree: part(0), times: 1 }])], settings)[0]!.sheets;
  expect(only!.steps.map(({ kind: it }) => it)).toEqual(['square up', 'label']);
});

describe('dealing labels', () => {
  const beds = (times: number, ...members: Parameters<typeof kind>[2]) => {
    const asked = demand([kind(mm(10), mm(10), members)], [sheet(mm(30), mm(10))]);
    const tree = crosscut(mm(10), part(0), crosscut(mm(10), part(0), part(0)));
    const placed = 3 * times;
    const unplaced = asked.parts[0].count - placed;
    return plan(
      [layouts(asked, [{ sheet: 0, tree, times }], { unplaced: [{ part: 0, count: unplaced }] })],
      settings,
    )[0]!;
  };

  it('keeps sheets that are cut alike one picture where the labels divide', () => {
    const { sheets } = beds(4, member('A', 8), member('B', 4));
    expect(sheets.map((it) => [it.times, labelsOf(it)])).toEqual([[4, ['A', 'A', 'B']]]);
  });

  it('parts them only where labels differ', () => {
    const { sheets } = beds(4, member('A', 9), member('B', 3));
    expect(sheets.map((it) => [it.first, it.times, labelsOf(it)])).toEqual([
      [1, 1, ['A', 'A', 'A']],
      [2, 3, ['A', 'A', 'B']],
    ]);
  });

  it('names the members that no sheet was left for, the last of the batch first', () => {
    const { sheets, unplaced } = beds(1, member('A', 2), member('B', 4));
    expect(labelsOf(sheets[0]!)).toEqual(['A', 'A', 'B']);
    expect(unplaced.map((it) => [it.member.label, it.count])).toEqual([['B', 3]]);
  });

  it('keeps the parts of one tile on the same sheet where sheets differ', () => {
    const asked = demand(
      [
        kind(mm(10), mm(10), [member('A face', 2, 'A'), member('B face', 2, 'B')]),
        kind(mm(20), mm(10), [member('A bed', 2, 'A'), member('B bed', 2, 'B')]),
      ],
      [sheet(mm(60), mm(10)), sheet(mm(61), mm(10))],
    );
    const tree = crosscut(mm(10), part(0), crosscut(mm(10), part(0), crosscut(mm(20), part(1), part(1))));
    const wider = crosscut(
      mm(10),
      part(0),
      crosscut(mm(10), part(0), inRow(crosscut, 2, mm(20), part(1), leftOver)),
    );
    const { sheets } = plan(
      [
        layouts(asked, [
          { sheet: 0, tree, times: 1 },
          { sheet: 1, tree: wider, times: 1 },
        ]),
      ],
      settings,
    )[0]!;
    expect(sheets.map(labelsOf)).toEqual([
      ['A face', 'A face', 'A bed', 'A bed'],
      ['B face', 'B face', 'B bed', 'B bed'],
    ]);
  });

  it('deals a hundred thousand alike parts without copying them', () => {
    const { sheets } = beds(40_000, member('A', 60_000), member('B', 60_000));
    expect(sheets.map((it) => [it.times, labelsOf(it)])).toEqual([
      [20_000, ['A', 'A', 'B']],
      [20_000, ['A', 'B', 'B']],
    ]);
  });
});

it('plans the same for the same layouts, and numbers what is kept over the whole batch', () => {
  const one = () => {
    const asked = demand([kind(mm(10), mm(10), [member('a', 1)])], [sheet(mm(30), mm(10))], {
      worthKeeping: { long: mm(10), short: mm(10) },
    });
    return layouts(asked, [{ sheet: 0, tree: crosscut(mm(10), part(0), leftOver), times: 1 }]);
  };
  const other = one();
  const foam = {
    ...other,
    demand: { ...other.demand, material: { ...other.demand.material, name: 'foam' } },
  };
  const twice = [plan([one(), foam], settings), plan([one(), foam], settings)];
  expect(twice[0]).toEqual(twice[1]);
  expect(twice[0]!.map((it) => it.sheets[0]!.leftovers[0]!.keep)).toEqual(['keep 1', 'keep 2']);
});
