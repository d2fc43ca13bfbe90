import { execFileSync, spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

/** The code that the build compiles ahead: it is taken where it is of this Node, and the program needs none of it. */

const root = fileURLToPath(new URL('../..', import.meta.url));
const compiled = `dist/compiled/${process.version}-${process.platform}-${process.arch}`;
let folder = '';

beforeAll(() => {
  execFileSync(process.execPath, [join(root, '.ci/ready.mjs')], { stdio: 'ignore' });
  folder = mkdtempSync(join(tmpdir(), 'cardwright-test-'));
  for (const it of ['bin', 'dist', 'package.json', 'specs', 'shared'])
    cpSync(join(root, it), join(folder, it), { recursive: true });
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true }));

const commands = [['--help'], ['explain', 'C01'], ['check', 'specs/hillside.yaml']];

function printedIn(place: string): readonly string[] {
  return commands.map((argv) => {
    const { stdout, stderr, status } = spawnSync(process.execPath, ['bin/cardwright.js', ...argv], {
      cwd: place,
      encoding: 'utf8',
    });
    return `${status}\n${stdout}\n${stderr}`;
  });
}

describe('compiled code', () => {
  // Each refusal would only make the start slower, so nothing else would tell of it.
  it('is there for all that the usual commands load, and V8 takes it', () => {
    // What an earlier build left goes a while later.
    const built = readFileSync(join(folder, 'dist/built'), 'utf8').split('\n');
    const names = readdirSync(join(folder, compiled)).filter((name) =>
      built.includes(name.replace(/\.bin$/, '')),
    );
    expect(names.length).toBeGreaterThan(20);
    const asking = join(folder, 'asking.mjs');
    writeFileSync(
      asking,
      `import { readFileSync } from 'node:fs';
       import nodeModule from 'node:module';
       import { setFlagsFromString } from 'node:v8';
       import { Script } from 'node:vm';
       // With the flags that a start sets, but nothing loaded yet.
       const [, setting] = readFileSync('bin/cardwright.js', 'utf8').match(/\\n(const \\w+ = '--[^]*?)\\nconst dist =/);
       new Function('setFlagsFromString', setting)(setFlagsFromString);
       const refused = ${JSON.stringify(names)}.filter((name) => new Script(
         nodeModule.wrap(readFileSync('dist/' + name.replace(/\\.bin$/, ''), 'latin1')),
         { cachedData: readFileSync('${compiled}/' + name) },
       ).cachedDataRejected);
       console.log(JSON.stringify(refused));`,
    );
    expect(execFileSync(process.execPath, [asking], { cwd: folder, encoding: 'utf8' })).toBe('[]\n');
  });

  // They are read as such, and anything else would come out as other characters.
  it('is made of scripts in plain ASCII, whose words are what they were', () => {
    const [, ...scripts] = readFileSync(join(folder, 'dist/built'), 'utf8').trimEnd().split('\n');
    expect(scripts.length).toBeGreaterThan(20);
    const others = scripts.filter((it) => /[^\0-\x7f]/.test(readFileSync(join(folder, 'dist', it), 'utf8')));
    expect(others).toEqual([]);
    const help = (locale: string): string =>
      spawnSync(process.execPath, ['bin/cardwright.js', '--help'], {
        cwd: folder,
        env: { ...process.env, LC_ALL: locale },
        encoding: 'utf8',
      }).stdout;
    expect(help('C.UTF-8')).toContain('FILE…');
    expect(help('C')).toMatch(/^[\0-\x7f]+$/);
  });

  it('changes nothing: without it, or with half of it, the same is printed', () => {
    const usual = printedIn(folder);
    expect(usual[0]).toMatch(/^0\nUsage: cardwright/);
    for (const name of readdirSync(join(folder, compiled))) {
      const path = join(folder, compiled, name);
      truncateSync(path, readFileSync(path).length >> 1);
    }
    expect(printedIn(folder)).toEqual(usual);
    rmSync(join(folder, 'dist/compiled'), { recursive: true });
    expect(printedIn(folder)).toEqual(usual);
  });
});
