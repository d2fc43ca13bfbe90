import { type Diagnostic, diagnose, nowhere, type Pause, type SearchProgress } from '../model/index.ts';
import type { Voice } from './voice.ts';
import type { Signal, World } from './world.ts';

/** Runs what may take long for a command, so that Ctrl-C ends it at once, wherever it is. */
export interface Driver {
  /**
   * Work that pauses now and then. From its first pause on, SIGTERM is told like Ctrl-C: then there is something
   * to tell of.
   */
  through<T>(work: Generator<Pause, T>): Promise<T>;
  /** Work whose stretches between two pauses may be long: Ctrl-C breaks them off, only SIGTERM waits for a pause. */
  stretches<T>(work: Generator<Pause, T>): Promise<T>;
  /** Work that does not pause. SIGTERM ends the process by itself. */
  atOnce<T>(work: () => T): T;
  /**
   * Work that would leave something behind if it were broken off; told to end at a pause, it takes that back.
   *
   * @param left  what there is to say of the files then, if not what is said of all
   */
  lasting<T>(work: Generator<Pause, T>, left?: string): Promise<T>;
  /** Ends the command if a signal has come; for whoever listens meanwhile, before it writes. */
  look(): Promise<void>;
}

/** Unwinds a command that is stopped by a signal; `main` tells of it. No fault of anybody's. */
export class Stopped extends Error {
  readonly diagnostic: Diagnostic;

  constructor(diagnostic: Diagnostic) {
    super(diagnostic.message);
    this.diagnostic = diagnostic;
  }
}

/** Long enough that turns of the event loop cost nothing, short enough that SIGTERM is answered at once. */
const sliceMs = 25;
const quietMs = 1000;
const redrawMs = 100;

/**
 * Drives in slices, with a turn of the event loop between them, in which signals arrive. After a second a
 * terminal is shown how far the search is, on one line that is taken away at the end.
 *
 * @param left  what there is to say of the files if it is stopped
 */
export function driverOf(voice: Voice, world: World, left = 'nothing was written'): Driver {
  const { clock, signals } = world;
  const started = clock.nowMs();
  const line = progressLine(voice, world);
  const reached: Reached = { progress: undefined, isOver: false, most: 0 };
  const stop = (signal: Signal, andLeft = left): Stopped => new Stopped(stopped(signal, reached, andLeft));

  const atOnce = <T>(work: () => T): T => {
    const done = signals.breakable(work);
    if (done === undefined) throw stop('SIGINT');
    return done.value;
  };
  /** Steps until it is time for the others. */
  const slice = <T>(work: Generator<Pause, T>): IteratorResult<Pause, T> => {
    for (const began = clock.nowMs(); ; ) {
      const step = work.next();
      if (step.done) return step;
      note(reached, step.value);
      if (clock.nowMs() - began >= sliceMs) return step;
    }
  };
  const look = async (andLeft?: string): Promise<void> => {
    await clock.turn();
    const signal = signals.received();
    if (signal !== undefined) throw stop(signal, andLeft);
  };

  const lasting = async <T>(work: Generator<Pause, T>, andLeft?: string): Promise<T> => {
    const release = signals.listen();
    try {
      for (;;) {
        const step = slice(work);
        const now = clock.nowMs();
        if (reached.progress !== undefined && now - started >= quietMs)
          await line.draw(reached.progress, now);
        if (step.done) return step.value;
        await look(andLeft);
      }
    } catch (stop) {
      for (let end = work.return(undefined as T); !end.done; ) end = work.next(); // its result is of no use
      throw stop;
    } finally {
      release();
      await line.erase();
    }
  };
  return {
    atOnce,
    lasting,
    look: () => look(),
    stretches: async (work) => {
      // A signal that comes between two slices is kept for the next look, not left to end the process without a word.
      const release = signals.listen();
      try {
        for (;;) {
          await look();
          const step = atOnce(() => slice(work));
          await look();
          if (step.done) return step.value;
        }
      } finally {
        release();
      }
    },
    through: async (work) => {
      // What may have arrived while the program itself was loading.
      await look();
      const first = atOnce(() => work.next());
      if (first.done) return first.value;
      note(reached, first.value);
      // Listening goes on for two more looks: what arrives while the first is taken, is seen by the second.
      const release = signals.listen();
      try {
        const result = await lasting(work);
        await look();
        await look();
        return result;
      } finally {
        release();
      }
    },
  };
}

/** How far the searches of a run are. */
interface Reached {
  progress: SearchProgress | undefined;
  /** What follows has its place behind the last search. */
  isOver: boolean;
  /** Steps of the longest search. */
  most: number;
}

function note(reached: Reached, pause: Pause): void {
  reached.isOver = pause === undefined;
  if (pause === undefined) return;
  reached.progress = pause;
  reached.most = Math.max(reached.most, pause.step);
}

function stopped(signal: Signal, { progress, isOver, most }: Reached, left: string): Diagnostic {
  const code = signal === 'SIGINT' ? 'C71' : 'C72';
  if (progress === undefined) return diagnose(code, nowhere, { where: 'before the search began', left });
  const { material, step } = progress;
  const where = isOver
    ? `after step ${most}, when all was laid out`
    : `at step ${step} of "${material}", with ${sheetsOf(progress)}`;
  return diagnose(code, nowhere, { where, left }, hintOf(isOver ? most : step));
}

function hintOf(step: number): { readonly hints: readonly string[] } {
  return { hints: [`--effort ${step}   searches as far and gives that layout again`] };
}

function sheetsOf({ sheets }: SearchProgress): string {
  return `${sheets} ${sheets === 1 ? 'sheet' : 'sheets'}`;
}

function progressLine({ showsProgress }: Voice, { stderr }: World) {
  let drawn: number | undefined;
  return {
    draw: async (progress: SearchProgress, now: number): Promise<void> => {
      if (!showsProgress || (drawn !== undefined && now - drawn < redrawMs)) return;
      drawn = now;
      const { material, step, bound } = progress;
      const text = `${material}: step ${step}, ${sheetsOf(progress)}, at least ${bound}`;
      await stderr.write(`\r\x1b[K${text.slice(0, (stderr.columns ?? 80) - 1)}`);
    },
    erase: async (): Promise<void> => {
      if (drawn !== undefined) await stderr.write('\r\x1b[K');
      drawn = undefined;
    },
  };
}
