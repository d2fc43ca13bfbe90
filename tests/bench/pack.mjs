/**
 * Quality of packing.
 *
 *   npm run bench:pack                                    the table: constructive, 0.2 s and 1 s an instance
 *   npm run bench:pack -- --seconds 5                     one more row
 *   npm run bench:pack -- --drawn SEED                    on instances drawn by the same recipe
 *   npm run bench:pack -- --batches SEED                   drawn batches of hundreds of copies, with and without limits
 *   npm run bench:pack -- --clock processor               seconds of the processor, where others use it too
 *   npm run bench:pack -- --instances FILE --variant O|R --seconds S --out FILE
 *                                                         packs a file's instances, writes a line of JSON each
 */
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { build } from 'esbuild';
import { MaxRectsPacker } from 'maxrects-packer';
import { drawBatches, drawInstances } from './recipe.mjs';

const classical = new URL('../../../shared/bench/class500.json', import.meta.url);
const { values } = parseArgs({
  options: {
    instances: { type: 'string' },
    variant: { type: 'string' },
    seconds: { type: 'string' },
    out: { type: 'string' },
    drawn: { type: 'string' },
    clock: { type: 'string' },
    batches: { type: 'string' },
  },
});

const clock = values.clock === 'processor' ? () => process.cpuUsage().user / 1000 : () => performance.now();
const { packInstance, packBatch, flawsOf } = await engine();
if (values.out !== undefined) packFile();
else if (values.batches !== undefined) batches(Number(values.batches));
else table();

/** `--instances FILE --variant O|R --seconds S --out FILE` */
function packFile() {
  const { instances } = JSON.parse(fs.readFileSync(values.instances, 'utf8'));
  const variant = values.variant ?? 'O';
  const seconds = Number(values.seconds ?? 1);
  warmUp();
  const out = fs.openSync(values.out, 'w');
  let used = 0;
  for (const instance of instances) {
    const { sheets, ms } = packInstance(instance, variant, seconds, clock);
    used += sheets.length;
    fs.writeSync(
      out,
      `${JSON.stringify({ id: instance.id, variant, ms: Math.round(ms * 10) / 10, sheets })}\n`,
    );
  }
  fs.closeSync(out);
  console.log(`${instances.length} instances, ${used} sheets, written to ${values.out}`);
}

function table() {
  const { instances, name } = chosenInstances();
  console.log(`${name}: ${instances.length} instances; ${os.cpus()[0].model}, ${process.version}`);
  console.log(`calibration: ${calibrate()} ms for 2^27 rounds of a loop\n`);
  warmUp();
  console.log(
    'effort          fixed: sheets  bound  proved   s      turning: sheets  bound  proved   s     steps/s',
  );
  const rows = [0, 0.2, 1, ...(values.seconds === undefined ? [] : [Number(values.seconds)])];
  for (const seconds of rows) {
    const [fixed, turning] = ['O', 'R'].map((variant) => runAll(instances, variant, seconds));
    const cells = ({ sheets, bound, proved, ms }) =>
      `${String(sheets).padStart(6)} ${String(bound).padStart(6)} ${String(proved).padStart(6)} ${(ms / 1000).toFixed(1).padStart(6)}`;
    const steps = fixed.steps + turning.steps;
    const rate = steps === 0 ? '' : Math.round((1000 * steps) / (fixed.ms + turning.ms));
    const effort = seconds === 0 ? 'constructive' : `${seconds} s each`;
    console.log(
      `${effort.padEnd(14)}        ${cells(fixed)}            ${cells(turning)} ${String(rate).padStart(10)}`,
    );
    for (const flaw of [...fixed.flaws, ...turning.flaws]) console.log(`FLAW ${flaw}`);
    if (fixed.flaws.length + turning.flaws.length > 0) process.exitCode = 1;
  }
  const [fixed, turning] = [false, true].map((mayTurn) => generalPacker(instances, mayTurn));
  console.log(
    `\nmaxrects-packer, the best of its settings: ${fixed.sheets} / ${turning.sheets} sheets; of its layouts ` +
      `${fixed.cuttable} / ${turning.cuttable} of ${instances.length} can be cut edge to edge`,
  );
}

/** Sheets above the bound by number of batches, the time, and the longest stretch between two yields. */
function batches(seed) {
  const limits = {
    'no limits': () => ({}),
    'least strip': ({ sheet }) => ({ leastStrip: Math.ceil(sheet[0] / 30) }),
    'a fine kerf, too': ({ sheet }) => ({ leastStrip: Math.ceil(sheet[0] / 30), kerf: '1/5' }),
    'longest cut': ({ sheet }) => ({ longestCut: Math.ceil(0.85 * sheet[0]) }),
    '2 rounds': () => ({ rounds: 2 }),
    '3 rounds': () => ({ rounds: 3 }),
  };
  const shared = drawBatches(seed).filter(({ sheet }) => sheet[1] < 0.85 * sheet[0]);
  console.log(
    `${shared.length} batches drawn with seed ${seed}, 20 000 steps; calibration ${calibrate()} ms`,
  );
  for (const [name, rulesFor] of Object.entries(limits)) {
    const over = new Map();
    let [ms, longest, used, bound] = [0, 0, 0, 0];
    for (const batch of shared) {
      const packed = packBatch(batch, rulesFor(batch), 20_000, clock);
      const above = packed.sheets - packed.bound;
      over.set(above, (over.get(above) ?? 0) + 1);
      ms += packed.ms;
      used += packed.sheets;
      bound += packed.bound;
      longest = Math.max(longest, packed.longest);
    }
    const spread = [...over].sort(([a], [b]) => a - b).map(([above, count]) => `${count} × +${above}`);
    console.log(
      `${name.padEnd(16)} ${used} sheets, bound ${bound}: ${spread.join(', ')}; ` +
        `${(ms / shared.length / 1000).toFixed(2)} s each, longest stretch ${Math.round(longest)} ms`,
    );
  }
}

