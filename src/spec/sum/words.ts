/** Words that are never a word of a name: sums hold them between names. */
export const dividingWords: readonly string[] = ['of', 'and', 'to', 'x', 'nearest'];

/** Words that mean something where a name could stand. */
export const takenWords: readonly string[] = [
  ...['rest', 'none', 'all', 'any', 'most', 'free'],
  ...['tile', 'square', 'bare', 'covered'],
];

/** What no measure may be called, since it means something else in a tile or a count. */
export const takenByMeasures: readonly string[] = ['wall', 'as fits', 'as needed'];

/** The names of the grid and of the tile in hand, which nobody has to define. */
export const groundWords: readonly string[] = [
  ...['square across', 'square along'],
  ...['tile across', 'tile along', 'tile height'],
];

export const mostOfName = 80;

/** Letters and digits, with hyphens and apostrophes inside; one apostrophe may end it. */
export const nameWord = "[\\p{L}0-9][\\p{L}\\p{M}0-9]*(?:['\\u2019-][\\p{L}\\p{M}0-9]+)*['\\u2019]?";
