import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { toFraction } from '../../src/measure/index.ts';
import type { Job, Length } from '../../src/model/index.ts';
import { pipeline, runToEnd } from '../../src/pipeline.ts';
import { type Change, jobPlanOf, puttingAway, sheetsOf } from '../../src/stock/index.ts';
import { type Ran, run } from '../cli/memoryWorld.ts';
import { specOf } from '../expand/check.ts';

const aSize = fc.record({
  length: fc.integer({ min: 20, max: 200 }),
  width: fc.integer({ min: 20, max: 200 }),
  count: fc.integer({ min: 1, max: 4 }),
});
const anEvening = fc.record({
  parts: fc.array(aSize, { minLength: 1, maxLength: 4 }),
  offcuts: fc.array(aSize, { maxLength: 4 }),
  sheets: fc.integer({ min: 0, max: 2 }),
  trim: fc.constantFrom(0, 3),
  kerf: fc.constantFrom(0, 0, 2),
  pack: fc.constantFrom(1, 3),
});
type Evening = typeof anEvening extends fc.Arbitrary<infer T> ? T : never;

/** A job of which all is cut. */
function cutJob({ parts, offcuts, sheets, trim, kerf, pack }: Evening): Job {
  const loose = parts.map(
    ({ length, width, count }, i) => `p${i}: { of: card, size: [${length}, ${width}], count: ${count} }`,
  );
  const text = `cardwright: session
units: mm
materials: { card: { thickness: 1, kerf: ${kerf} } }
sheets: { card: [{ size: [420, 297], price: 2.40 EUR, pack: ${pack} }] }
loose: { ${loose.join(', ')} }
drawer: drawer.yaml
cutting: { trim: ${trim}, worth keeping: [40, 30] }
`;
  const listed = offcuts.map(
    ({ length, width, count }, i) => `{ size: [${length}, ${width}], count: ${count}, label: B${i} }`,
  );
  const whole = sheets === 0 ? '' : `sheets: { card: [{ size: [420, 297], count: ${sheets} }] }\n`;
  const drawer = `cardwright: drawer\nunits: mm\n${whole}offcuts: { card: [${listed.join(', ')}] }\n`;
  const { value, diagnostics } = runToEnd(pipeline(specOf(text, { 'drawer.yaml': drawer }), {}));
  if (value === undefined) throw new Error(diagnostics.map((it) => it.message).join('; '));
  const plan = jobPlanOf(value, {
    madeBy: 'a test',
    inputs: [],
    asked: { files: [], make: [], evening: undefined },
    drawer: 'drawer.yaml',
    mark: '',
  });
  const job: Job = { id: 'one', plan, events: [] };
  const all = sheetsOf(job).map(({ material, number }) => ({ material, number }));
  return { ...job, events: [{ kind: 'cut', sheets: all }] };
}

/** All sizes here are halves of a millimetre, which a float holds exactly. */
function mm(length: Length): number {
  const [numerator, denominator = '1'] = toFraction(length).split('/');
  return Number(numerator) / Number(denominator);
}

const areaOf = (it: { readonly length: Length; readonly width: Length }): number =>
  mm(it.length) * mm(it.width);
const sum = (all: readonly number[]): number => all.reduce((a, b) => a + b, 0);
const moved = (changes: readonly Change[], kind: Change['kind']): number =>
  sum(
    changes
      .filter((it) => it.kind === kind)
      .map((it) => areaOf(it.entry) * (it.kind === 'take' ? it.count : Number(it.entry.count))),
  );

