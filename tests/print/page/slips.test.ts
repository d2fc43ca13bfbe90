import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Made } from '../../../src/model/index.ts';
import { pipeline, runToEnd } from '../../../src/pipeline.ts';
import type { Mark, Page } from '../../../src/print/page/index.ts';
import { pilesOf } from '../../../src/print/piles.ts';
import { printText } from '../../../src/print/text/index.ts';
import { run } from '../../cli/memoryWorld.ts';
import { specOf } from '../../expand/check.ts';
import { readBack } from '../pdf/readBack.ts';
import { faultsOf } from './collisions.ts';
import { sheetPages } from './sheetPages.ts';

interface Evenings {
  readonly walls: number;
  readonly floors: number;
  readonly wallsFirst: number;
  readonly floorsFirst: number;
}

function sessionOf({ walls, floors, wallsFirst, floorsFirst }: Evenings, extra = ''): string {
  return `cardwright: session
title: Two evenings
units: in
materials: { card: { thickness: 1/16 }, foam: { thickness: 1/2 } }
sheets: { card: [{ size: [24, 16] }], foam: [{ size: [24, 16] }] }
fittings: { disc magnet: {}, glue stick: {} }
tiles:
  wall:
    footprint: none
    note: stones outward
    parts:
      face: { of: card, size: [3, 1 1/2], label: outer face, takes: { disc magnet: 1 } }
      core: { of: foam, size: [3, 1], count: 2 }
  floor (plain): { footprint: none, parts: { top: { of: card, size: [3, 3] } }, takes: { disc magnet: 4 } }
loose: { edging: { of: card, size: [1, 1], count: 7, takes: { disc magnet: 1 } } }
make: { wall: ${walls}, floor (plain): ${floors} }
takes: { glue stick: 2 }
spares: { face: 10%, top: 1, disc magnet: 3 }
evenings:
  - { title: first, make: { wall: ${wallsFirst}, floor (plain): ${floorsFirst} } }
  - { title: second, make: rest }
print: { slips: yes }
${extra}`;
}

const usual = { walls: 6, floors: 5, wallsFirst: 4, floorsFirst: 0 };

function madeOf(text: string): Made {
  const { value, diagnostics } = runToEnd(pipeline(specOf(text), { effort: { name: 'quick', steps: 0 } }));
  if (value === undefined) throw new Error(diagnostics.map(({ message }) => message).join('; '));
  return value;
}

describe('the piles of a batch', () => {
  it('hold each piece and each fitting once, whatever the evenings', () => {
    const counts = fc
      .record({
        walls: fc.integer({ min: 1, max: 9 }),
        floors: fc.integer({ min: 1, max: 9 }),
        a: fc.nat(9),
        b: fc.nat(9),
      })
      .map(({ walls, floors, a, b }) => ({
        walls,
        floors,
        wallsFirst: Math.min(walls, a),
        floorsFirst: Math.min(floors, b),
      }));
    fc.assert(
      fc.property(counts, (evenings) => {
        const { batch } = madeOf(sessionOf(evenings));
        const piles = pilesOf(batch);
        // Source: computed: what is asked for, summed without regard to evenings.
        for (const { label, count, spares = 0 } of batch.materials.flatMap(({ parts }) =>
          parts.flatMap((it) => it.members),
        )) {
          const its = piles.flatMap(({ groups }) =>
            groups.flatMap(({ pieces }) => pieces.filter((it) => it.label === label)),
          );
          expect(its.reduce((sum, it) => sum + it.count, 0)).toBe(count);
          expect(its.reduce((sum, it) => sum + it.spares, 0)).toBe(spares);
        }
        for (const { label, count } of batch.fittings ?? []) {
          const its = piles.flatMap(({ fittings }) => fittings.filter((it) => it.label === label));
          expect(its.reduce((sum, it) => sum + it.count, 0)).toBe(count);
        }
      }),
      { numRuns: 25 },
    );
  });

  it('are told by tile and evening', () => {
    const named = pilesOf(madeOf(sessionOf(usual)).batch).map(({ letters, name, count, evening }) => [
      letters,
      name,
      count,
      evening?.title,
    ]);
    expect(named).toEqual([
      ['WA', 'wall', 4, 'first'],
      [undefined, 'loose parts', undefined, 'first'],
      ['WA', 'wall', 2, 'second'],
      ['FP', 'floor (plain)', 5, 'second'],
    ]);
  });
});

const pagesOf = (made: Made): readonly Page[] => {
  const all = sheetPages(made, []).value ?? [];
  const first = all.findIndex(({ bookmarks }) => bookmarks.includes('Pile slips'));
  expect(first).toBeGreaterThan(0);
  return all.slice(first);
};

/** The ends of each cut line. */
function cutsOn({ marks }: Page): readonly (readonly [number, number, number, number])[] {
  return marks.flatMap((it: Mark) =>
    it.kind === 'stroke' && it.role === 'cut'
      ? it.paths.map(({ points: [from, to = from] }) => [from.x, from.y, to.x, to.y] as const)
      : [],
  );
}

