import type { Diagnostic } from '../model/index.ts';

/** What was found wrong so far. Reading goes on behind a fault, so that one run tells them all. */
export class Faults {
  readonly #found: Diagnostic[] = [];
  isTorn = false;

  /** Gives undefined, which is what the reader of a faulty value has to give. */
  report(...diagnostics: readonly Diagnostic[]): undefined {
    this.#found.push(...diagnostics);
    return undefined;
  }

  /**
   * Something is lost that others lean on: a section, a name, a flag. What the next phases would say of the
   * rest would be noise from the same cause.
   */
  tear(): undefined {
    this.isTorn = true;
    return undefined;
  }

  get all(): readonly Diagnostic[] {
    return this.#found;
  }
}
