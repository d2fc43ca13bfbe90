// Our exact arithmetic beside fraction.js, on the work of a batch: sums and differences of ruled lengths,
// comparisons, divisions by a count, inches to millimetres. Run: node tests/bench/rational.mjs
// Both do the same operations on the same operands in one process, turn by turn; the figure is the ratio.
import { build } from 'esbuild';
import Fraction from 'fraction.js';

const { outputFiles } = await build({
  entryPoints: [new URL('../../src/measure/rational.ts', import.meta.url).pathname],
  bundle: true,
  format: 'esm',
  write: false,
});
const ours = await import(
  `data:text/javascript;base64,${Buffer.from(outputFiles[0].contents).toString('base64')}`
);

// A fixed sequence, so that every run does the same work.
let state = 1;
const next = (below) => {
  state = (state * 48271) % 2147483647;
  return BigInt(state % below);
};
const denominators = [1n, 2n, 4n, 8n, 16n, 32n, 64n, 5n];
const pairs = Array.from({ length: 4000 }, () => [
  next(6000) + 1n,
  denominators[Number(next(denominators.length))],
  next(6000) + 1n,
  denominators[Number(next(denominators.length))],
]);
const operandsOurs = pairs.map(([a, b, c, d]) => [ours.rational(a, b), ours.rational(c, d)]);
const operandsTheirs = pairs.map(([a, b, c, d]) => [new Fraction(a, b), new Fraction(c, d)]);
const [inchOurs, inchTheirs] = [ours.rational(127n, 5n), new Fraction(127n, 5n)];
const [threeOurs, threeTheirs] = [ours.rational(3n), new Fraction(3n)];

const work = {
  'a + b': [([a, b]) => ours.add(a, b), ([a, b]) => a.add(b)],
  'a − b': [([a, b]) => ours.subtract(a, b), ([a, b]) => a.sub(b)],
  'a < b': [([a, b]) => ours.compareRationals(a, b), ([a, b]) => a.compare(b)],
  'a × 127/5': [([a]) => ours.multiply(a, inchOurs), ([a]) => a.mul(inchTheirs)],
  'a ÷ 3': [([a]) => ours.divide(a, threeOurs), ([a]) => a.div(threeTheirs)],
};

const rounds = 30;
const time = (operation, operands) => {
  const start = process.hrtime.bigint();
  for (const pair of operands) operation(pair);
  return Number(process.hrtime.bigint() - start);
};
const median = (times) => [...times].sort((a, b) => a - b)[times.length >> 1];

console.log(`median of ${rounds} rounds of ${pairs.length}; node ${process.version}`);
console.log('operation     ours ns   fraction.js ns   ratio');
const ratios = [];
for (const [name, [our, their]] of Object.entries(work)) {
  const [mine, others] = [[], []];
  for (let round = 0; round < rounds; round++) {
    mine.push(time(our, operandsOurs));
    others.push(time(their, operandsTheirs));
  }
  const [a, b] = [median(mine) / pairs.length, median(others) / pairs.length];
  ratios.push(b / a);
  console.log(
    `${name.padEnd(12)}${a.toFixed(0).padStart(9)}${b.toFixed(0).padStart(17)}${(b / a).toFixed(1).padStart(8)}`,
  );
}
const mean = Math.exp(ratios.reduce((all, it) => all + Math.log(it), 0) / ratios.length);
console.log(`fraction.js takes ${mean.toFixed(1)} times as long (geometric mean)`);
