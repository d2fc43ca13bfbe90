// Makes a clone ready to run: installs what the lockfile says where that is not done or out of date, and
// builds where the sources are newer than the bundle.
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const installed = join(root, 'node_modules/.package-lock.json');
const built = join(root, 'dist/built');

if (!existsSync(installed) || timeOf(installed) < timeOf(join(root, 'package-lock.json'))) {
  say('installing what package-lock.json lists …');
  execFileSync(process.platform === 'win32' ? 'npm.cmd' : 'npm', ['ci', '--no-audit', '--no-fund'], {
    cwd: root,
    stdio: ['ignore', 'inherit', 'inherit'],
    shell: process.platform === 'win32',
  });
}
const sources = [
  ...['src', '.ci/build.mjs', '.ci/compile.mjs', 'package.json'].map((it) => join(root, it)),
  installed,
];
if (!existsSync(built) || Math.max(...sources.map(newest)) > timeOf(built)) {
  say('building …');
  execFileSync(process.execPath, [join(root, '.ci/build.mjs')], { cwd: root, stdio: 'inherit' });
}

function timeOf(path) {
  return statSync(path).mtimeMs;
}

/** When anything at or below a path last changed. */
function newest(path) {
  if (!statSync(path).isDirectory()) return timeOf(path);
  return Math.max(timeOf(path), ...readdirSync(path).map((it) => newest(join(path, it))));
}

function say(text) {
  console.log(`cardwright: ${text}`);
}
