import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { add, multiply, subtract, toFraction, whole } from '../../../src/measure/index.ts';
import { pipeline, runToEnd } from '../../../src/pipeline.ts';
import { printCountCsv, sizesByTile, workOf } from '../../../src/print/count/index.ts';
import { printCount } from '../../../src/print/text/index.ts';
import { batchOf, specOf } from '../../expand/check.ts';

const session = `cardwright: session
units: in
grid: { square: 3 }
materials: { card: { thickness: 1/16 }, foam: { thickness: 12.7 mm, kerf: 1/32 } }
sheets: { card: [{ size: [16, 12], price: 1.10 EUR, trim: 1/8 }], foam: [{ size: [24, 12], price: 3.40 EUR }] }
tiles:
  'wall, "low"':
    parts: { face: { of: card, size: [3, 2 3/8], label: 'face; one' }, core: { of: foam, size: [3, 1], count: 2 } }
  floor: { parts: { top: { of: card, size: [square, square] } } }
make: { 'wall, "low"': 4, floor: 3 }
loose: { edging: { of: card, size: [1 1/4, 1 1/4], count: 40 } }
spares: { face: 10%, edging: 2 }
cutting: { worth keeping: [3, 2] }
`;

function made() {
  const { value, diagnostics } = runToEnd(pipeline(specOf(session), {}));
  if (value === undefined) throw new Error(diagnostics.map(({ message }) => message).join('; '));
  return value;
}

describe('the list as CSV', () => {
  it('is read back by another program as it was meant', () => {
    const batch = batchOf(session);
    const text = printCountCsv(batch);
    // Source: RFC 4180, as csv-parse reads it with nothing relaxed.
    const rows: Record<string, string>[] = parse(text, { columns: true, record_delimiter: '\r\n' });
    const members = batch.materials.flatMap(({ material, parts }) =>
      parts.flatMap((kind) => kind.members.map((member) => ({ material, kind, member }))),
    );
    expect(rows.map((it) => [it.material, it.tile, it.part, it.label, it.count])).toEqual(
      members.map(({ material, member }) => [
        material.name,
        member.tile ?? '',
        member.part,
        member.label,
        `${member.count}`,
      ]),
    );
    expect(rows.find(({ part }) => part === 'face')).toMatchObject({
      tile: 'wall, "low"',
      'length mm': '76.2',
      'width in': '2 3/8',
      spares: '1',
      count: '5',
    });
    expect(text.endsWith('\r\n')).toBe(true);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
  });
});

describe('what a batch takes', () => {
  it('accounts for all of every sheet, and for every part that is asked for', () => {
    const run = made();
    const { areas } = workOf(run);
    const of = (
      { length, width }: { length: typeof areas.sheets; width: typeof areas.sheets },
      count: number,
    ) => multiply(multiply(length, width), whole(count));
    // Source: computed: what is asked for, whichever way it is laid out.
    const asked = run.batch.materials
      .flatMap(({ parts }) => parts.map((kind) => of(kind, kind.count)))
      .reduce(add);
    const sheets = run.layouts
      .flatMap(({ demand, layouts }) => layouts.map(({ sheet, times }) => of(demand.sheets[sheet]!, times)))
      .reduce(add);
    expect(toFraction(areas.parts)).toBe(toFraction(asked));
    expect(toFraction(areas.sheets)).toBe(toFraction(sheets));
    const rest = [areas.kept, areas.scrap, areas.trim, areas.cuts].reduce(add);
    expect(toFraction(subtract(areas.sheets, areas.parts))).toBe(toFraction(rest));
    expect(areas.trim.numerator > 0n).toBe(true);
  });

  it('counts pieces, cuts and their length from the cut trees', () => {
    const run = made();
    const work = workOf(run);
    for (const [i, { demand, layouts }] of run.layouts.entries()) {
      // Source: computed from the trees: each node that is a cut is one; the trim of 1/8 in adds four a sheet.
      let cuts = 0;
      for (const { tree, times, sheet } of layouts) {
        const open = [tree];
        for (let it = open.pop(); it !== undefined; it = open.pop()) {
          if (it.kind === 'part' || it.kind === 'left over') continue;
          cuts += times;
          open.push(it.near);
          if (it.far !== undefined) open.push(it.far);
        }
        cuts += demand.sheets[sheet]!.trim.left.numerator > 0n ? 4 * times : 0;
      }
      expect(work.materials[i]?.pieces).toBe(demand.parts.reduce((all, { count }) => all + count, 0));
      // Cuts that lie in one line over several pieces are one in a tree and one on the bench, or more on the bench.
      expect(work.materials[i]?.cuts).toBeGreaterThanOrEqual(Math.floor(cuts / 2));
    }
    expect(work.toBuy.map(({ material, count }) => [material, count])).toEqual([
      ['card', 1],
      ['foam', 1],
    ]);
  });

  // Source: by hand, in the order in which the sheets say how to square up: bottom 16, left and right 12 less the 1/4
  // that is off the bottom, top 16 less 1/8 and 1/16; then one rip over all of it. 16 + 2 x 11 3/4 + 2 x 15 13/16 in.
  it('measures each cut on what is in hand by then', () => {
    const text = `cardwright: session
units: in
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [16, 12] }] }
loose: { long: { of: card, size: [15 13/16, 3] } }
cutting: { trim: { bottom: 1/4, left: 1/8, right: 1/16, top: 1/8 }, worth keeping: [3, 2] }
`;
    const { value } = runToEnd(pipeline(specOf(text), {}));
    const [card] = value === undefined ? [] : workOf(value).materials;
    expect(card?.cuts).toBe(5);
    expect(card && toFraction(card.cutLength)).toBe('72263/40'); // 71 1/8 in, at 127/5 mm to the inch
  });

  it('says it in one line each, and adds the spares to what is cut', () => {
    const run = made();
    const text = printCount(run.batch, { width: 80, ascii: true }, workOf(run));
    expect(text.match(/^area: \d+% used, \d+% kept, \d+% lost$/gm)).toHaveLength(1);
    expect(text).toMatch(/^in all 4\.50 EUR$/m);
    expect(sizesByTile(run.batch).map(({ counts }) => counts)).toEqual([
      [0, 3, 0],
      [5, 0, 0],
      [0, 0, 42],
      [8, 0, 0],
    ]);
  });
});
