/**
 * The budgets, as ratios within one run: `npm run bench`. Exit code 1 when one is over its bar.
 *
 *   npm run bench -- --pairs 21      more pairs, for a quieter figure
 *   npm run bench -- --only check    rows whose name holds that word
 *
 * Every row is timed in pairs, the command and bare node one after the other, so that a busy spell hits
 * both; the row's figure is the median over the pairs.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { largeKit, measureLines } from './converting.mjs';
import { largeEvening } from './evening.mjs';
import { eveningWithFillers } from './fillers.mjs';

const { values } = parseArgs({
  options: { pairs: { type: 'string', default: '11' }, only: { type: 'string', default: '' } },
});
const pairs = Number(values.pairs);
const root = fileURLToPath(new URL('../..', import.meta.url));
const program = join(root, 'bin/cardwright.js');
const folder = mkdtempSync(join(tmpdir(), 'cardwright-bench-'));
const rows = [];

// Budget: at most 50 ms over bare node.
for (const argv of [['--help'], ['--version'], ['completion', 'bash'], ['explain', 'C01']]) {
  row(argv.join(' '), () => {
    const { over, bare } = timed(argv);
    return { figure: over, bar: 50, unit: 'ms over', bare };
  });
}
row('check, demo kit', () => ratio(['check', 'specs/hillside.yaml'], 3));
for (const kit of ['specs/hillside.yaml', 'specs/tram-stop.yaml']) {
  row(`check --watch, ${kit}`, () => {
    const { stdout } = run([join(root, 'tests/bench/watch.mjs'), kit, `${pairs}`]);
    return { figure: Number(stdout), bar: 150, unit: 'ms from save' };
  });
}
row('cut, demo session to PDF', () =>
  ratio(['cut', 'examples/vineyard.yaml', '-o', join(folder, 'v.pdf'), '--force'], 6),
);

row('10 000 parts of 8 sizes', () => {
  const { seconds, megabytes } = batch(10_000);
  return [
    { figure: seconds, bar: 2, unit: 's' },
    { figure: megabytes, bar: 250, unit: 'MB', name: '… their memory' },
  ];
});
row('100 000 of the same', () => {
  const few = batch(10_000).seconds;
  const many = batch(100_000).seconds;
  return { figure: many / few, bar: 3, unit: '× 10 000' };
});
row('check, 200 tiles × 30 parts', () => {
  const path = builds(200, 3, 9);
  const { ms, megabytes } = peakOf(['check', path, '-q']);
  const bare = median(Array.from({ length: 3 }, () => run(['-e', '0']).ms));
  return [
    { figure: ms / bare, bar: 12, unit: '× bare node', bare },
    { figure: megabytes, bar: 200, unit: 'MB', name: '… their memory' },
  ];
});
// Growth, in time of the processor, which a busy machine disturbs least: near-linear is near 8, and near 4.
row('check, 50 to 400 tiles', () => growth([50, 100, 200, 400], 'tiles', (tiles) => builds(tiles, 3, 9), 10));
row('check, 30 to 120 parts a tile', () =>
  growth([30, 60, 120], 'parts', (parts) => builds(50, 3, parts / 3 - 1), 5),
);
// Four times the parts in one tile: near-linear is near 4, comparing all with all would be 16.
row('four times the parts of a tile', () => {
  const surplus = (posts) => {
    const path = builds(1, posts, posts);
    const both = Array.from(
      { length: 5 },
      () => run([program, 'check', path, '-q']).ms - run(['-e', '0']).ms,
    );
    return median(both);
  };
  const empty = surplus(1);
  return { figure: (surplus(80) - empty) / (surplus(40) - empty), bar: 6, unit: '×' };
});
// Sixty tiles, ten each of six; and an evening that nobody cuts in one: sixty of which hardly two parts are alike.
const usual = { tiles: 6, parts: 40, offcuts: 30, made: 10 };
const motley = { tiles: 60, parts: 40, offcuts: 30 };
const alike = { ...motley, sizes: 30 };
for (const [evening, name] of [
  [usual, '60 tiles × 40 parts, of 6 kinds'],
  [motley, '60 tiles × 40 parts, all differ'],
  [alike, '60 tiles × 40 parts, of 30 sizes'],
]) {
  row(`count, ${name}`, () => ratio(['count', largeEvening(folder, evening)], 4));
  row(`cut, ${name}`, () => {
    const argv = [
      program,
      'cut',
      largeEvening(folder, evening),
      '-o',
      join(folder, 'e.txt'),
      '--force',
      '-q',
    ];
    return { figure: median(Array.from({ length: 3 }, () => run(argv).ms)) / 1000, bar: 3, unit: 's' };
  });
}
row('growth: count of a hundred times as many', () => {
  // Of each tile a hundred; and ten times the tiles, since a file has an end: near-linear is near 10.
  const cost = (more) => cpuOf(['count', largeEvening(folder, { ...motley, ...more }), '-q']);
  const bare = median(Array.from({ length: 3 }, () => cpuOf(['--version'])));
  const once = median(Array.from({ length: 3 }, () => cost({}))) - bare;
  return [
    { figure: (cost({ made: 100 }) - bare) / once, bar: 1.5, unit: '× as long' },
    {
      figure: (cost({ tiles: 600, kits: 10 }) - bare) / once,
      bar: 15,
      unit: '× as long',
      name: '… of ten times the tiles',
    },
  ];
});
row('growth: cut of many times as many', () => {
  const cost = (evening) =>
    cpuOf(['cut', largeEvening(folder, evening), '-o', join(folder, 'e.txt'), '--force', '-q']);
  const once = cost(usual);
  return [
    { figure: cost({ ...usual, made: 1000 }) / once, bar: 100, unit: '× as long', name: '… a hundred times' },
    {
      figure: cost({ ...motley, made: 20 }) / cost(motley),
      bar: 20,
      unit: '× as long',
      name: '… twenty, all differ',
    },
  ];
});
// Thousands of fillers are found, cut and counted in not much more time than it takes to cut the parts alone.
for (const limits of [false, true]) {
  row(`four fillers${limits ? ' within limits' : ''}`, () => {
    const alone = eveningWithFillers(folder, { fillers: 0, limits });
    const filled = eveningWithFillers(folder, { fillers: 4, limits });
    const both = Array.from(
      { length: 3 },
      () =>
        cpuOf(['count', filled, '-q']) / cpuOf(['cut', alone, '-o', join(folder, 'f.txt'), '--force', '-q']),
    );
    return { figure: median(both), bar: 2, unit: '× parts alone' };
  });
}
// As many rectangles of the same sizes, in time of the processor.
for (const names of [500, 25]) {
  row(`500 outlined parts, ${names} outlines, to PDF`, () => {
    const cost = (path) => cpuOf(['cut', path, '-o', join(folder, 'o.pdf'), '--force', '-q']);
    const [drawn, plain] = [outlined(names, true), outlined(names, false)];
    const both = Array.from({ length: 3 }, () => cost(drawn) / cost(plain));
    return { figure: median(both), bar: 2, unit: '× rectangles' };
  });
}
row('convert -, 100 000 measures', () => {
  const few = streamed(100_000);
  const many = streamed(400_000);
  return [
    { figure: few.seconds, bar: 1.5, unit: 's over' },
    { figure: many.megabytes / few.megabytes, bar: 1.5, unit: '× as much', name: '… memory of 400 000' },
  ];
});
row('convert, a kit of 1 MB', () => {
  const path = join(folder, 'large.yaml');
  writeFileSync(path, largeKit());
  const alone = join(root, 'tests/bench/yamlAlone.mjs');
  const both = Array.from({ length: 5 }, () => ({
    ours: run([program, 'convert', path, '-o', join(folder, 'large mm.yaml'), '--force', '-q']).ms,
    theirs: run([alone, path]).ms,
  }));
  return { figure: median(both.map(({ ours, theirs }) => ours / theirs)), bar: 2, unit: '× yaml alone' };
});
row('PDF, beside pdfkit alone', pdfCost);
row('PDF, files read otherwise', () => {
  const { stdout } = spawnSync(process.execPath, [join(root, 'tests/bench/readers.mjs')], {
    encoding: 'utf8',
  });
  if (stdout.startsWith('SKIPPED: ')) return { skipped: stdout.slice('SKIPPED: '.length).trim() };
  const lines = stdout
    .trim()
    .split('\n')
    .filter((it) => /^\S/.test(it));
  console.log(lines.map((it) => `  ${it}`).join('\n'));
  return { figure: lines.filter((it) => !it.endsWith('both readers agree')).length, bar: 0, unit: 'files' };
});

console.log(
  `\n${rows.some(({ isOver }) => isOver) ? 'over the bar' : 'all within their bars'} (node ${process.version}, ${pairs} pairs)`,
);
rmSync(folder, { recursive: true });
process.exitCode = rows.some(({ isOver }) => isOver) ? 1 : 0;

function row(name, measure) {
  if (!name.includes(values.only)) return;
  for (const { figure, bar, unit, bare, name: own = name, skipped } of [measure()].flat()) {
    if (skipped !== undefined) {
      console.log(`${own.padEnd(28)}  SKIPPED: ${skipped}`);
      continue;
    }
    const isOver = !(figure <= bar);
    rows.push({ isOver });
    const shown = `${figure.toFixed(figure < 10 ? 2 : 0).padStart(7)} ${unit}`;
    const beside = bare === undefined ? '' : `  (bare node ${bare.toFixed(0)} ms)`;
    console.log(
      `${own.padEnd(28)} ${shown.padEnd(18)} bar ${String(bar).padStart(4)}  ${isOver ? 'OVER' : 'ok'}${beside}`,
    );
  }
}

function ratio(argv, bar) {
  const { times, bare } = timed(argv);
  return { figure: times, bar, unit: '× bare node', bare };
}

/** Medians over the pairs: the surplus over bare node, and the ratio. */
function timed(argv) {
  const both = Array.from({ length: pairs }, () => ({
    whole: run([program, ...argv]).ms,
    bare: run(['-e', '0']).ms,
  }));
  return {
    over: median(both.map(({ whole, bare }) => whole - bare)),
    times: median(both.map(({ whole, bare }) => whole / bare)),
    bare: median(both.map(({ bare }) => bare)),
  };
}

