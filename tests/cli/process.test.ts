import { execFileSync, spawn } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { soundKit } from './memoryWorld.ts';

/** The built program as a process of its own: what memory can't show. Builds first where the bundle is old. */

const root = fileURLToPath(new URL('../..', import.meta.url));
const program = join(root, 'bin/cardwright.js');
const session = join(root, 'examples/vineyard.yaml');
let folder = '';

beforeAll(() => {
  execFileSync(process.execPath, [join(root, '.ci/ready.mjs')], { stdio: 'ignore' });
  folder = mkdtempSync(join(tmpdir(), 'cardwright-test-'));
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true }));

interface Ended {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

interface How {
  readonly environment?: Readonly<Record<string, string>>;
  readonly during?: (child: ReturnType<typeof spawn>) => void;
}

function start(argv: readonly string[], { environment = {}, during }: How = {}): Promise<Ended> {
  return new Promise((resolve) => {
    const { NO_COLOR: _, FORCE_COLOR: __, ...rest } = process.env;
    const env = { ...rest, LC_ALL: 'C.UTF-8', ...environment };
    const child = spawn(process.execPath, [program, ...argv], { cwd: folder, env });
    let [stdout, stderr] = ['', ''];
    child.stdout.on('data', (chunk) => {
      stdout += chunk;
    });
    child.stderr.on('data', (chunk) => {
      stderr += chunk;
    });
    child.on('close', (code) => resolve({ code, stdout, stderr }));
    during?.(child);
  });
}

describe('the program', () => {
  it('knows its version', async () => {
    const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
    expect(await start(['--version'])).toEqual({ code: 0, stdout: `${version}\n`, stderr: '' });
  });

  it('carries the licences of all that it contains', () => {
    const licences = readFileSync(join(root, 'dist/LICENSES.txt'), 'utf8');
    for (const name of ['yaml', 'pdfkit', 'fontkit', 'zod', 'commander', 'chalk', 'fflate']) {
      expect(licences).toMatch(new RegExp(`^${name} \\d+\\.\\d+\\.\\d+ \\(`, 'm'));
    }
  });

  it('says that it has to be built where it is not', () => {
    const bare = mkdtempSync(join(tmpdir(), 'cardwright-test-'));
    cpSync(join(root, 'bin'), join(bare, 'bin'), { recursive: true });
    writeFileSync(join(bare, 'package.json'), '{ "type": "module" }');
    expect(() =>
      execFileSync(process.execPath, [join(bare, 'bin/cardwright.js')], { stdio: 'pipe' }),
    ).toThrow(/npm run build/);
    rmSync(bare, { recursive: true });
  });

  it('ends quietly when whoever reads it goes away', async () => {
    const ended = await start(['cut', session, '--effort', 'quick', '--json'], {
      during: (child) => child.stdout?.destroy(),
    });
    expect(ended.stderr).toBe('');
    expect(ended.code).toBe(0);
  });

  it('gives a PDF whole through a pipe', async () => {
    const { stdout, code } = await start(['cut', session, '--effort', 'quick', '--format', 'pdf']);
    expect(code).toBe(0);
    expect(stdout.slice(0, 5)).toBe('%PDF-');
    expect(stdout.trimEnd().slice(-5)).toBe('%%EOF');
  });

  it('ends with 70 where something of its own breaks', async () => {
    const broken = '--import=data:text/javascript,JSON.stringify=()=>{throw%20Error(1)}';
    const { code, stdout, stderr } = await start(['count', session, '--json'], {
      environment: { NODE_OPTIONS: broken },
    });
    expect(code).toBe(70);
    expect(stdout).toBe('');
    expect(stderr).toContain('C70');
  });

  it.each([
    ['SIGINT', 130],
    ['SIGTERM', 143],
  ] as const)('answers %s within the search, with %d and nothing left behind', async (signal, expected) => {
    const argv = [
      'cut',
      session,
      '--make',
      'retaining wall=977',
      '--make',
      'steps=313',
      '--effort',
      '900000000',
    ];
    // Asked while it still starts, a program dies of the signal itself (code null): ask later then.
    let asked = { code: null as number | null, stderr: '', askedMs: 0 };
    for (const waitMs of [1500, 6000, 24_000]) {
      asked = await startAndAsk([...argv, '-o', join(folder, 'x.pdf')], signal, waitMs);
      if (asked.code !== null) break;
    }
    const { code, stderr, askedMs } = asked;
    // A run that was over before it was asked proves nothing.
    expect(askedMs).toBeGreaterThan(0);
    expect(code, stderr).toBe(expected);
    expect(stderr).toContain('nothing was written');
    expect(readdirSync(folder)).toEqual([]);
  });
});

/** Starts the program and sends it a signal after a while. How soon it answers is no matter for a test: `driving.test.ts` counts turns. */
async function startAndAsk(argv: readonly string[], signal: NodeJS.Signals, waitMs: number) {
  let askedMs = 0;
  const { code, stderr } = await start(argv, {
    during: (child) =>
      setTimeout(() => {
        askedMs = performance.now();
        child.kill(signal);
      }, waitMs),
  });
  return { code, stderr, askedMs };
}

describe('check --watch', () => {
  /** Saves a kit in some way once the watch has begun, and asks it to end once it has said so. */
  async function watchWhile(save: (path: string) => void, signal: NodeJS.Signals): Promise<Ended> {
    const own = mkdtempSync(join(tmpdir(), 'cardwright-test-'));
    const path = join(own, 'kit.yaml');
    writeFileSync(path, soundKit);
    const ended = await start(['check', path, '--watch'], {
      during: (child) => {
        let said = '';
        child.stdout?.on('data', (chunk) => {
          const before = said;
          said += chunk;
          if (before === '') setTimeout(() => save(path), 300);
          if (/has changed\n.+/s.test(said)) child.kill(signal);
        });
      },
    });
    rmSync(own, { recursive: true });
    return ended;
  }

  it.each([
    ['written into', (path: string) => writeFileSync(path, `${soundKit}#\n`)],
    [
      'put in its place',
      (path: string) => {
        writeFileSync(`${path}.new`, `${soundKit}#\n`);
        renameSync(`${path}.new`, path);
      },
    ],
    [
      'put aside and written anew',
      (path: string) => {
        renameSync(path, `${path}~`);
        writeFileSync(path, `${soundKit}#\n`);
      },
    ],
  ])('sees a file that is %s, and ends at Ctrl-C', async (_, save) => {
    const { code, stdout, stderr } = await watchWhile(save, 'SIGINT');
    expect([code, stderr]).toEqual([130, '']);
    expect(stdout.match(/^ok {2}floor/gm)).toHaveLength(2);
  });

  it('ends with 143 when asked to', async () => {
    const { code } = await watchWhile((path) => writeFileSync(path, `${soundKit}#\n`), 'SIGTERM');
    expect(code).toBe(143);
  });
});
