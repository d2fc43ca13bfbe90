import { describe, expect, it } from 'vitest';
import { drive } from '../../src/cli/driving.ts';
import { voiceOf } from '../../src/cli/voice.ts';
import type { Signal, World } from '../../src/cli/world.ts';
import type { SearchProgress } from '../../src/model/index.ts';

interface Setting {
  readonly isTerminal?: boolean;
  readonly quiet?: boolean;
  readonly sheets?: number;
  /** What the clock goes on by at each look. */
  readonly tickMs: number;
  /** Arrives at this turn of the event loop. */
  readonly signal?: { readonly is: Signal; readonly atTurn: number };
}

/** Drives a search of so many steps, and tells what a person saw of it. */
async function driven(
  steps: number,
  { isTerminal = true, quiet = false, sheets = 7, tickMs, signal }: Setting,
) {
  let [nowMs, turns, seen, reached] = [0, 0, '', 0];
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
      listen: () => {},
      received: () => (signal !== undefined && turns >= signal.atTurn ? signal.is : undefined),
    },
  } as unknown as World;
  function* search(): Generator<SearchProgress, string> {
    for (let step = 1; step <= steps; step++) {
      reached = step;
      yield { material: 'greyboard', step, sheets, bound: 5 };
    }
    return 'found';
  }
  const manner = { json: false, quiet, color: 'auto', command: 'cut' } as const;
  const end = await drive(search(), voiceOf(manner, world), world);
  return { end, seen, turns, reached };
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
    expect(end).toEqual({ kind: 'done', value: 'found' });
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
    expect(end).toMatchObject({ kind: 'stopped', diagnostic: { code } });
    const { message = '', hints = [] } = end.kind === 'stopped' ? end.diagnostic : {};
    const step = /at step (\d+) of "greyboard"/.exec(message)?.[1];
    expect(hints[0]).toMatch(new RegExp(`^--effort ${step} `));
    // The progress line is gone before the message comes.
    expect(seen.endsWith('\r\x1b[K')).toBe(true);
  });

  it('stops before the first step where the signal was there already', async () => {
    const { end, reached } = await driven(10, { tickMs: 1, signal: { is: 'SIGINT', atTurn: 1 } });
    expect(end.kind).toBe('stopped');
    expect(reached).toBeLessThanOrEqual(1);
  });
});
