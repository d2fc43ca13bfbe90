import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type CommandPage, commands } from '../../src/cli/commandTable.ts';
import { run } from './memoryWorld.ts';

/** Each example of a help page, run in the folder of the package. */

const files = Object.fromEntries(
  [
    'examples/vineyard.yaml',
    'examples/tram-stop.yaml',
    'examples/drawer.yaml',
    'examples/evening.job.json',
    'specs/hillside.yaml',
    'specs/tram-stop.yaml',
    'shared/card-and-foam.yaml',
  ].map((path) => [path, readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8')]),
);

const pages: readonly (readonly [string, CommandPage])[] = Object.entries(commands);
const examples = pages.flatMap(([, page]) => page.examples.map(({ line }) => line));

describe('examples of the help pages', () => {
  it.each(pages)('%s has at least two', (_, page) => {
    expect(page.examples.length).toBeGreaterThanOrEqual(2);
  });

  it.each(examples)('%s', async (line) => {
    const [, words = '', input] = /^cardwright (.*?)(?: < (\S+))?$/.exec(line) ?? [];
    const argv = [...words.matchAll(/'([^']*)'|(\S+)/g)].map(([, quoted, plain]) => quoted ?? plain ?? '');
    const stdin =
      input === undefined ? undefined : readFileSync(new URL(`../../${input}`, import.meta.url), 'utf8');
    // From standard input, files in `uses` are looked for in the folder that the command is run in.
    const { code, stderr } = await run(argv, { files, ...(stdin === undefined ? {} : { stdin }) });
    expect(stderr).not.toContain('error');
    expect(code).toBe(0);
  });
});
