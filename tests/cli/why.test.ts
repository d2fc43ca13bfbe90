import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { run, soundKit } from './memoryWorld.ts';

/** Two pieces of 3 1/16 on a sheet of 6: a sixteenth less of each, and one sheet will do. 4 is their length. */
const tightKit = `cardwright: kit
units: in
materials: { card: { thickness: 1/16 }, foam: { thickness: 1/2 } }
sheets: { card: [{ size: [6, 4] }], foam: [{ size: [12, 9] }] }
tiles:
  gate:
    footprint: none
    parts:
      leaf: { of: card, size: [3 1/16, 4], count: 2 }
      core: { of: foam, size: [3, 4] }
`;

const files = { 'tight.yaml': tightKit, 'kit.yaml': soundKit };

describe('cut --why', () => {
  it('names the bound and the saving that was found, under each material', async () => {
    const { code, stdout, stderr } = await run(['cut', 'tight.yaml', '--why'], { files });
    expect([code, stderr]).toEqual([0, '']);
    const words = stdout.replaceAll(/\s+/g, ' ');
    expect(words).toContain('Why No way of cutting needs fewer than 2 sheets: ');
    expect(words).toContain('· if "GA leaf" were 1/16 in narrower: 4 × 3 in · ');
    expect(stdout.match(/^Why {6}/gm)?.length).toBe(2);
    expect(stdout.match(/^To save {2}/gm)?.length).toBe(1);
  });

  it('goes by the marks of the rule at hand', async () => {
    const { stdout } = await run(['cut', 'tight.yaml', '--why', '--ruler', '1/8'], { files });
    expect(stdout.replaceAll(/\s+/g, ' ')).toContain(
      'if "GA leaf" were 1/8 in narrower: 4 × 3 scant (-1/16) in',
    );
  });

  it('leaves all else as it is', async () => {
    const plain = await run(['cut', 'tight.yaml'], { files });
    const { stdout } = await run(['cut', 'tight.yaml', '--why'], { files });
    const without = stdout.replaceAll(/^Why {6}[\s\S]*?\n\n/gm, '');
    expect(without).toBe(plain.stdout);
  });

  it('gives the same in JSON, by its schema, and null where nobody asked', async () => {
    const schema = await run(['schema', 'cut']);
    const validate = new Ajv2020({ strict: false }).compile(JSON.parse(schema.stdout));
    const { stdout } = await run(['cut', 'tight.yaml', '--why', '--json'], { files });
    const document = JSON.parse(stdout);
    expect(validate(document), JSON.stringify(validate.errors)).toBe(true);
    const [card, foam] = document.result.materials;
    expect(card.why.bought).toBe(2);
    expect(card.why.savings[0]).toMatchObject({
      change: 'smaller part',
      labels: ['GA leaf'],
      side: 'width',
      // Source: 1/16 in = 25.4 / 16 mm, computed.
      by: { mm: '127/80' },
      sheets: 1,
    });
    // Computed: two sheets of 6 × 4 in are 48, the parts 24 1/2 square inches; 1 square inch is 16129/25 mm².
    expect([card.why.area.sheets, card.why.area.parts]).toEqual(['774192/25', '790321/50']);
    expect(foam.why).toMatchObject({ savings: [], ended: 'nothing to save' });

    const plain = JSON.parse((await run(['cut', 'tight.yaml', '--json'], { files })).stdout);
    expect(plain.result.materials.map(({ why }: { why: unknown }) => why)).toEqual([null, null]);
  });

  it('is told beside a PDF, which does not hold it', async () => {
    const { code, stdout, stderr } = await run(['cut', 'tight.yaml', '--why', '-o', 'sheets.pdf'], { files });
    expect([code, stderr]).toEqual([0, 'wrote sheets.pdf\n']);
    expect(stdout).toMatch(/^card\nWhy {6}No way of cutting needs fewer than 2 sheets: /);
    expect(stdout).toMatch(/^foam\nWhy {6}No way of cutting needs fewer than 1 sheet: /m);
    const piped = await run(['cut', 'tight.yaml', '--why', '--format', 'pdf'], { files });
    expect(piped.stdout.startsWith('%PDF-')).toBe(true);
    expect(piped.stderr).toMatch(/^card\nWhy {6}/);
  });

  it('is an option of cut alone', async () => {
    const { code, stderr } = await run(['count', 'kit.yaml', '--why'], { files });
    expect(code).toBe(2);
    expect(stderr).toContain('C06');
  });

  it('is told in help', async () => {
    expect((await run(['help', 'cut'])).stdout).toContain('--why');
  });

  it('stops when it is told to, with nothing written', async () => {
    const argv = ['cut', 'tight.yaml', '--why', '-o', 'sheets.txt'];
    const { code, files: left } = await run(argv, { files, signal: 'SIGINT' });
    expect(code).toBe(130);
    expect(left.has('sheets.txt')).toBe(false);
  });
});