function run(argv, environment = {}) {
  const started = process.hrtime.bigint();
  const ended = spawnSync(process.execPath, argv, {
    cwd: root,
    env: { ...process.env, ...environment },
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  });
  const ms = Number(process.hrtime.bigint() - started) / 1e6;
  if (ended.status !== 0) throw new Error(`${argv.join(' ')} ended with ${ended.status}: ${ended.stderr}`);
  return { ms, stdout: ended.stdout, stderr: ended.stderr };
}

function median(figures) {
  const sorted = [...figures].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)];
}

/** One material, eight sizes, normal effort, to text: seconds over bare node and the most memory held. */
function batch(count) {
  const sizes = [
    '3, 3',
    '3, 2 7/8',
    '3, 1 1/2',
    '2 1/2, 3/4',
    '1 1/4, 1 1/4',
    '2, 1',
    '3, 3/8',
    '1 15/16, 7/16',
  ];
  const parts = sizes.map(
    (size, i) => `  part ${i + 1}: { of: board, size: [${size}], count: ${count / sizes.length} }`,
  );
  const path = join(folder, `${count}.yaml`);
  writeFileSync(
    path,
    `cardwright: session\nunits: in\nmaterials: { board: { thickness: 1/16 } }\nsheets: { board: [{ size: [24, 16] }] }\ncutting: { trim: 1/8 }\nloose:\n${parts.join('\n')}\n`,
  );
  // The process says itself how much memory it held at most, as it ends.
  const teller =
    "data:text/javascript,process.on('exit',()=>process.stderr.write('peak='+process.resourceUsage().maxRSS))";
  const runs = Array.from({ length: 3 }, () => {
    const { ms, stderr } = run([
      `--import=${teller}`,
      program,
      'cut',
      path,
      '-o',
      join(folder, 'b.txt'),
      '--force',
      '-q',
    ]);
    return { ms: ms - run(['-e', '0']).ms, megabytes: Number(/peak=(\d+)/.exec(stderr)[1]) / 1024 };
  });
  return {
    seconds: median(runs.map(({ ms }) => ms)) / 1000,
    megabytes: median(runs.map(({ megabytes }) => megabytes)),
  };
}

