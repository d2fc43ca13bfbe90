import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

/** Real signals, sent to a process of its own that would go on for ever. */

const source = (path: string) => JSON.stringify(new URL(`../../src/${path}`, import.meta.url).pathname);
let folder = '';
let program = '';

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'cardwright-signals-'));
  program = join(folder, 'program.mjs');
  await build({
    stdin: {
      contents: `
        import { writeSync } from 'node:fs';
        import { driverOf, Stopped } from ${source('cli/driving.ts')};
        import { ExitCode } from ${source('cli/exitCode.ts')};
        import { exitCodeOf } from ${source('cli/failing.ts')};
        import { nodeWorld } from ${source('cli/nodeWorld.ts')};
        import { voiceOf } from ${source('cli/voice.ts')};
        const world = nodeWorld('0');
        const driver = driverOf(voiceOf({ json: false, quiet: false, color: 'never', command: 'cut' }, world), world);
        const ready = () => writeSync(1, 'ready');
        const endless = () => { ready(); for (let i = 0; ; i++) if (i < 0) return i; };
        function* search() {
          for (let step = 1; ; step++) {
            if (step === 20) ready();
            yield { material: 'card', step, sheets: 3, bound: 2 };
          }
        }
        function* searchAndMore() {
          yield { material: 'card', step: 7, sheets: 3, bound: 2 };
          yield;
        }
        const does = {
          straight: async () => { driver.atOnce(endless); },
          search: async () => { await driver.through(search()); },
          after: async () => { await driver.through(searchAndMore()); driver.atOnce(endless); },
          drawing: async () => {
            await driver.through(searchAndMore());
            await driver.stretches((function* () { yield; endless(); })());
          },
          drawn: async () => {
            await driver.through(searchAndMore());
            await driver.stretches((function* () { ready(); for (;;) yield; })());
          },
          wait: async () => { await driver.through(searchAndMore()); endless(); },
          write: async () => {
            const many = Array.from({ length: 100_000 }, (_, i) => ({ name: 'page-' + i, bytes: new Uint8Array(9) }));
            setTimeout(ready, 50);
            await driver.lasting(world.files.writeFolder(process.argv[3], many));
          },
        };
        try {
          await does[process.argv[2]]();
        } catch (it) {
          if (!(it instanceof Stopped)) throw it;
          process.stderr.write(it.diagnostic.message + it.diagnostic.hints.join());
          process.exitCode = exitCodeOf([it.diagnostic]);
        }
      `,
      resolveDir: folder,
    },
    bundle: true,
    format: 'esm',
    platform: 'node',
    outfile: program,
    logLevel: 'error',
  });
}, 180_000);
afterAll(() => rmSync(folder, { recursive: true }));

interface Ended {
  /** The exit code, or the signal that the process died of. */
  readonly end: number | NodeJS.Signals | null;
  readonly stderr: string;
}

/** Sends the signal once the program is in the midst of it. */
function interrupted(argv: readonly string[], signal: NodeJS.Signals): Promise<Ended> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [program, ...argv]);
    let stderr = '';
    child.stderr.on('data', (chunk) => {
      stderr += chunk;
    });
    child.stdout.once('data', () => setTimeout(() => child.kill(signal), 50));
    child.on('close', (code, died) => resolve({ end: code ?? died, stderr }));
  });
}

describe('a signal', () => {
  it('breaks off what never lets it in, if it is Ctrl-C', async () => {
    expect(await interrupted(['straight'], 'SIGINT')).toEqual({
      end: 130,
      stderr: 'interrupted before the search began; nothing was written',
    });
  });

  it('ends what never lets it in, and has nothing to tell, by itself', async () => {
    expect(await interrupted(['straight'], 'SIGTERM')).toEqual({ end: 'SIGTERM', stderr: '' });
  });

  it.each([
    ['SIGINT', 130],
    ['SIGTERM', 143],
  ] as const)('stops a search between two steps: %s', async (signal, expected) => {
    const { end, stderr } = await interrupted(['search'], signal);
    expect(end).toBe(expected);
    const [, step] = /at step (\d+) of "card", with 3 sheets; nothing was written/.exec(stderr) ?? [];
    expect(Number(step)).toBeGreaterThanOrEqual(20);
    expect(stderr).toContain(`--effort ${step} `);
  });

  it.each([
    ['after', 'SIGINT', 130, 'interrupted'],
    ['drawing', 'SIGINT', 130, 'interrupted'],
    ['drawn', 'SIGTERM', 143, 'ended on request'],
  ] as const)(
    'tells how far the search was when it stops what comes after: %s, %s',
    async (what, signal, end, how) => {
      expect(await interrupted([what], signal)).toEqual({
        end,
        stderr: expect.stringMatching(
          new RegExp(`^${how} after step 7, when all was laid out; .*--effort 7 `),
        ),
      });
    },
  );

  it.each([
    ['SIGINT', 130],
    ['SIGTERM', 143],
  ] as const)(
    'takes back a folder that is half filled, and keeps the one there was: %s',
    async (signal, expected) => {
      const path = mkdtempSync(join(folder, 'out-'));
      mkdirSync(join(path, 'pages'));
      writeFileSync(join(path, 'pages', 'page-1.svg'), 'as it was');
      const { end, stderr } = await interrupted(['write', join(path, 'pages')], signal);
      expect([end, stderr]).toEqual([expected, expect.stringContaining('nothing was written')]);
      expect(readdirSync(path)).toEqual(['pages']);
      expect(readdirSync(join(path, 'pages'))).toEqual(['page-1.svg']);
    },
  );

  it.each(['SIGINT', 'SIGTERM'] as const)('ends what nobody drives by itself: %s', async (signal) => {
    expect(await interrupted(['wait'], signal)).toEqual({ end: signal, stderr: '' });
  });
});
