/** Makes something of each, with a pause after it. */
export function* oneByOne<From, To>(
  all: readonly From[],
  make: (it: From, index: number) => To,
): Generator<undefined, readonly To[]> {
  const made: To[] = [];
  for (const [index, it] of all.entries()) {
    made.push(make(it, index));
    yield;
  }
  return made;
}
