import type { Diagnostic } from '../model/index.ts';

/** What was found wrong so far. Reading goes on behind a fault, so that one run tells them all. */
export class Faults {
  readonly #found: Diagnostic[] = [];

  /** Gives undefined, which is what the reader of a faulty value has to give. */
  report(...diagnostics: readonly Diagnostic[]): undefined {
    this.#found.push(...diagnostics);
    return undefined;
  }

  get all(): readonly Diagnostic[] {
    return this.#found;
  }
}
