// Keeps what V8 makes of the scripts in dist/ when the usual commands run, so that a start need not compile them:
//
//   node .ci/compile.mjs ENTRY FOLDER
//
// Runs the commands in this process, on files that ship with the program; the build throws away what they print.
import { mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import nodeModule from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { setFlagsFromString } from 'node:v8';
import { Script } from 'node:vm';

const root = fileURLToPath(new URL('..', import.meta.url));
const dist = join(root, 'dist');
const [entry, folder] = process.argv.slice(2);
const printed = mkdtempSync(join(tmpdir(), 'cardwright-build-'));

// What is loaded costs time whether it is run or not. So of a script that a check loads, only what a check runs is
// kept, and a cut compiles the rest of it itself: that is little beside what it does.
const quick = [
  ['--help'],
  ['--version'],
  ['help', 'cut'],
  ['completion', 'bash'],
  ['explain', 'C01'],
  ['convert', '2 3/8 in'],
  ['new'],
  ['check', 'specs/hillside.yaml'],
  ['check', 'specs/tram-stop.yaml', '--json'],
  ['check', 'there is no such file.yaml'],
  ['check', 'there is no such file.yaml', '--color', 'always'],
  ['count', 'examples/vineyard.yaml'],
];
const slow = [
  ['masters', 'specs/hillside.yaml'],
  ['cut', 'examples/tram-stop.yaml', '--json'],
  ['cut', 'examples/vineyard.yaml', '--color', 'always'],
  ['cut', 'examples/vineyard.yaml', '-o', join(printed, 'sheets.pdf')],
  ['masters', 'specs/hillside.yaml', '-o', join(printed, 'masters/')],
];

// The same as in bin/cardwright.js, or V8 would not trust the code.
const flags = {
  20: ['--interrupt-budget=500000', '--no-allocation-site-pretenuring'],
  22: ['--no-allocation-site-pretenuring'],
};
for (const flag of flags[Number.parseInt(process.versions.node, 10)] ?? []) setFlagsFromString(flag);

const scripts = new Map();
const modules = new Map();
const outside = nodeModule.createRequire(import.meta.url);
const require = (name) => {
  if (!name.startsWith('./')) return outside(name);
  const known = modules.get(name);
  if (known !== undefined) return known.exports;
  const filename = join(dist, name);
  const script = new Script(nodeModule.wrap(readFileSync(filename, 'latin1')), { filename });
  const module = { exports: {} };
  scripts.set(name, script);
  modules.set(name, module);
  script.runInThisContext()(module.exports, require, module, filename, dist);
  return module.exports;
};

process.chdir(root);
const { start } = require(`./${entry}`);
const kept = new Map();
for (const commands of [quick, slow]) {
  // What has not run for a while would be dropped. The flag is taken back, or V8 would not trust the code either.
  setFlagsFromString('--no-flush-bytecode');
  for (const argv of commands) await run(argv);
  setFlagsFromString('--flush-bytecode');
  for (const [name, script] of scripts) if (!kept.has(name)) kept.set(name, script.createCachedData());
}
// A program that fails has to be built all the same, or nobody could look for the fault.
process.exitCode = 0;
rmSync(printed, { recursive: true });
mkdirSync(folder, { recursive: true });
for (const [name, data] of kept) {
  const beside = join(folder, `.${name}.${process.pid}`);
  writeFileSync(beside, data);
  renameSync(beside, join(folder, `${name}.bin`));
}

async function run(argv) {
  process.argv.splice(2, Infinity, ...argv);
  await start();
  if (process.exitCode === 70) process.stderr.write(`BUG: cardwright ${argv.join(' ')}\n`);
}