describe('pile slips on paper', () => {
  it('keep their words clear of each other, of the lines and of the margins, on any paper', () => {
    for (const paper of ['A4', 'A5 landscape', 'letter', 'A3', '[150 mm, 200 mm]']) {
      const text = sessionOf(usual).replace('slips: yes', `slips: yes, paper: ${paper}, units: both`);
      for (const page of pagesOf(madeOf(text))) expect(faultsOf(page, 10)).toEqual([]);
    }
  });

  it('are cut apart by lines from edge to edge: across the page, then from one of these to the next', () => {
    for (const page of pagesOf(madeOf(sessionOf(usual)))) {
      const cuts = cutsOn(page);
      const across = cuts.filter(([, from, , to]) => from === to);
      const down = cuts.filter(([from, , to]) => from === to);
      const heights = [...new Set(across.map(([, y]) => y.toFixed(6)))];
      expect(heights.length).toBeGreaterThan(1);
      for (const [left, , right] of across) {
        expect([left, right]).toEqual([10, expect.closeTo(page.widthMm - 10, 6)]);
      }
      expect(down.length).toBeGreaterThan(0);
      for (const [, top, , bottom] of down) {
        const at = heights.indexOf(top.toFixed(6));
        expect(at).toBeGreaterThanOrEqual(0);
        expect(heights[at + 1]).toBe(bottom.toFixed(6));
      }
    }
  });

  it('go on in a further slip where a pile is too high for one', () => {
    const many = Array.from(
      { length: 90 },
      (_, i) => `      part ${i}: { of: card, size: [1, 1/4], note: x }\n`,
    ).join('');
    const text = sessionOf(usual).replace('      core:', `${many}      core:`);
    const pages = pagesOf(madeOf(text));
    const said = pages.flatMap(({ marks }) => marks.flatMap((it) => (it.kind === 'words' ? [it.text] : [])));
    expect(said).toContain('slip 2 of 3');
    for (let i = 0; i < 90; i++) expect(said.filter((it) => it.endsWith(`WA part ${i}`))).toHaveLength(2);
    for (const page of pages) expect(faultsOf(page, 10)).toEqual([]);
  });
});

describe('pile slips by name', () => {
  const files = { 's.yaml': sessionOf(usual).replace('print: { slips: yes }\n', '') };

  // Source: pdfjs-dist, which shares nothing with what wrote the pages.
  it('are the pages that --pages slips asks for, and no others', async () => {
    const { code, files: written } = await run(['cut', 's.yaml', '-o', 's.pdf', '--pages', 'slips'], {
      files,
    });
    expect(code).toBe(0);
    const { pages } = await readBack(written.get('s.pdf') ?? new Uint8Array());
    expect(pages).toHaveLength(1);
    const words = pages
      .flatMap(({ texts }) => texts.map(({ text }) => text))
      .join(' ')
      .replace(/\s+/g, ' ');
    expect(words).toContain('pile slips');
    expect(words).toContain('evening 2 of 2: second');
    // 6 walls and a tenth, rounded up, are 7 faces: 4 and the spare one on the first evening.
    expect(words).toContain('5 × WA outer face, 1 spare');
    expect(words).toContain('2 × WA outer face');
    expect(words).toMatch(/20 × disc magnet/);
  });

  it('are there with --slips, in the text too, for the evening that is cut', async () => {
    const none = await run(['cut', 's.yaml'], { files });
    expect(none.stdout).not.toContain('Pile ');
    const { stdout } = await run(['cut', 's.yaml', '--slips', '--evening', '2'], { files });
    expect(stdout.match(/^Pile .*$/gm)).toEqual([
      expect.stringMatching(/^Pile {5}wall \(WA\), for 2 tiles, evening 2 of 2: second$/),
      expect.stringMatching(/^Pile {5}floor \(plain\) \(FP\), for 5 tiles, evening 2 of 2: second$/),
    ]);
    // A share is of what is cut that evening: a tenth of two, rounded up, is one.
    expect(stdout).toMatch(/^☐ +3 × WA outer face, 1 spare +3 × 1 1\/2 +card$/m);
    expect(printText(madeOf(files['s.yaml']), { width: 40, ascii: true })).not.toContain('Pile');
  });

  it('are in the JSON as they are in the text, and null where none are asked for', async () => {
    interface Pile {
      readonly name: string;
      readonly letters: string;
      readonly count: number;
      readonly evening: { readonly number: number; readonly of: number; readonly title: string };
      readonly pieces: readonly { readonly label: string; readonly count: number; readonly spares: number }[];
      readonly fittings: Pile['pieces'];
    }
    const pilesIn = (json: string): readonly Pile[] | null => JSON.parse(json).result.piles;
    const none = await run(['cut', 's.yaml', '--json'], { files });
    expect(pilesIn(none.stdout)).toBeNull();
    const argv = ['cut', 's.yaml', '--slips', '--evening', '1'];
    const text = (await run(argv, { files })).stdout;
    const piles = pilesIn((await run([...argv, '--json'], { files })).stdout) ?? [];
    const loose = 'loose parts, evening 1 of 2: first';
    const heads = piles.map(({ name, letters, count, evening: { number, of, title } }) =>
      letters === null
        ? loose
        : `${name} (${letters}), for ${count} tiles, evening ${number} of ${of}: ${title}`,
    );
    expect(heads).toEqual([...text.matchAll(/^Pile {5}(.*)$/gm)].map(([, head]) => head));
    const slips = text.slice(text.indexOf('Pile '));
    const ticked = [...slips.matchAll(/^☐ +(\d+) × (.*?)(?:, (\d+) spare)?(?: {2,}.*)?$/gm)];
    expect(
      piles.flatMap(({ pieces, fittings }) =>
        [...pieces, ...fittings].map((it) => [it.count, it.label, it.spares]),
      ),
    ).toEqual(ticked.map(([, count, label, spares]) => [Number(count), label, Number(spares ?? 0)]));
    expect(ticked.length).toBeGreaterThan(5);
  });

  it('are no pages of a list or a master', async () => {
    const { code, stderr } = await run(['count', 's.yaml', '-o', 'l.pdf', '--pages', 'slips'], { files });
    expect(code).toBe(2);
    expect(stderr).toContain('C22');
  });
});
