import { execFileSync, spawnSync } from 'node:child_process';
import { closeSync, existsSync, mkdtempSync, openSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
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

describe('files that lead to each other', () => {
  const shelf =
    'cardwright: shelf\nunits: in\nmaterials: { card: { thickness: 1/16 } }\nsheets: { card: [{ size: [12, 8] }] }\n';
  const kitOf = (path: string, tile: string) =>
    `cardwright: kit\nunits: in\nuses: [${path}]\ntiles: { ${tile}: { footprint: none, parts: { wall: { of: card, size: [3, 2] } } } }\n`;

  it('are not written over, also where another file uses them', async () => {
    const files = { 'card.yaml': shelf, 'kit.yaml': kitOf('card.yaml', 'box') };
    const ran = await run(['cut', 'kit.yaml', '-o', './card.yaml', '--format', 'text', '--force'], { files });
    expect([ran.code, ran.stderr.includes('error C43: ')]).toEqual([3, true]);
    expect(ran.text('card.yaml')).toBe(shelf);
  });

  it('can not both bring a tile of one name into a batch', async () => {
    const files = {
      'card.yaml': shelf,
      'a.yaml': kitOf('card.yaml', 'box'),
      'b.yaml': kitOf('card.yaml', 'box'),
    };
    const { code, stderr } = await run(['count', 'a.yaml', 'b.yaml'], { files });
    expect([code, stderr.includes('error E02: "box" means more than one thing here')]).toEqual([1, true]);
    expect((await run(['count', 'a.yaml', './a.yaml'], { files })).code).toBe(0);
  });

  it('are one file by whatever path they are reached', () => {
    const folder = mkdtempSync(join(tmpdir(), 'cardwright-test-'));
    const at = (name: string) => join(folder, name);
    writeFileSync(at('card.yaml'), shelf);
    symlinkSync('card.yaml', at('link.yaml'));
    writeFileSync(at('a.yaml'), kitOf('card.yaml', 'box'));
    writeFileSync(at('b.yaml'), kitOf('link.yaml', 'lid'));
    writeFileSync(at('s.yaml'), 'cardwright: session\nuses: [a.yaml, b.yaml]\nmake: { box: 1, lid: 1 }\n');
    const { status, stdout } = spawnSync(
      process.execPath,
      [program, 'count', 's.yaml', at('a.yaml'), '--json'],
      {
        cwd: folder,
        encoding: 'utf8',
      },
    );
    expect(status).toBe(0);
    expect(JSON.parse(stdout).result.materials).toHaveLength(1);
    rmSync(folder, { recursive: true });
  });
});
