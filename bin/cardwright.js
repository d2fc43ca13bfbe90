#!/usr/bin/env node
import { existsSync } from 'node:fs';
import module from 'node:module';

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
