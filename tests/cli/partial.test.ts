import { describe, expect, it } from 'vitest';
import { run } from './memoryWorld.ts';

/**
 * Sessions with a part that can't be made beside others that can. Each says what is wrong; with --partial the
 * rest is laid out all the same, each page tells that it is not complete, and the exit code stays 1.
 */
interface Wrong {
  readonly code: string;
  /** A foam part that can be cut: another material, so that it is sound in each case. */
  readonly kit: string;
  /** Labels that must be on a sheet, and those that must be told as missing. */
  readonly made: readonly string[];
  readonly missing: readonly string[];
}

function kit(greyboard: {
  readonly sheet?: string;
  readonly cutting?: string;
  readonly parts: string;
}): string {
  const { sheet, cutting, parts } = greyboard;
  return [
    'cardwright: kit',
    'units: in',
    'materials: { greyboard: { thickness: 1/16 }, foam: { thickness: 1/2 } }',
    'sheets:',
    ...(sheet === undefined ? [] : [`  greyboard: [{ ${sheet} }]`]),
    '  foam: [{ size: [12, 9] }]',
    ...(cutting === undefined ? [] : [`cutting: { ${cutting} }`]),
    'tiles:',
    '  wall:',
    '    footprint: none',
    '    parts:',
    '      fill: { of: foam, size: [3, 2] }',
    ...parts.split('\n').map((line) => `      ${line}`),
    '',
  ].join('\n');
}

const face = 'face: { of: greyboard, size: [3, 2] }';

const cases: Readonly<Record<string, Wrong>> = {
  'a size that overflows the integer grid': {
    code: 'P06',
    kit: kit({
      sheet: 'size: [12 1/64, 9]',
      parts: `${face}\nodd one: { of: greyboard, size: [3.000000017, 2] }`,
    }),
    made: ['WA face', 'WA fill'],
    missing: ['WA odd one'],
  },
  'a kerf wider than a part': {
    code: 'P09',
    kit: kit({
      sheet: 'size: [12, 9]',
      cutting: 'kerf: 1/2',
      parts: `${face}\nlath: { of: greyboard, size: [3, 1/4] }`,
    }),
    made: ['WA face', 'WA fill'],
    missing: ['WA lath'],
  },
  'trim that eats the sheet': {
    code: 'E33',
    kit: kit({ sheet: 'size: [12, 9], trim: 5', parts: face }),
    made: ['WA fill'],
    missing: ['WA face'],
  },
  'contradictory limits': {
    code: 'P07',
    kit: kit({
      sheet: 'size: [12, 9]',
      cutting: 'least strip: 1, longest cut: 10',
      parts: `${face}\nlath: { of: greyboard, size: [3, 1/4] }`,
    }),
    made: ['WA face', 'WA fill'],
    missing: ['WA lath'],
  },
  'no sheet of a material': {
    code: 'P05',
    kit: kit({ parts: face }),
    made: ['WA fill'],
    missing: ['WA face'],
  },
  'sheets that are none': {
    code: 'P04',
    kit: kit({ sheet: 'size: [12, 9], count: 0', parts: face }),
    made: ['WA fill'],
    missing: ['WA face'],
  },
};

describe.each(Object.entries(cases))('%s', (_, { code, kit: text, made, missing }) => {
  const files = { 'kit.yaml': text };

  it('is an error of its own, and nothing is written', async () => {
    const ran = await run(['cut', 'kit.yaml', '-o', 'x.txt'], { files });
    expect([ran.code, ran.stderr.match(/error ([A-Z]\d\d)/g)]).toEqual([1, [`error ${code}`]]);
    expect([...ran.files.keys()]).toEqual(['kit.yaml']);
  });

  it('leaves the other parts on their sheets with --partial, and tells of those that are missing', async () => {
    const outputs = ['-o', 'x.txt', '-o', 'x.pdf', '-o', 'x.json'];
    const ran = await run(['cut', 'kit.yaml', ...outputs, '--partial'], { files });
    expect(ran.code).toBe(1);
    const printed = ran.text('x.txt');
    expect(printed).toContain('NOT AS ASKED');
    expect(printed).toContain(code);
    const { result } = JSON.parse(ran.text('x.json'));
    const labels = result.materials.flatMap(({ layouts }: { layouts: { pieces: { label: string }[] }[] }) =>
      layouts.flatMap(({ pieces }) => pieces.map(({ label }) => label)),
    );
    const left = result.materials.flatMap(({ unplaced }: { unplaced: { label: string }[] }) =>
      unplaced.map(({ label }) => label),
    );
    expect([labels.sort(), left]).toEqual([made, missing]);
    for (const label of missing) {
      expect(printed).toContain(`Missing  not on any sheet: ${label}.`);
      expect(printed).toContain(`Not on any sheet: ${label}.`);
    }
    expect(ran.text('x.pdf')).toMatch(/^%PDF/);
  });
});
