import type {
  Drawn,
  Length,
  OutlineCode,
  OutlineFacet,
  OutlineFacts,
  OutlineFault,
  Point,
  ShowLength,
} from '../model/index.ts';

export function fault<C extends OutlineCode>(
  code: C,
  facet: OutlineFacet,
  facts: (show: ShowLength) => OutlineFacts<C>,
): OutlineFault {
  // A fault of one code is one of the faults of all codes; the compiler can't see that through a function.
  return { code, facet, facts } as unknown as OutlineFault;
}

export function drawn<T>(value: T, faults: readonly OutlineFault[] = []): Drawn<T> {
  return { value, faults };
}

export function undrawn(...faults: readonly OutlineFault[]): Drawn<never> {
  return { value: undefined, faults };
}

/** The faults of a part of a description, as faults of the whole. */
export function within(facet: OutlineFacet, faults: readonly OutlineFault[]): readonly OutlineFault[] {
  return faults.map((it) => ({ ...it, facet: [...facet, ...it.facet] }));
}

/** A fault for each size that is not above zero. */
export function aboveZero(
  ...sizes: readonly (readonly [what: string, size: Length, facet: OutlineFacet])[]
): readonly OutlineFault[] {
  return sizes.flatMap(([what, size, facet]) =>
    size.numerator > 0n ? [] : [fault('T01', facet, (show) => ({ what, found: show(size) }))],
  );
}

export function showPoint({ x, y }: Point, show: ShowLength): string {
  return `${show(x, 'near')}, ${show(y, 'near')}`;
}
