/**
 * Draws instances by the published recipes, seeded.
 *
 * Classes 1–6: J. O. Berkey, P. Y. Wang, Two-dimensional finite bin-packing algorithms, J. Opl Res. Soc. 38
 * (1987). Classes 7–10: S. Martello, D. Vigo, Exact solution of the two-dimensional finite bin packing
 * problem, Management Science 44 (1998). Figures of the recipes from memory.
 */

/** Sides of the sheet, and the range of both sides of a part. */
const berkeyWang = [
  [10, 1, 10],
  [30, 1, 10],
  [40, 1, 35],
  [100, 1, 35],
  [100, 1, 100],
  [300, 1, 100],
];

const side = 100;
/** Ranges of width and height on a sheet of 100 × 100. */
const martelloVigo = [
  [Math.ceil((2 * side) / 3), side, 1, side / 2],
  [1, side / 2, Math.ceil((2 * side) / 3), side],
  [side / 2, side, side / 2, side],
  [1, side / 2, 1, side / 2],
];

/** Ten instances for each class and each of n = 20, 40, 60, 80, 100; fewer with `each`. */
export function drawInstances(seed, { each = 10 } = {}) {
  const instances = [];
  for (let kind = 1; kind <= 10; kind++) {
    for (const n of [20, 40, 60, 80, 100]) {
      for (let i = 1; i <= each; i++) {
        const dice = diceFrom(seed * 1_000_003 + kind * 10_007 + n * 101 + i);
        instances.push({
          id: `r${seed}-c${kind}-n${n}-${i}`,
          class: kind,
          n,
          ...draw(kind, n, dice),
        });
      }
    }
  }
  return instances;
}

/** Batches of 5 to 20 kinds with counts of 30 to 200 on one size of sheet; our own recipe, no source. */
export function drawBatches(seed, { each = 12 } = {}) {
  return Array.from({ length: each }, (_, i) => {
    const dice = diceFrom(seed * 1_000_003 + i);
    const between = (low, high) => low + Math.floor(((high - low + 1) * dice()) / 0x100000000);
    const sheet = [between(250, 1000), between(180, 700)].sort((a, b) => b - a);
    const kinds = Array.from({ length: between(5, 20) }, () => ({
      size: sheet.map((side) => between(Math.ceil(side / 12), Math.ceil(side / 2))),
      count: between(30, 200),
      mayTurn: between(0, 1) === 1,
    }));
    return { sheet, kinds, kerf: between(0, 2) };
  });
}

function draw(kind, n, dice) {
  const between = (low, high) => low + Math.floor(((high - low + 1) * dice()) / 0x100000000);
  if (kind <= 6) {
    const [sheet, low, high] = berkeyWang[kind - 1];
    return {
      sheet: [sheet, sheet],
      parts: Array.from({ length: n }, () => [between(low, high), between(low, high)]),
    };
  }
  const parts = Array.from({ length: n }, () => {
    const others = [0, 1, 2, 3].filter((type) => type !== kind - 7);
    const type = between(1, 100) <= 70 ? kind - 7 : others[between(0, 2)];
    const [lowWidth, highWidth, lowHeight, highHeight] = martelloVigo[type];
    return [between(lowWidth, highWidth), between(lowHeight, highHeight)];
  });
  return { sheet: [side, side], parts };
}

/** Whole numbers of 32 bits: a counter, mixed (the finisher of MurmurHash3; from memory). */
export function diceFrom(seed) {
  let counter = seed | 0;
  return () => {
    counter = (counter + 0x9e3779b9) | 0;
    let x = counter;
    x = Math.imul(x ^ (x >>> 16), 0x85ebca6b);
    x = Math.imul(x ^ (x >>> 13), 0xc2b2ae35);
    return (x ^ (x >>> 16)) >>> 0;
  };
}