describe('what goes out of a drawer and is bought', () => {
  // Source: computed: no area comes or goes but as dust, and a cut is no wider than its kerf.
  it('is what was asked for, what is put away, the scrap, the trim and the kerf', () => {
    let seen = { taken: 0, put: 0, bought: 0, leftOfPacks: 0 };
    fc.assert(
      fc.property(anEvening, (evening) => {
        const job = cutJob(evening);
        const { changes } = puttingAway(job);
        const pictures = sheetsOf(job).map(({ picture }) => picture);
        const fresh = pictures.filter((it) => !it.sheet.inDrawer);
        const inPacks = Math.ceil(fresh.length / evening.pack) * evening.pack;
        const bought = inPacks * 420 * 297;
        const trim = sum(pictures.map(({ sheet, inside }) => areaOf(sheet) - areaOf(inside)));
        const leftovers = pictures.flatMap((it) => it.leftovers);
        const scrap = sum(leftovers.filter(({ keep }) => !keep).map(({ box }) => areaOf(box)));
        const asked = sum(evening.parts.map(({ length, width, count }) => length * width * count));
        const [taken, put] = [moved(changes, 'take'), moved(changes, 'put')];
        const dust = taken + bought - asked - put - scrap - trim;

        const { kerf } = evening;
        const boxes = pictures.flatMap((it) => [...it.pieces, ...it.leftovers]).map(({ box }) => box);
        const most = sum(boxes.map((it) => kerf * (mm(it.length) + mm(it.width) + kerf)));
        expect(dust).toBeGreaterThanOrEqual(0);
        expect(dust).toBeLessThanOrEqual(most); // nothing at all where the knife takes nothing
        seen = {
          taken: seen.taken + taken,
          put: seen.put + put,
          bought: seen.bought + bought,
          leftOfPacks: seen.leftOfPacks + inPacks - fresh.length,
        };
      }),
      { numRuns: 40 },
    );
    expect(Object.values(seen).every((it) => it > 0)).toBe(true);
  });
});

const aStory = fc.record({
  face: fc.record({ length: fc.integer({ min: 30, max: 200 }), width: fc.integer({ min: 20, max: 150 }) }),
  faces: fc.integer({ min: 1, max: 3 }),
  brace: fc.record({ length: fc.integer({ min: 30, max: 160 }), width: fc.integer({ min: 20, max: 120 }) }),
  bit: fc.record({ length: fc.integer({ min: 8, max: 40 }), width: fc.integer({ min: 8, max: 25 }) }),
  walls: fc.tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 4 })),
  again: fc.integer({ min: 0, max: 3 }),
  trim: fc.constantFrom(0, 4),
  kerf: fc.constantFrom(0, 0, 2),
  offcuts: fc.array(aSize, { maxLength: 2 }),
});
type Story = typeof aStory extends fc.Arbitrary<infer T> ? T : never;

/** What a job's file says of sheets, as anyone can read it. */
interface FiledSide {
  readonly mm: string;
}
interface FiledBox {
  readonly length: FiledSide;
  readonly width: FiledSide;
}
interface FiledPicture {
  readonly times: number;
  readonly isOwn: boolean;
  readonly sheet: FiledBox & { readonly inDrawer?: boolean };
  readonly inside: FiledBox;
  readonly pieces: readonly {
    readonly label: string;
    readonly parts?: readonly string[];
    readonly box: FiledBox;
  }[];
  readonly leftovers: readonly { readonly keep: string | null; readonly box: FiledBox }[];
}

const filedArea = ({ length, width }: FiledBox): number => asNumber(length) * asNumber(width);

function asNumber({ mm: text }: FiledSide): number {
  const [numerator, denominator = '1'] = text.split('/');
  return Number(numerator) / Number(denominator);
}

/** All areas that a drawer's file lists. Source: the yaml package, which reads the file without us. */
function listedArea(text: string): number {
  const { sheets = {}, offcuts = {} }: Record<string, Record<string, readonly Listed[]>> = parse(text);
  const all = [...Object.values(sheets), ...Object.values(offcuts)].flat();
  return sum(all.map(({ size: [length, width], count = 1 }) => length * width * count));
}
interface Listed {
  readonly size: readonly [number, number];
  readonly count?: number;
}

function filesOf({ face, faces, brace, bit, walls: [first, second], trim, kerf, offcuts }: Story) {
  const listed = offcuts.map(
    ({ length, width, count }, i) => `{ size: [${length}, ${width}], count: ${count}, label: B${i} }`,
  );
  return {
    'drawer.yaml': `cardwright: drawer\nunits: mm\noffcuts: { card: [${listed.join(', ')}] }\n`,
    'two.yaml': `cardwright: session
units: mm
materials: { card: { thickness: 1, kerf: ${kerf} } }
sheets: { card: [{ size: [420, 297] }] }
tiles:
  wall:
    footprint: none
    parts:
      face: { of: card, size: [${face.length}, ${face.width}], count: ${faces} }
      brace: { of: card, outline: { polygon: [[0, 0], [${brace.length}, 0], [0, ${brace.width}]] }, count: 2 }
      bits: { of: card, size: [${bit.length}, ${bit.width}], count: as fits up to 20 }
make: { wall: ${first + second} }
evenings: [{ make: { wall: ${first} } }, { make: rest }]
drawer: drawer.yaml
cutting: { trim: ${trim}, worth keeping: [60, 40], effort: quick }
`,
  };
}

