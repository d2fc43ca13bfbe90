import { type Diagnostic, diagnose, nowhere, type SearchProgress } from '../model/index.ts';
import type { Voice } from './voice.ts';
import type { Signal, World } from './world.ts';

/** A run that came to its end, or was stopped on the way. */
export type Driven<T> =
  | { readonly kind: 'done'; readonly value: T }
  | { readonly kind: 'stopped'; readonly diagnostic: Diagnostic };

/** Long enough that turns of the event loop cost nothing, short enough that Ctrl-C is answered at once. */
const sliceMs = 25;
const quietMs = 1000;
const redrawMs = 100;

/**
 * Drives a search in slices, with a turn of the event loop between them, in which signals arrive. After a
 * second a terminal is shown how far it is, on one line that is taken away at the end.
 */
export async function drive<T>(
  search: Generator<SearchProgress, T>,
  voice: Voice,
  world: World,
): Promise<Driven<T>> {
  const { clock, signals } = world;
  signals.listen();
  const started = clock.nowMs();
  const line = progressLine(voice, world);
  let slice = started;
  let progress: SearchProgress | undefined;
  // What may have arrived while the program itself was loading.
  await clock.turn();
  for (let step = search.next(); ; step = search.next()) {
    const signal = signals.received();
    if (signal !== undefined) {
      await line.erase();
      return { kind: 'stopped', diagnostic: stopped(signal, progress) };
    }
    if (step.done) {
      await line.erase();
      return { kind: 'done', value: step.value };
    }
    progress = step.value;
    const now = clock.nowMs();
    if (now - slice < sliceMs) continue;
    if (now - started >= quietMs) await line.draw(progress, now);
    await clock.turn();
    slice = clock.nowMs();
  }
}

/** What a signal that arrived while nothing was searched comes to. */
export function stopped(signal: Signal, progress: SearchProgress | undefined): Diagnostic {
  const where =
    progress === undefined
      ? 'before the search began'
      : `at step ${progress.step} of "${progress.material}", with ${sheetsOf(progress)}`;
  const hints =
    progress === undefined ? [] : [`--effort ${progress.step}   searches as far and gives that layout again`];
  return diagnose(signal === 'SIGINT' ? 'C71' : 'C72', nowhere, { where }, { hints });
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
    },
  };
}
