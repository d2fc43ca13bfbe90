import { execFileSync, spawnSync } from 'node:child_process';
import { closeSync, existsSync, openSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { brokenKit, run, soundKit } from './memoryWorld.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const program = join(root, 'bin/cardwright.js');

describe('standard output that takes no more', () => {
  const files = { 'kit.yaml': soundKit, 'broken.yaml': brokenKit };

  it('is a fault of the disk, told on stderr also with --json', async () => {
    for (const argv of [
      ['cut', 'kit.yaml'],
      ['count', 'kit.yaml', '--json'],
      ['--help'],
      ['convert', '3/8'],
    ]) {
      const { code, stderr } = await run(argv, { files, full: true });
      expect([argv, code]).toEqual([argv, 3]);
      expect(stderr).toContain('error C44: ');
      expect(stderr).toContain('no space is left on the disk');
    }
  });

  it('does not hide a worse end', async () => {
    expect((await run(['cut', '--nope', '--json'], { files, full: true })).code).toBe(2);
    expect((await run(['cut', 'broken.yaml', '--json'], { files, full: true })).code).toBe(3);
  });
});

describe.skipIf(!existsSync('/dev/full'))('the built program before a full disk', () => {
  beforeAll(() => {
    execFileSync(process.execPath, [join(root, '.ci/ready.mjs')], { stdio: 'ignore' });
  }, 120_000);

  it.each([['convert', '3/8'], ['--help'], ['check', 'examples/vineyard.yaml', '--json']])(
    'ends %s without a trace',
    (...argv) => {
      const full = openSync('/dev/full', 'w');
      const { status, stderr } = spawnSync(process.execPath, [program, ...argv], {
        cwd: root,
        stdio: ['ignore', full, 'pipe'],
        encoding: 'utf8',
      });
      closeSync(full);
      expect(stderr).toMatch(/^cardwright: error C44: /);
      expect(stderr).not.toMatch(/^ +at /m);
      expect(status).toBe(3);
    },
  );
});

describe('a fault of our own while the arguments are read', () => {
  it('is told as one, as JSON where that is asked for', async () => {
    const odd = ['count', 'kit.yaml', '--json'];
    Object.defineProperty(odd, 'slice', {
      value: () => {
        throw new TypeError('the sky fell down');
      },
    });
    Object.defineProperty(odd, Symbol.iterator, {
      value: () => {
        throw new TypeError('the sky fell down');
      },
    });
    const { code, stdout } = await run(odd);
    expect(code).toBe(70);
    expect(JSON.parse(stdout).diagnostics).toMatchObject([{ code: 'C70' }]);
  });
});

describe('what can be told before any work', () => {
  it('knows one output by two spellings, also before it is there', async () => {
    const { code, stderr, files } = await run(['cut', 'kit.yaml', '-o', 'a.txt', '-o', './a.txt'], {
      files: { 'kit.yaml': soundKit },
    });
    expect([code, stderr.includes('error C16: ')]).toEqual([2, true]);
    expect(files.has('a.txt')).toBe(false);
  });

  it('calls a folder under uses: a folder', async () => {
    const { stderr } = await run(['check', 'kit.yaml'], {
      files: { 'kit.yaml': soundKit.replace('units: in', 'units: in\nuses: [.]') },
    });
    expect(stderr).toContain('error S01: can\'t read ".": it is a folder');
  });
});
