import { describe, expect, it } from 'vitest';
import { driverOf, Stopped } from '../../src/cli/driving.ts';
import { voiceOf } from '../../src/cli/voice.ts';
import type { Signal, World } from '../../src/cli/world.ts';
import type { Pause } from '../../src/model/index.ts';

interface Setting {
  readonly isTerminal?: boolean;
  readonly quiet?: boolean;
  readonly sheets?: number;
  /** What the clock goes on by at each look. */
  readonly tickMs: number;
  /** Arrives at this turn of the event loop. */
  readonly signal?: { readonly is: Signal; readonly atTurn: number };
  /** SIGINT breaks off what does not let signals in, when this step is reached. */
  readonly breaksOffAt?: number;
  /** Pauses after the search, with nothing to tell. */
  readonly after?: number;
}

/** Drives a search of so many steps, and tells what a person saw of it. */
async function driven(
  steps: number,
  { isTerminal = true, quiet = false, sheets = 7, tickMs, signal, breaksOffAt, after = 0 }: Setting,
) {
  let [nowMs, turns, seen, reached, listening] = [0, 0, '', 0, 0];
  const heard: number[] = [];
  const sink: World['stdout'] = {
    write: async (chunk) => {
      seen += chunk;
    },
    isTerminal,
    columns: 60,
    isClosed: false,
    trouble: undefined,
  };
  // Only these members of the world are looked at.
  const world = {
    stdout: sink,
    stderr: sink,
    environment: {},
    clock: {
      nowMs: () => {
        nowMs += tickMs;
        return nowMs;
      },
      turn: async () => {
        turns += 1;
      },
    },
    signals: {
      listen: () => {
        listening++;
        return () => {
          listening--;
        };
      },
      received: () => (signal !== undefined && turns >= signal.atTurn ? signal.is : undefined),
      breakable: <T>(run: () => T) => {
        try {
          return { value: run() };
        } catch (it) {
          if (it !== brokenOff) throw it;
          return undefined;
        }
      },
    },
  } as unknown as World;
  const brokenOff = Symbol('broken off');
  function* search(): Generator<Pause, string> {
    for (let step = 1; step <= steps; step++) {
      reached = step;
      heard.push(listening);
      if (step === breaksOffAt) throw brokenOff;
      yield { material: 'greyboard', step, sheets, bound: 5 };
    }
    for (let pause = 0; pause < after; pause++) yield;
    return 'found';
  }
  const manner = { json: false, quiet, color: 'auto', command: 'cut' } as const;
  const driver = driverOf(voiceOf(manner, world), world);
  const end = await driver.through(search()).catch((it) => it);
  return { end, seen, turns, reached, heard, listening };
}

/** What is told of a run that was stopped. */
function told(end: unknown): { readonly code: string; readonly message: string; readonly hint: string } {
  if (!(end instanceof Stopped)) throw new Error('it was not stopped');
  const { code, message, hints } = end.diagnostic;
  return { code, message, hint: hints[0] ?? '' };
}

describe('a search that has one sheet', () => {
  it('speaks of one', async () => {
    const { seen } = await driven(60, { tickMs: 100, sheets: 1 });
    expect(seen).toContain(', 1 sheet, at least');
  });
});

describe('driving a search', () => {
  it('goes to its end, with a turn of the event loop every 25 ms', async () => {
    const { end, turns } = await driven(1000, { tickMs: 1 });
    expect(end).toBe('found');
    expect(turns).toBeGreaterThanOrEqual(1000 / 26);
  });

  it('shows nothing in the first second', async () => {
    expect((await driven(900, { tickMs: 1 })).seen).toBe('');
  });

  it('then shows one line, redrawn in place and taken away at the end', async () => {
    const { seen } = await driven(3000, { tickMs: 1 });
    const drawings = seen.split('\r\x1b[K');
    expect(drawings[0]).toBe('');
    expect(drawings.at(-1)).toBe('');
    expect(drawings.length).toBeGreaterThan(4);
    for (const it of drawings.slice(1, -1)) {
      expect(it).toMatch(/^greyboard: step \d+, 7 sheets, at least 5$/);
      expect(it.length).toBeLessThan(60);
    }
  });

  it('shows nothing where there is no terminal, or where quiet is asked for', async () => {
    expect((await driven(3000, { tickMs: 1, isTerminal: false })).seen).toBe('');
    expect((await driven(3000, { tickMs: 1, quiet: true })).seen).toBe('');
  });

  it.each([
    ['SIGINT', 'C71'],
    ['SIGTERM', 'C72'],
  ] as const)('stops at %s, and says the effort that gives the same again', async (is, code) => {
    const { end, reached, seen } = await driven(1_000_000, { tickMs: 1, signal: { is, atTurn: 60 } });
    expect(reached).toBeLessThan(60 * 27);
    const { code: said, message, hint } = told(end);
    expect(said).toBe(code);
    const step = /at step (\d+) of "greyboard"/.exec(message)?.[1];
    expect(hint).toMatch(new RegExp(`^--effort ${step} `));
    // The progress line is gone before the message comes.
    expect(seen.endsWith('\r\x1b[K')).toBe(true);
  });

  it('stops before the first step where the signal was there already', async () => {
    const { end, reached } = await driven(10, { tickMs: 1, signal: { is: 'SIGINT', atTurn: 1 } });
    expect(told(end).message).toContain('before the search began');
    expect(reached).toBeLessThanOrEqual(1);
  });

  it('listens between the first pause and the end, and not before or after', async () => {
    const { heard, listening } = await driven(10, { tickMs: 1 });
    expect(heard.map((it) => it > 0)).toEqual([false, ...Array.from({ length: 9 }, () => true)]);
    expect(listening).toBe(0);
    expect((await driven(100, { tickMs: 1, signal: { is: 'SIGTERM', atTurn: 2 } })).listening).toBe(0);
  });

  it('is broken off before its first pause by Ctrl-C', async () => {
    const { end, reached, listening } = await driven(100, { tickMs: 1, breaksOffAt: 1 });
    expect(told(end)).toMatchObject({
      code: 'C71',
      message: expect.stringContaining('before the search began'),
    });
    expect([reached, listening]).toEqual([1, 0]);
  });

  it('says after the search that all was laid out, and the effort that lays it out again', async () => {
    const { end } = await driven(40, { tickMs: 1, after: 1000, signal: { is: 'SIGINT', atTurn: 20 } });
    expect(told(end)).toMatchObject({
      message: expect.stringContaining('after step 40, when all was laid out'),
      hint: expect.stringMatching(/^--effort 40 /),
    });
  });
});
