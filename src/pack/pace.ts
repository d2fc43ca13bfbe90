/**
 * Counts work, in rounds of loops and calls of functions, roughly: whoever has done so much of it lets the
 * driver look at the signals and show how far it is. Counted, not timed, so that every run is the same.
 */
export class Pace {
  private done = 0;

  /** @returns  true after every few milliseconds of work, also where it is not compiled for speed yet */
  isDue(work: number): boolean {
    this.done += work;
    if (this.done < workBetweenYields) return false;
    this.done = 0;
    return true;
  }
}

const workBetweenYields = 100_000;
