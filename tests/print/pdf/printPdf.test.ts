import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Diagnostic, Made, Paper } from '../../../src/model/index.ts';
import { compose } from '../../../src/print/paged/index.ts';
import { demand, inch, kind, member, mm, sheet } from '../../plan/byHand.ts';
import { pdfOf } from '../drawn.ts';
import { a4, letter, madeOf, vineyard } from '../page/evening.ts';
import { type ReadBack, readBack } from './readBack.ts';

const program = {
  version: '0.0.0',
  readFont: (name: string) => readFileSync(new URL(`../../../shared/fonts/${name}`, import.meta.url)),
};

async function printPdf(made: Made, diagnostics: readonly Diagnostic[], from: typeof program) {
  const composed = compose(made, diagnostics, from);
  return { ...composed, value: composed.value === undefined ? undefined : pdfOf(composed.value) };
}

async function printed(made: Made): Promise<Uint8Array> {
  const { value } = await printPdf(made, [], program);
  if (value === undefined) throw new Error('nothing was printed');
  return value;
}

const named = (label: string, paper: Paper = 'shared'): Made =>
  madeOf('Night', [demand([kind(mm(80), mm(50), [member(label, 2)])], [sheet(mm(297), mm(210))])], {
    paper: { value: paper, from: 'option' },
  });

describe('the paper', () => {
  // Source: ISO 216 (A4 210 × 297 mm, A3 297 × 420, A5 148 × 210) and ANSI/ASME Y14.1 (8 1/2 × 11,
  // 11 × 17 in); a point is 1/72 in (ISO 32000), so 1 mm is 360/127 pt.
  it.each([
    ['a4', a4, (210 * 360) / 127, (297 * 360) / 127],
    ['a3', { name: 'a3', width: mm(297), height: mm(420) }, (297 * 360) / 127, (420 * 360) / 127],
    ['a5', { name: 'a5', width: mm(148), height: mm(210) }, (148 * 360) / 127, (210 * 360) / 127],
    ['letter', letter, 612, 792],
    ['ledger', { name: 'ledger', width: inch(11), height: inch(17) }, 792, 1224],
    ['what A4 and Letter share', 'shared', (210 * 360) / 127, 792],
  ] as const)('is exact for %s', async (_, paper, widthPt, heightPt) => {
    const { pages } = await readBack(await printed(named('wall', paper)));
    for (const { box } of pages) {
      expect(box[0]).toBe(0);
      expect(box[1]).toBe(0);
      expect(Math.abs(box[2]! - widthPt)).toBeLessThan(0.0001);
      expect(Math.abs(box[3]! - heightPt)).toBeLessThan(0.0001);
    }
  });

  it('without room for the bars is refused, and nothing is printed', async () => {
    const small = named('wall', { name: 'custom', width: mm(90), height: mm(140) });
    const { value, diagnostics } = await printPdf(small, [], program);
    expect(value).toBeUndefined();
    expect(diagnostics.map(({ code }) => code)).toEqual(['O21']);
  });
});

describe('paper that no reader shows', () => {
  // Source: 14 400 units of 1/72 in, the customary limit of PDF readers (second-hand): 5080 mm.
  it.each([
    [5080, []],
    [5081, ['O23']],
  ])('%i mm: %j', async (long, codes) => {
    const banner = named('wall', { name: 'custom', width: mm(300), height: mm(long) });
    const { diagnostics } = await printPdf(banner, [], program);
    expect(diagnostics.map(({ code }) => code)).toEqual(codes);
  });
});

