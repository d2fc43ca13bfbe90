/**
 * How long after a save `check --watch` has said all it has to say, in milliseconds: `node tests/bench/watch.mjs
 * KIT [SAVES]`, the median. Saves go into the file itself and by a new file in its place, by turns.
 */
import { spawn } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const [kit = 'specs/hillside.yaml', saves = '15'] = process.argv.slice(2);
const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'cardwright-bench-'));
for (const it of ['specs', 'shared']) cpSync(join(root, it), join(folder, it), { recursive: true });
const path = join(folder, kit);
const text = readFileSync(path, 'utf8');

const child = spawn(process.execPath, [join(root, 'bin/cardwright.js'), 'check', kit, '--watch'], {
  cwd: folder,
});
let [said, saidAt] = ['', 0];
for (const stream of [child.stdout, child.stderr]) {
  stream.on('data', (chunk) => {
    said += chunk;
    saidAt = performance.now();
  });
}
const pause = (ms) => new Promise((done) => setTimeout(done, ms));

/** Until something has been said, and then nothing for a while. */
async function saidAll() {
  for (const started = performance.now(); said === '' || performance.now() - saidAt < 300; await pause(20)) {
    if (performance.now() - started > 20_000) throw new Error(`nothing was said of ${kit}`);
  }
}

await saidAll();
const times = [];
for (let save = 0; save < Number(saves); save++) {
  said = '';
  const next = `${text}# ${save}\n`;
  if (save % 2 === 0) writeFileSync(path, next);
  else writeFileSync(`${path}.new`, next);
  if (save % 2 === 1) renameSync(`${path}.new`, path);
  const savedAt = performance.now();
  await saidAll();
  if (!said.includes('has changed')) throw new Error(`a save went unseen: ${said}`);
  times.push(saidAt - savedAt);
}
child.kill('SIGINT');
const code = await new Promise((done) => child.on('close', done));
if (code !== 130) throw new Error(`ended with ${code}, not 130`);
rmSync(folder, { recursive: true });
console.log(times.sort((a, b) => a - b)[Math.floor(times.length / 2)]);