describe('two evenings with spoiled pieces, outlined parts and fillers', () => {
  // Source: computed, from the files alone: what the drawer loses and what is bought is what lies on the table.
  it('lose nothing but dust: all of it is pieces, scrap, trim, or in the drawer', async () => {
    const seen = { own: 0, bits: 0, fromFirst: 0, pairs: 0, exact: 0 };
    const property = fc.asyncProperty(aStory, async (story) => {
      let files: Readonly<Record<string, string | Uint8Array>> = filesOf(story);
      const did = async (...argv: readonly string[]): Promise<Ran> => {
        const ran = await run(argv, { files });
        expect(ran.code, `${argv.join(' ')}: ${ran.stderr}`).toBe(0);
        files = Object.fromEntries(ran.files);
        return ran;
      };
      for (const evening of [1, 2]) {
        const before = listedArea((await did('drawer', 'drawer.yaml')).text('drawer.yaml'));
        const job = `${evening}.json`;
        await did('cut', 'two.yaml', '--evening', `${evening}`, '--job', job, '-o', `${evening}.txt`);
        await did('job', job, '--cut', 'all');
        if (story.again > 0) {
          await did('recut', job, 'WA face', `${story.again}`);
          await did('job', job, '--cut', 'all');
        }
        const away = await did('job', job, '--put-away');
        const after = listedArea(away.text('drawer.yaml'));

        const { plan, events } = JSON.parse(away.text(job));
        const planned: readonly FiledPicture[] = plan.materials[0].pictures;
        const again: readonly FiledPicture[] = events.flatMap(
          (it: { pictures?: FiledPicture[] }) => it.pictures ?? [],
        );
        const pictures = [...planned, ...again].flatMap((it) => Array.from({ length: it.times }, () => it));
        const fresh = pictures.filter(({ sheet, isOwn }) => !isOwn && !sheet.inDrawer);
        const taken = pictures.filter(({ isOwn }) => !isOwn);
        const trim = sum(taken.map(({ sheet, inside }) => filedArea(sheet) - filedArea(inside)));
        const pieces = pictures.flatMap((it) => it.pieces);
        const leftovers = pictures.flatMap((it) => it.leftovers);
        const scrap = sum(
          leftovers
            .filter(({ keep }) => keep === null || keep === undefined)
            .map(({ box }) => filedArea(box)),
        );
        const cut = sum(pieces.map(({ box }) => filedArea(box)));
        const dust = before + 420 * 297 * fresh.length - after - trim - cut - scrap;
        const { kerf } = story;
        const most = sum(
          [...pieces, ...leftovers].map(
            ({ box }) => kerf * (asNumber(box.length) + asNumber(box.width) + kerf),
          ),
        );
        expect(dust).toBeGreaterThanOrEqual(0);
        expect(dust).toBeLessThanOrEqual(most); // nothing at all where the knife takes nothing
        if (kerf === 0) seen.exact++;

        // Every piece that is asked for is there, and those that are cut again beside them.
        const walls = story.walls[evening - 1] ?? 0;
        const labelled = (label: string) =>
          pieces.filter(({ label: own, parts = [own] }) => parts.includes(label));
        const countOf = (label: string): number =>
          pieces.flatMap(({ label: own, parts = [own] }) => parts).filter((it) => it === label).length;
        expect(countOf('WA face')).toBe(walls * story.faces + story.again);
        expect(countOf('WA brace')).toBe(walls * 2);
        const { brace } = story;
        const braces = sum(labelled('WA brace').map(({ box }) => filedArea(box)));
        expect(braces).toBeGreaterThanOrEqual(walls * brace.length * brace.width);
        if (braces < walls * 2 * brace.length * brace.width) seen.pairs++;
        const bits = labelled('WA bits');
        expect(bits.length).toBeLessThanOrEqual(20 * walls);
        expect(sum(bits.map(({ box }) => filedArea(box)))).toBe(
          bits.length * story.bit.length * story.bit.width,
        );
        seen.bits += bits.length;
        seen.own += pictures.filter(({ isOwn }) => isOwn).length;
        if (evening === 2) seen.fromFirst += taken.filter(({ sheet }) => sheet.inDrawer).length;
      }
    });
    await fc.assert(property, { numRuns: 25 });
    expect(seen.own, 'some are cut again from what the job left').toBeGreaterThan(0);
    expect(seen.bits).toBeGreaterThan(0);
    expect(seen.fromFirst, 'what one evening left is used on the next').toBeGreaterThan(0);
    expect(seen.pairs, 'some share a blank').toBeGreaterThan(0);
    expect(seen.exact).toBeGreaterThan(0);
  }, 180_000);
});

