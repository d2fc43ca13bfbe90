/**
 * A generator of whole numbers that gives the same row on every machine.
 *
 * @source  G. Marsaglia, Xorshift RNGs, Journal of Statistical Software 8 (2003), triple 13, 17, 5; from memory
 */
export class Dice {
  private state: number;

  constructor(seed: number) {
    this.state = (Math.imul(seed, 0x9e3779b1) ^ 0x5bd1e995) | 0 || 1;
  }

  /** A whole number from 0 up to, but not with, `limit` (at most 2^20). */
  below(limit: number): number {
    let x = this.state;
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    this.state = x;
    return Math.floor(((x >>> 8) * limit) / 0x1000000);
  }

  /** True in `percent` of a hundred throws. */
  chance(percent: number): boolean {
    return this.below(100) < percent;
  }
}

const patienceSteps = 1024;

/**
 * How much worse a step may be, in 1/256 of the temperature: quantiles of the exponential distribution, so
 * that a step of loss d passes with the chance exp(−d / temperature). Built from + × ÷ alone, which give
 * the same bits everywhere; a library's exponential need not.
 *
 *   −ln((i + ½) / n), from one entry to the next by ln((i + 3/2) / (i + ½)) = 2 · artanh(1 / (2i + 2))
 */
export const patience: Int32Array = (() => {
  const table = new Int32Array(patienceSteps);
  // The last entry is −ln(1 − 1/(2n)), close to 0; going down adds one difference after the other.
  let sum = 1 / (2 * patienceSteps);
  for (let i = patienceSteps - 1; i >= 0; i--) {
    table[i] = Math.floor(sum * 256);
    const x = 1 / (2 * i);
    if (i > 0) sum += 2 * x * (1 + (x * x) / 3 + (x * x * x * x) / 5 + (x * x * x * x * x * x) / 7);
  }
  return table;
})();

/** @returns  the loss that the next step may show */
export function drawPatience(dice: Dice, temperature: number): number {
  return Math.floor((temperature * patience[dice.below(patienceSteps)]!) / 256);
}