describe('a printed session, read back', () => {
  let back: ReadBack;
  const made = vineyard();
  beforeAll(async () => {
    back = await readBack(await printed(made));
  });

  it('asks the printer not to scale', () => {
    // Source: ISO 32000, ViewerPreferences: PrintScaling None.
    expect(back.viewerPreferences).toMatchObject({ PrintScaling: 'None', DisplayDocTitle: true });
  });

  it('carries title, language and a bookmark for each material', () => {
    expect(back.title).toBe('Vineyard, two evenings');
    expect(back.language).toBe('en');
    const [first, ...others] = back.bookmarks;
    expect(first).toBe('Start here');
    const names = made.plans.map(({ demand: { material } }) => material.name);
    const kindOf = (name: string) =>
      others.filter((it) => it.endsWith(name)).map((it) => it.slice(0, -name.length));
    for (const name of names)
      expect([
        ['Cutting list: ', ''],
        ['Cutting list: ', 'Order of work: ', ''],
      ]).toContainEqual(kindOf(name));
    expect(others.filter((it) => !names.some((name) => it.endsWith(name)))).toEqual([]);
  });

  it('embeds every font it uses', () => {
    for (const { fonts } of back.pages) {
      expect(fonts.length).toBeGreaterThan(0);
      for (const { name, isEmbedded } of fonts) {
        expect(name).toMatch(/^[A-Z]{6}\+IBMPlexSans/);
        expect(isEmbedded).toBe(true);
      }
    }
  });

  const footPt = 60;

  it('has on each page a bar of 100 mm and one of 4 in, true within 0.01 pt', () => {
    // Source: 1 in = 25.4 mm (NBS Circular 572 addendum); a point is 1/72 in (ISO 32000).
    for (const { paths } of back.pages) {
      const lengths = paths
        .filter((path) => path.length === 2 && path[0]![1] === path[1]![1] && path[0]![1] < footPt)
        .map(([from, to]) => Math.abs(to![0] - from![0]));
      expect(lengths.filter((it) => Math.abs(it - 7200 / 25.4) < 0.01)).toHaveLength(1);
      expect(lengths.filter((it) => Math.abs(it - 4 * 72) < 0.01)).toHaveLength(1);
    }
  });

  it('says on each page what the bars check, and which page it is', () => {
    back.pages.forEach(({ texts }, index) => {
      const all = texts.map(({ text }) => text);
      expect(all).toContain('checks the printer, not the drawing');
      expect(all).toContain(`page ${index + 1} of ${back.pages.length}`);
    });
  });

  it('says in its largest line whether a page may be measured', () => {
    const largest = back.pages.map(({ texts }) => {
      const size = Math.max(...texts.map(({ sizePt }) => sizePt));
      const [line, ...more] = texts.filter(({ sizePt }) => sizePt === size);
      expect(more).toEqual([]);
      return { line: line!.text, scales: scalesOn(texts) };
    });
    for (const { line, scales } of largest) {
      const ratios = [...new Set(scales.map((it) => it.scale))].sort((a, b) => a - b).map((it) => `1:${it}`);
      if (ratios.length === 0) expect(line).toMatch(/^(Vineyard, two evenings|cutting list(, continued)?)$/);
      else expect(line).toBe(`drawn at ${ratios.join(' and ')}, mark out with your rule`);
    }
    expect(largest.some(({ scales }) => scales.length > 0)).toBe(true);
  });

  it('shows every label of the plan', () => {
    const all = back.pages.flatMap(({ texts }) => texts.map(({ text }) => text)).join('\n');
    for (const { pieces } of made.plans.flatMap(({ sheets }) => sheets)) {
      for (const { member: of } of pieces) expect(all).toContain(of.label);
    }
  });

  it('sets fractions that read as fractions', () => {
    const all = back.pages.flatMap(({ texts }) => texts.map(({ text }) => text)).join('\n');
    expect(all).toMatch(/2\s?13\u204416/u);
  });
});

/** The scale at each picture of a page, and how high on the page it is told. */
function scalesOn(texts: readonly { readonly text: string; readonly y: number }[]) {
  return texts.flatMap(({ text, y }) => {
    const scale = /^drawn at 1:(\d+)$/.exec(text)?.[1];
    return scale === undefined ? [] : [{ y, scale: Number(scale) }];
  });
}

describe('bytes', () => {
  it('are the same on a second run', async () => {
    const [first, second] = [await printed(vineyard()), await printed(vineyard())];
    expect(Buffer.compare(first, second)).toBe(0);
  });

  it('hold no date but the one that is always there', async () => {
    const text = Buffer.from(await printed(named('wall'))).toString('latin1');
    expect(text.match(/D:\d{14}Z/g)).toEqual(['D:19700101000000Z']);
  });
});

describe('names that the font has no letters for', () => {
  it.each([
    ['an emoji', 'moon 🌙', 'U+1F319'],
    ['an emoji of several', 'kin 👨‍👩‍👧', 'U+1F468'],
    ['Hebrew', 'קיר', 'U+05E7'],
    ['Chinese', '墙 1', 'U+5899'],
  ])('get a mark and a warning for %s', async (_, label, code) => {
    const { value, diagnostics } = await printPdf(named(label), [], program);
    expect(diagnostics.map((it) => it.code)).toEqual(['O20']);
    expect(diagnostics[0]!.message).toContain(code);
    const { pages } = await readBack(value!);
    const all = pages.flatMap(({ texts }) => texts.map(({ text }) => text)).join('\n');
    expect(all).toContain('\ufffd');
    expect(all).not.toContain([...label].find((it) => it.codePointAt(0)! > 0xff));
  });

  it.each(['Mauer – außen', 'łąka', 'стена', 'τείχος', 'e\u0301tage', '½ wall'])(
    'set %s as it is',
    async (label) => {
      const { value, diagnostics } = await printPdf(named(label), [], program);
      expect(diagnostics).toEqual([]);
      const { pages } = await readBack(value!);
      const all = pages.flatMap(({ texts }) => texts.map(({ text }) => text)).join('\n');
      expect(all.normalize('NFC')).toContain(label.normalize('NFC'));
    },
  );

  it('let no control character through', async () => {
    const { value } = await printPdf(named('a\u001b[31mb\u0007\u202ec'), [], program);
    const { pages } = await readBack(value!);
    const all = pages.flatMap(({ texts }) => texts.map(({ text }) => text));
    expect(all).toContain('a[31mbc');
  });
});
