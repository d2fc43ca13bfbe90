import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { commands } from '../../../src/cli/commandTable.ts';
import { explainPage } from '../../../src/cli/explain/index.ts';
import { type Code, catalogue } from '../../../src/model/index.ts';
import { type SchemaName, schemaNames } from '../../../src/print/json/index.ts';
import { brokenKit, type Ran, run, soundKit } from '../../cli/memoryWorld.ts';

/**
 * The documents that whole commands give, held against the schema that the program itself publishes.
 *
 * Source: JSON Schema, draft 2020-12, as ajv reads it.
 */

const withMasters = `cardwright: kit
units: in
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [12, 9] }] }
masters:
  drain: { arched: { width: 1 1/2, sides: 2, rise: 1/2 } }
  shoulder: { through: [[0, 2], [1, 1], [2, 1/2]], ends: flat }
tiles:
  wall: { footprint: none, parts: { cheek: { of: card, outline: { master: drain } } } }
`;
const built = `cardwright: kit
units: in
grid: { square: 3 }
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [12, 9] }] }
tiles: { floor: { parts: { bed: { of: card, size: [3, 3] } }, build: { up: [bed] } } }
`;
const aDrawer = 'cardwright: drawer\nunits: in\noffcuts: { card: [{ size: [8, 5], label: G1 }] }\n';
const files = {
  'kit.yaml': soundKit,
  'broken.yaml': brokenKit,
  'masters.yaml': withMasters,
  'built.yaml': built,
  'scraps.yaml': withMasters.replace('{ master: drain }', '{ master: drain }, count: as fits up to 3'),
  'drawer.yaml': aDrawer,
};
const validators = new Map(
  await Promise.all(
    schemaNames.map(async (name) => {
      const { stdout } = await run(['schema', name]);
      const ajv = new Ajv2020({ strict: true, allErrors: true, allowUnionTypes: true });
      return [name, ajv.compile(JSON.parse(stdout))] as const;
    }),
  ),
);

function faultsIn({ stdout }: Ran): { readonly name: string; readonly faults: unknown } {
  const document = JSON.parse(stdout);
  const name = String(document.schema).replace('cardwright/', '');
  const validate = validators.get(name as SchemaName);
  if (validate === undefined) return { name, faults: 'no such schema' };
  validate(document);
  return { name, faults: validate.errors };
}

const given: readonly (readonly [name: SchemaName, argv: readonly string[]])[] = [
  ['cut', ['cut', 'kit.yaml']],
  ['cut', ['cut', 'kit.yaml', '--why']],
  ['cut', ['cut', 'kit.yaml', '--slips']],
  ['cut', ['cut', 'kit.yaml', '--make', 'floor=9', '-o', 'a.pdf', '-o', 'sheets/']],
  ['cut', ['cut', 'kit.yaml', '--make', 'floor=9', '-o', 'a.pdf', '--dry-run']],
  ['cut', ['cut', 'broken.yaml']],
  ['check', ['check', 'kit.yaml']],
  ['check', ['check', 'kit.yaml', '--sensitivity']],
  ['check', ['check', 'broken.yaml']],
  ['count', ['count', 'kit.yaml']],
  ['count', ['count', 'broken.yaml']],
  ['masters', ['masters', 'masters.yaml']],
  ['masters', ['masters', 'masters.yaml', 'shoulder', '-o', 'm.pdf', '--bar', 'up=99.5mm']],
  ['masters', ['masters', 'scraps.yaml']],
  ['masters', ['masters', 'broken.yaml']],
  ['state', ['job', 'job.json']],
  ['state', ['job', 'job.json', '--cut', 'all']],
  ['drawer', ['drawer', 'drawer.yaml']],
  ['drawer', ['drawer', 'drawer.yaml', '--take', 'G1']],
  ['convert', ['convert', '2 3/8 in', '7 mm']],
  ['convert', ['convert', '2,5']],
  ['kit', ['convert', 'kit.yaml']],
  ['kit', ['convert', 'kit.yaml', '--round', '0.5mm', '-o', 'mm.yaml']],
  ['kit', ['convert', 'kit.yaml', '--material', 'none=1mm']],
  ['table', ['convert', '--table', '1/16']],
  ['twin', ['convert', 'built.yaml', '--twin', '-o', 'twin.pdf']],
  ['explain', ['explain']],
  ['explain', ['explain', 'C01']],
  ['new', ['new']],
  ['new', ['new', 'mine.yaml']],
  ['version', ['--version']],
  ['failure', ['cut', 'kit.yaml', '--nonsense']],
  ['failure', ['cut', 'kit.yaml', '-o', 'a.pdf', '--pages', '9']],
  ['failure', ['count', 'none.yaml']],
  ['failure', ['chekc']],
];

describe('what --json gives', () => {
  it.each(given)('is a document of %s: %j', async (name, argv) => {
    const kept = (await run(['cut', 'kit.yaml', '--job', 'job.json'], { files })).files;
    const ran = await run([...argv, '--json'], { files: Object.fromEntries(kept) });
    expect(faultsIn(ran)).toEqual({ name, faults: null });
  });

  it('names every kind of document at least once above', () => {
    // A job is no answer to --json but a file; its test is its own reading of it.
    expect([...new Set([...given.map(([name]) => name), 'job'])].sort()).toEqual([...schemaNames].sort());
  });

  it('is so for a fault of our own, and for a run that was stopped', async () => {
    const bug = await run(['check', 'kit.yaml', '--json'], { files, bug: true });
    expect([bug.code, faultsIn(bug)]).toEqual([70, { name: 'failure', faults: null }]);
    const stopped = await run(['cut', 'kit.yaml', '--json'], { files, signal: 'SIGINT' });
    expect([stopped.code, faultsIn(stopped)]).toEqual([130, { name: 'failure', faults: null }]);
  });
});

const codes = Object.keys(catalogue) as readonly Code[]; // its keys are what `Code` is made of
const pages = await Promise.all(codes.map(async (code) => [code, await explainPage(code)] as const));

describe('what --json gives of each code’s failing example', () => {
  // Watching never ends by itself; what it prints is a row of texts.
  const documented = pages.filter(
    ([, { failing }]) =>
      !failing.run.includes('--json') &&
      failing.meanwhile === undefined &&
      failing.run[0] !== undefined &&
      Object.hasOwn(commands, failing.run[0]) &&
      !failing.run.includes('--watch') &&
      !['completion', 'schema', 'convert'].includes(failing.run[0]),
  );

  it('obeys its schema', async () => {
    expect(documented.length).toBeGreaterThan(100);
    for (const [code, { failing }] of documented) {
      let files: Readonly<Record<string, string | Uint8Array>> = failing.files;
      for (const earlier of failing.before ?? [])
        files = Object.fromEntries((await run(earlier, { files })).files);
      const ran = await run(['--json', ...failing.run], {
        files,
        ...(failing.stdin === undefined ? {} : { stdin: failing.stdin }),
      });
      expect([code, ran.stdout.slice(0, 2)], failing.run.join(' ')).toEqual([code, '{\n']);
      expect([code, faultsIn(ran).faults]).toEqual([code, null]);
    }
  });
});
