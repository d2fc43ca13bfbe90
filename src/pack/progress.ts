import type { SearchProgress } from '../model/index.ts';
import type { Progress } from './search/search.ts';

/** Runs a search of one material, and says for it how far it is. */
export function* saidOf<T>(material: string, run: Generator<Progress, T>): Generator<SearchProgress, T> {
  for (;;) {
    const next = run.next();
    if (next.done) return next.value;
    yield { material, ...next.value };
  }
}
