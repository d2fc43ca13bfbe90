// The demo: cuts the vineyard session to a PDF and a text sheet, and says where they are.
import './ready.mjs';
import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const folder = join(root, 'dist', 'demo');
mkdirSync(folder, { recursive: true });
const pdf = join(folder, 'vineyard.pdf');
const text = join(folder, 'vineyard.txt');

execFileSync(
  process.execPath,
  ['bin/cardwright.js', 'cut', 'examples/vineyard.yaml', '-o', pdf, '-o', text, '--force', '--quiet'],
  { cwd: root, stdio: ['ignore', 'inherit', 'inherit'] },
);
const head = readFileSync(text, 'utf8').split('\n').slice(0, 12);
console.log(`
${head.map((line) => `  ${line}`.trimEnd()).join('\n')}
  …

The whole evening is in
  ${pdf}
  ${text}

Try next
  node bin/cardwright.js count examples/vineyard.yaml
  node bin/cardwright.js cut specs/hillside.yaml --make 'retaining wall=6'
  node bin/cardwright.js new my-kit.yaml
  node bin/cardwright.js help`);
