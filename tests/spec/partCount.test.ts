import { it } from 'vitest';
import { check } from './check.ts';

it('reads how many of a part, and what it is meant to say where that is misspelt', () => {
  check(`
loose:
  a: { of: card, size: [1, 1], count: as fits }
  b: { of: card, size: [1, 1], count: "as fits up to 60" }
  c: { of: card, size: [1, 1], count: as fits up to (2 x dozen) }
  d: { of: card, size: [1, 1], count: as fit }
#                                     ^^^^^^ error S39: "count" can't be "as fit"; did you mean "as fits"?
  e: { of: card, size: [1, 1], count: as fits 60 }
#                                     ^^^^^^^^^^ error S39: "count" can't be "as fits 60"; did you mean "as fits"?
  f: { of: card, size: [1, 1], count: as fits up to 2 x 12 }
#                                                     ^ error M23: "2 x 12" is a sum, or more than one measure
  g: { of: card, size: [1, 1], times: 4 }
#                              ^^^^^ error S34: unknown key "times" in a part; did you mean "count"?
`);
});