/** 500 parts under so many names, each with an outline of its own, or all plain rectangles of the same sizes. */
function outlined(names, isDrawn) {
  const part = (i) => {
    const [length, width] = [40 + (i % 37), 18 + (i % 11)];
    const drawn = [
      `size: [${length}, ${width}], cuts: [{ hole: { arched: { width: ${8 + (i % 5)}, sides: 3, rise: ${2 + (i % 3)} } }, bottom: 4 }, { round: { top left: 3, top right: 3 } }]`,
      `outline: { through: [[0, ${4 + (i % 5)}], [20, ${9 + (i % 3)}], [${length}, ${width}]], ends: flat }`,
      `outline: { path: [[0, 0], [${length}, 0], { arc: [${length}, ${width}], rise: 2, swells: left }, [0, ${width}]] }`,
      `outline: { polygon: [[0, 0], [${length}, 0], [${length}, ${width}], [${5 + (i % 7)}, ${width - 3}]] }`,
    ][i % 4];
    const shape = isDrawn ? drawn : `size: [${length}, ${width}]`;
    return `  part ${i}: { of: board, ${shape}, count: ${500 / names} }`;
  };
  const path = join(folder, `outlined ${names} ${isDrawn}.yaml`);
  writeFileSync(
    path,
    `cardwright: session\nunits: mm\nmaterials: { board: { thickness: 2 } }\nsheets: { board: [{ size: [600, 400] }] }\nloose:\n${Array.from({ length: names }, (_, i) => part(i)).join('\n')}\n`,
  );
  return path;
}

