import { describe, expect, it } from 'vitest';
import { pipeline, runToEnd } from '../../src/pipeline.ts';
import { expandText, specOf } from './check.ts';

const session = `cardwright: session
units: in
materials: { card: { thickness: 1/16 }, fluted: { thickness: 3 mm, flutes: yes } }
sheets: { card: [{ size: [16, 12], price: 1.10 EUR }] }
drawer: drawer.yaml
cutting: { trim: 1/8, worth keeping: [3, 2] }
`;
const drawer = `cardwright: drawer
units: mm
sheets: { card: [{ size: [16 in, 12 in], count: 2 }] }
offcuts:
  card: [{ size: [100, 80], label: keep 7 }]
  fluted: [{ size: [7 in, 4 in], flutes: unknown }]
  foam: [{ size: [7 in, 4 in] }]
`;

function made(count: number) {
  const text = `${session}loose: { floor: { of: card, size: [3, 3], count: ${count} } }\n`;
  const { value, diagnostics } = runToEnd(pipeline(specOf(text, { 'drawer.yaml': drawer }), {}));
  if (value === undefined) throw new Error(diagnostics.map(({ message }) => message).join('; '));
  const [layouts] = value.layouts;
  const [plan] = value.plans;
  if (layouts === undefined || plan === undefined) throw new Error('nothing was laid out');
  const used = layouts.layouts.map(({ sheet, times }) => ({ kind: layouts.demand.sheets[sheet], times }));
  const count_ = (isSo: (it: (typeof used)[number]['kind']) => boolean | undefined) =>
    used.filter(({ kind }) => isSo(kind)).reduce((sum, { times }) => sum + times, 0);
  return {
    plan,
    uncut: count_((it) => it?.isUncut),
    bought: count_((it) => it !== undefined && !it.isOffcut),
    offcuts: count_((it) => it?.isOffcut && it.isUncut !== true),
  };
}

describe('what lies in the drawer', () => {
  it('stands before what could be had, each in the unit of its file, the trim as the session says', () => {
    const text = `${session}loose: { floor: { of: card, size: [3, 3] } }\n`;
    const { value, diagnostics } = expandText(text, { 'drawer.yaml': drawer });
    expect(diagnostics).toEqual([]);
    const sheets = value?.materials[0]?.sheets ?? [];
    const sizes = sheets.map(({ length, trim, isOffcut, isUncut, inDrawer, available }) => ({
      length: Number(length.numerator) / Number(length.denominator),
      trim: Number(trim.left.numerator) / Number(trim.left.denominator),
      isOffcut,
      isUncut,
      inDrawer,
      available,
    }));
    expect(sizes).toEqual([
      { length: 100, trim: 0, isOffcut: true, isUncut: undefined, inDrawer: true, available: 1 },
      { length: 406.4, trim: 3.175, isOffcut: true, isUncut: true, inDrawer: true, available: 2 },
      {
        length: 406.4,
        trim: 3.175,
        isOffcut: false,
        isUncut: undefined,
        inDrawer: undefined,
        available: 'as needed',
      },
    ]);
  });

  // Source: computed: a sheet holds 5 × 3 floors of 3 in in 15 3/4 × 11 3/4, the offcut of 100 × 80 mm one.
  it('is used before anything is bought, its whole sheets too, and no more of them than needed', () => {
    expect(made(1)).toMatchObject({ uncut: 0, bought: 0, offcuts: 1 });
    expect(made(15)).toMatchObject({ uncut: 1, bought: 0, offcuts: 0 });
    expect(made(16)).toMatchObject({ uncut: 1, bought: 0, offcuts: 1 });
    expect(made(30)).toMatchObject({ uncut: 2, bought: 0 });
    expect(made(31)).toMatchObject({ uncut: 2, bought: 0, offcuts: 1 });
    expect(made(32)).toMatchObject({ uncut: 2, bought: 1 });
  });

  it('gives no label that is on an offcut already', () => {
    const keeps = made(3).plan.sheets.flatMap(({ leftovers }) => leftovers.flatMap(({ keep }) => keep ?? []));
    expect(keeps.length).toBeGreaterThan(0);
    expect(Math.min(...keeps.map((it) => Number(it.replace('keep ', ''))))).toBe(8);
  });

  it('may hold material of other kits; a name that looks misspelt is told', () => {
    const text = `${session}loose: { floor: { of: card, size: [3, 3] } }\n`;
    const misspelt = 'cardwright: drawer\noffcuts: { flutd: [{ size: [7 in, 4 in] }] }\n';
    expect(
      expandText(text, { 'drawer.yaml': misspelt }).diagnostics.map(({ code, severity }) => [code, severity]),
    ).toEqual([['E80', 'warning']]);
  });
});