function chosenInstances() {
  if (values.drawn !== undefined) {
    return { instances: drawInstances(Number(values.drawn)), name: `drawn with seed ${values.drawn}` };
  }
  const file = values.instances ?? classical;
  if (!fs.existsSync(file)) {
    console.log(
      '!! The classical instances are not at hand (they carry no licence). Drawing some instead.\n',
    );
    return { instances: drawInstances(1), name: 'drawn with seed 1' };
  }
  return { instances: JSON.parse(fs.readFileSync(file, 'utf8')).instances, name: 'the classical set' };
}

function runAll(instances, variant, seconds) {
  const sum = { sheets: 0, bound: 0, proved: 0, ms: 0, steps: 0, flaws: [] };
  for (const instance of instances) {
    const packed = packInstance(instance, variant, seconds, clock);
    sum.sheets += packed.sheets.length;
    sum.bound += packed.bound;
    sum.proved += packed.sheets.length === packed.bound ? 1 : 0;
    sum.ms += packed.ms;
    sum.steps += packed.steps;
    sum.flaws.push(...flawsIn(instance, variant, packed.sheets));
  }
  return sum;
}

/** Every part once, at its size, inside, apart, and cuttable from edge to edge. */
function flawsIn({ id, sheet, parts }, variant, sheets) {
  const flaws = [];
  const seen = parts.map(() => 0);
  for (const places of sheets) {
    const rectangles = places.map(([part, x, y, width, height]) => {
      seen[part]++;
      const [w, h] = parts[part];
      const isStraight = width === w && height === h;
      const isTurned = variant === 'R' && width === h && height === w;
      if (!isStraight && !isTurned) flaws.push(`${id}: part ${part} has another size`);
      return { x, y, width, height };
    });
    for (const flaw of flawsOf(rectangles, { width: sheet[0], height: sheet[1] }))
      flaws.push(`${id}: ${flaw}`);
  }
  seen.forEach((times, part) => {
    if (times !== 1) flaws.push(`${id}: part ${part} is placed ${times} times`);
  });
  return flaws;
}

/** A general rectangle packer, for comparison; its layouts mostly can't be cut from edge to edge. */
function generalPacker(instances, mayTurn) {
  let sheets = 0;
  let cuttable = 0;
  for (const { sheet, parts } of instances) {
    let best;
    for (const logic of [0, 1]) {
      for (const order of ['given', 'area', 'side', 'own']) {
        const options = { smart: false, pot: false, square: false, border: 0, allowRotation: mayTurn, logic };
        const packer = new MaxRectsPacker(sheet[0], sheet[1], 0, options);
        const list = parts.map(([width, height]) => ({ width, height, x: 0, y: 0 }));
        if (order === 'area') list.sort((a, b) => b.width * b.height - a.width * a.height);
        if (order === 'side') list.sort((a, b) => Math.max(b.width, b.height) - Math.max(a.width, a.height));
        if (order === 'own') packer.addArray(list);
        else for (const it of list) packer.add(it);
        if (best === undefined || packer.bins.length < best.length) best = packer.bins;
      }
    }
    sheets += best.length;
    const isCuttable = best.every((bin) => {
      // It marks what it has turned, but leaves the sides as they were.
      const rectangles = bin.rects.map(({ x, y, width, height, rot }) =>
        rot ? { x, y, width: height, height: width } : { x, y, width, height },
      );
      return flawsOf(rectangles, { width: sheet[0], height: sheet[1] }).length === 0;
    });
    if (isCuttable) cuttable++;
  }
  return { sheets, cuttable };
}

/** So that the first rows do not pay for the compiler. */
function warmUp() {
  for (const instance of drawInstances(9, { each: 1 })) packInstance(instance, 'R', 0.01);
}

/** A loop of whole numbers and memory, so that times of two machines can be set side by side. */
function calibrate() {
  const cells = new Int32Array(4096);
  const start = performance.now();
  let x = 1;
  for (let i = 0; i < 2 ** 27; i++) {
    x = (Math.imul(x, 1664525) + 1013904223) | 0;
    cells[x >>> 20] += i;
  }
  return Math.round(performance.now() - start + (cells[0] === x ? 1 : 0));
}

/** The engine's TypeScript, bundled into a folder of its own. */
async function engine() {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'cardwright-bench-'));
  const file = path.join(folder, 'engine.mjs');
  await build({
    entryPoints: [new URL('engine.ts', import.meta.url).pathname],
    bundle: true,
    format: 'esm',
    platform: 'node',
    outfile: file,
    logLevel: 'error',
  });
  const loaded = await import(pathToFileURL(file).href);
  fs.rmSync(folder, { recursive: true });
  return loaded;
}
