import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Ran, run } from './memoryWorld.ts';

/** The two evenings of the vineyard, as the README tells them: its own lines, run one after the other. */

const root = new URL('../../', import.meta.url);
const shipped = (path: string): string => readFileSync(new URL(path, root), 'utf8');
const paths = [
  'examples/vineyard.yaml',
  'examples/drawer.yaml',
  'specs/hillside.yaml',
  'shared/card-and-foam.yaml',
];
const section = shipped('README.md').split("## An evening's batch")[1]?.split('\n## ')[0] ?? '';
const lines = [...section.matchAll(/^node bin\/cardwright\.js (?<line>.*?) {2,}#/gm)].map(
  ({ groups }) => groups?.line ?? '',
);

function argvOf(line: string): readonly string[] {
  return [...line.matchAll(/'([^']*)'|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain ?? '');
}

const ran = new Map<string, Ran>();
const of = (start: string): Ran => {
  const found = [...ran].find(([line]) => line.startsWith(start));
  if (found === undefined) throw new Error(`the README does not run ${start}`);
  return found[1];
};
const json = (it: Ran, path: string) => JSON.parse(it.text(path));

beforeAll(async () => {
  let files: Readonly<Record<string, string | Uint8Array>> = Object.fromEntries(
    paths.map((path) => [path, shipped(path)]),
  );
  for (const line of lines) {
    const next = await run(argvOf(line), { files });
    ran.set(line, next);
    files = Object.fromEntries(next.files);
  }
}, 180_000);

describe('the two evenings of the vineyard', () => {
  it('are told in full, and each line does what it says', () => {
    expect(lines.map((it) => it.split(' ')[0])).toEqual([
      'count',
      'cut',
      'job',
      'recut',
      'job',
      'drawer',
      'cut',
    ]);
    for (const [line, { code, stderr }] of ran)
      expect([line, code, stderr]).toEqual([line, 0, expect.any(String)]);
  });

  it('count says what is bought, of sheets and of fittings', () => {
    expect(of('count').stdout).toMatch(/^disc magnet +1 pack of 50 +4\.20 EUR/m);
    expect(of('count').stdout).toMatch(/^area: /m);
  });

  it('the spoiled piece comes from what its own job left', () => {
    const events = json(of('recut'), 'walls.json').events;
    const [again] = events.filter(({ kind }: { kind: string }) => kind === 'recut');
    expect(again).toMatchObject({ label: 'RW layer', count: 1 });
    expect(again.pictures.map(({ isOwn }: { isOwn: boolean }) => isOwn)).toEqual([true]);
    expect(of('recut').files.has('again.pdf')).toBe(true);
  });

  it('the second evening is cut from the rests of the first', () => {
    const put = of('job walls.json --cut all').stdout;
    const kept = [...put.matchAll(/^in: .*\((keep \d+)\)$/gm)].map(([, label]) => label);
    expect(kept.length).toBeGreaterThan(2);
    const { materials } = json(of('cut examples/vineyard.yaml --evening slopes'), 'slopes.json').plan;
    const labels = materials.flatMap(({ pictures }: { pictures: { sheet: { label?: string } }[] }) =>
      pictures.flatMap(({ sheet }) => sheet.label ?? []),
    );
    expect(labels.filter((it: string) => kept.includes(it)).length).toBeGreaterThanOrEqual(2);
    expect(of('drawer').stdout).toContain(kept[0]);
  });

  it('what was put away can be taken back, byte for byte', async () => {
    const put = of('job walls.json --cut all');
    expect(put.text('examples/drawer.yaml')).not.toBe(shipped('examples/drawer.yaml'));
    const undone = await run(['job', 'walls.json', '--undo'], { files: Object.fromEntries(put.files) });
    expect(undone.code).toBe(0);
    expect(undone.text('examples/drawer.yaml')).toBe(shipped('examples/drawer.yaml'));
  });
});
