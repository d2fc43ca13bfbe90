#!/usr/bin/env node
import { existsSync } from 'node:fs';
import module from 'node:module';
import { setFlagsFromString } from 'node:v8';

// Compiling for speed begins later than is usual: an evening's run ends before most of it would pay, and it takes a
// third of the processor's time. A long search reaches it all the same. Only the Node that it was tried with.
if (process.versions.node.startsWith('20.')) setFlagsFromString('--interrupt-budget=500000');

const built = new URL('../dist/start.js', import.meta.url);
if (existsSync(built)) {
  // Newer versions of Node keep what they have compiled, so that the next start is quicker.
  module.enableCompileCache?.();
  const { start } = await import(built.href);
  await start();
} else {
  process.stderr.write('cardwright is not built yet; in its folder run:  npm run build\n');
  process.exitCode = 3;
}
