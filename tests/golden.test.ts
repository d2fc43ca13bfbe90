import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Ran, run } from './cli/memoryWorld.ts';

/**
 * The printed results that ship with the package are what the program prints now, byte for byte. Where a
 * change is meant, `npm run golden` writes them anew; read the difference before you commit it.
 */

function shipped(path: string): Uint8Array {
  return new Uint8Array(readFileSync(new URL(`../${path}`, import.meta.url)));
}

const files = Object.fromEntries(
  [
    'examples/vineyard.yaml',
    'examples/drawer.yaml',
    'examples/tram-stop.yaml',
    'specs/hillside.yaml',
    'specs/tram-stop.yaml',
    'shared/card-and-foam.yaml',
  ].map((path) => [path, shipped(path)]),
);
const { version } = JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8'));

describe.each(['vineyard', 'tram-stop'])('the printed %s', (name) => {
  const paths = ['pdf', 'txt', 'json'].map((ending) => `examples/printed/${name}.${ending}`);
  let ran: Ran;
  beforeAll(async () => {
    ran = await run(['cut', `examples/${name}.yaml`, ...paths.flatMap((it) => ['-o', it]), '--force'], {
      files: { ...files, 'examples/printed/keep': '' },
      version,
    });
  }, 120_000);

  it.each(paths)('is the same bytes: %s', (path) => {
    expect(ran.code, ran.stderr).toBe(0);
    const [made, kept] = [Buffer.from(ran.files.get(path) ?? []), Buffer.from(shipped(path))];
    if (!path.endsWith('.pdf')) expect(made.toString('utf8')).toBe(kept.toString('utf8'));
    expect(made.equals(kept), `${path} has changed`).toBe(true);
  });
});
