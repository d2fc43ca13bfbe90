import type { Diagnostic, Place } from '../model/index.ts';

/**
 * Gathers what is wrong over a whole run, each fault once: a part that several tiles take up is worked out
 * for each of them, but its fault is one fault.
 */
export class Faults {
  readonly #all: Diagnostic[] = [];
  readonly #seen = new Set<string>();

  report(diagnostic: Diagnostic): void {
    const key = `${diagnostic.code}\n${keyOf(diagnostic.place)}\n${diagnostic.message}`;
    if (this.#seen.has(key)) return;
    this.#seen.add(key);
    this.#all.push(diagnostic);
  }

  get all(): readonly Diagnostic[] {
    return this.#all;
  }
}

function keyOf(place: Place): string {
  switch (place.kind) {
    case 'span':
      return `${place.span.source.path}\n${place.span.start}\n${place.span.end}`;
    case 'argument':
      return place.argument;
    default:
      return place.kind;
  }
}