/** Tiles of three boards and a field of posts, `rows` by `posts`, each tile with its own spacing. */
function builds(tiles, rows, posts) {
  const tile = (number) => `  tile ${number}:
    parts:
      bed: { of: board, size: [300, 300] }
      post: { of: board, size: [2, 2], lies: yes, floor: no }
    build: { up: [bed, bed, bed, { along: [{ across: [{ part: post, times: ${posts}, apart: 0.${1 + (number % 7)} }], to: free, times: ${rows}, apart: 1 }], to: free }] }
    edges: { front: 6, back: 6, left: 6, right: 6 }
`;
  const path = join(folder, `builds ${tiles} ${posts}.yaml`);
  writeFileSync(
    path,
    `cardwright: kit\nunits: mm\ngrid: { square: 300 }\nmaterials: { board: { thickness: 2 } }\nsheets: { board: [{ size: [1200, 1200] }] }\ntiles:\n${Array.from({ length: tiles }, (_, i) => tile(i)).join('')}`,
  );
  return path;
}

/** How many times as long the last takes as the first, beside what a check of next to nothing takes. */
function growth(steps, what, fileOf, bar) {
  const cost = (path) => median(Array.from({ length: 3 }, () => cpuOf(['check', path, '-q'])));
  const empty = cost(builds(1, 1, 1));
  const costs = steps.map((step) => cost(fileOf(step)) - empty);
  const list = costs.map((ms, i) => `${steps[i]} ${what}: ${ms.toFixed(0)}`).join(', ');
  console.log(`${''.padEnd(28)} ${list} ms`);
  return { figure: costs.at(-1) / costs[0], bar, unit: '× the first' };
}

/** Milliseconds of the processor, all threads. */
function cpuOf(argv) {
  const teller =
    "data:text/javascript,process.on('exit',()=>{const u=process.resourceUsage();process.stderr.write('cpu='+(u.userCPUTime+u.systemCPUTime))})";
  return Number(/cpu=(\d+)/.exec(run([`--import=${teller}`, program, ...argv]).stderr)[1]) / 1000;
}

/** So many measures from standard input: seconds over bare node, and the most memory held. */
function streamed(count) {
  const teller =
    "data:text/javascript,process.on('exit',()=>process.stderr.write('peak='+process.resourceUsage().maxRSS))";
  const input = measureLines(count);
  const runs = Array.from({ length: 3 }, () => {
    const bare = run(['-e', '0']).ms;
    const started = process.hrtime.bigint();
    const argv = [`--import=${teller}`, program, 'convert', '-'];
    const { stderr, status } = spawnSync(process.execPath, argv, {
      input,
      maxBuffer: 1 << 28,
      encoding: 'utf8',
    });
    if (status !== 0) throw new Error(`convert - ended with ${status}: ${stderr}`);
    const ms = Number(process.hrtime.bigint() - started) / 1e6;
    return { seconds: (ms - bare) / 1000, megabytes: Number(/peak=(\d+)/.exec(stderr)[1]) / 1024 };
  });
  return {
    seconds: median(runs.map(({ seconds }) => seconds)),
    megabytes: median(runs.map(({ megabytes }) => megabytes)),
  };
}

/** Milliseconds and the most memory held, medians of three. */
function peakOf(argv) {
  // The process says itself how much memory it held at most, as it ends.
  const teller =
    "data:text/javascript,process.on('exit',()=>process.stderr.write('peak='+process.resourceUsage().maxRSS))";
  const runs = Array.from({ length: 3 }, () => {
    const { ms, stderr } = run([`--import=${teller}`, program, ...argv]);
    return { ms, megabytes: Number(/peak=(\d+)/.exec(stderr)[1]) / 1024 };
  });
  return { ms: median(runs.map(({ ms }) => ms)), megabytes: median(runs.map(({ megabytes }) => megabytes)) };
}

/** What a PDF costs above drawing as many primitives of the same kinds with pdfkit directly. */
function pdfCost() {
  const script = join(root, 'tests/bench/pdf.mjs');
  try {
    readFileSync(script);
  } catch {
    return { skipped: 'tests/bench/pdf.mjs is not there' };
  }
  const { stdout, stderr } = run([script]);
  console.log(stderr.trimEnd());
  const { ratio, megabytes, bytes } = JSON.parse(stdout);
  return [
    { figure: ratio, bar: 1.5, unit: '× pdfkit alone' },
    { figure: megabytes, bar: 250, unit: 'MB', name: '… its memory' },
    { figure: bytes / 2 ** 20, bar: 3, unit: 'MB', name: '… its file' },
  ];
}