const anEdit = fc.record({
  pad: fc.record({ length: fc.integer({ min: 30, max: 150 }), width: fc.integer({ min: 30, max: 120 }) }),
  counts: fc.tuple(fc.integer({ min: 1, max: 6 }), fc.integer({ min: 1, max: 8 })),
  strip: fc.integer({ min: 10, max: 60 }),
  isAllCut: fc.boolean(),
  again: fc.integer({ min: 0, max: 2 }),
  kerf: fc.constantFrom(0, 0, 2),
  offcuts: fc.array(aSize, { maxLength: 2 }),
});

describe('a job that is gone on with after an edit', () => {
  // Source: computed, from the files alone, as above. What a leftover of the job is cut into came from it.
  it('makes no card out of nothing: what is cut from its own leftovers does not come in twice', async () => {
    const seen = { own: 0, exact: 0 };
    const property = fc.asyncProperty(
      anEdit,
      async ({ pad, counts, strip, isAllCut, again, kerf, offcuts }) => {
        const listed = offcuts.map(
          ({ length, width, count }, i) => `{ size: [${length}, ${width}], count: ${count}, label: B${i} }`,
        );
        const session = (count: number, wide: number): string => `cardwright: session
units: mm
materials: { card: { thickness: 1, kerf: ${kerf} } }
sheets: { card: [{ size: [420, 297] }] }
loose:
  pad: { of: card, size: [${pad.length}, ${pad.width}], count: ${count} }
  strip: { of: card, size: [100, ${wide}] }
drawer: drawer.yaml
cutting: { worth keeping: [60, 40], effort: quick }
`;
        let files: Readonly<Record<string, string | Uint8Array>> = {
          'drawer.yaml': `cardwright: drawer\nunits: mm\noffcuts: { card: [${listed.join(', ')}] }\n`,
          'one.yaml': session(counts[0], strip),
        };
        const did = async (...argv: readonly string[]): Promise<Ran> => {
          const ran = await run(argv, { files });
          expect(ran.code, `${argv.join(' ')}: ${ran.stderr}`).toBe(0);
          files = Object.fromEntries(ran.files);
          return ran;
        };
        const before = listedArea((await did('drawer', 'drawer.yaml')).text('drawer.yaml'));
        await did('cut', 'one.yaml', '--job', 'one.json', '-o', 'one.txt');
        await did('job', 'one.json', '--cut', isAllCut ? 'all' : 'card 1');
        if (again > 0) await did('recut', 'one.json', 'pad', `${again}`);
        files = { ...files, 'one.yaml': session(counts[0] + counts[1], strip + 5) };
        await did('cut', 'one.yaml', '--job', 'one.json', '--resume', '-o', 'two.txt');
        await did('job', 'one.json', '--cut', 'all');
        const away = await did('job', 'one.json', '--put-away');
        const after = listedArea(away.text('drawer.yaml'));
        expect(away.stderr).not.toContain('K32');

        const planned: readonly FiledPicture[] = JSON.parse(away.text('one.json')).plan.materials[0].pictures;
        const pictures = planned.flatMap((it) => Array.from({ length: it.times }, () => it));
        const fresh = pictures.filter(({ sheet, isOwn }) => !isOwn && !sheet.inDrawer);
        // Only whole sheets are bought, whatever the job says of itself.
        for (const { sheet } of fresh) expect(filedArea(sheet)).toBe(420 * 297);
        const lying = pictures.flatMap((it) => [
          ...it.pieces,
          ...it.leftovers.filter(({ keep }) => (keep ?? undefined) === undefined),
        ]);
        const dust = before + 420 * 297 * fresh.length - after - sum(lying.map(({ box }) => filedArea(box)));
        const all = pictures.flatMap((it) => [...it.pieces, ...it.leftovers]);
        const most = sum(all.map(({ box }) => kerf * (asNumber(box.length) + asNumber(box.width) + kerf)));
        expect(dust).toBeGreaterThanOrEqual(0);
        expect(dust).toBeLessThanOrEqual(most); // nothing at all where the knife takes nothing
        if (kerf === 0) seen.exact++;
        seen.own += pictures.filter(({ isOwn }) => isOwn).length;
      },
    );
    await fc.assert(property, { numRuns: 25 });
    expect(seen.own, 'some are cut from what the job left').toBeGreaterThan(0);
    expect(seen.exact).toBeGreaterThan(0);
  }, 180_000);
});
