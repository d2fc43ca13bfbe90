import {
  type Diagnostic,
  diagnose,
  type NonEmpty,
  type Outcome,
  type Spec,
  type SpecFile,
} from '../model/index.ts';
import { readSpec } from '../spec/index.ts';
import type { Driver } from './driving.ts';
import { isTrouble, type World } from './world.ts';

/** Reads the files of the command line and all that they use. `-` is standard input. */
export async function readFiles(
  paths: readonly string[],
  world: World,
  driver: Driver,
): Promise<Outcome<Spec>> {
  const diagnostics: Diagnostic[] = [];
  const entries: { readonly path: string; readonly bytes: Uint8Array }[] = [];
  for (const path of paths) {
    if (path === '-') {
      entries.push({ path: '<stdin>', bytes: await readAll(world.stdin) });
      continue;
    }
    // A file that is named twice is read once, and is one file.
    if (entries.some((it) => world.files.isSame(it.path, path))) continue;
    const bytes = world.files.read(path);
    if (isTrouble(bytes)) {
      diagnostics.push(diagnose('C40', { kind: 'file', path }, { path, reason: bytes.reason }));
    } else {
      entries.push({ path, bytes });
    }
  }
  const [first, ...others] = entries;
  // A file that is missing would only be followed by the noise of what was to come from it.
  if (first === undefined || diagnostics.length > 0) return { value: undefined, diagnostics };
  const all: NonEmpty<{ readonly path: string; readonly bytes: Uint8Array }> = [first, ...others];
  const known = entries.map(({ path }) => path);
  const readUsed: Parameters<typeof readSpec>[1] = (path) => {
    const as = known.find((it) => it !== path && world.files.isSame(it, path));
    if (as !== undefined) return { kind: 'same', as };
    const bytes = world.files.read(path);
    if (isTrouble(bytes)) return bytes;
    known.push(path);
    return { kind: 'bytes', bytes };
  };
  return driver.atOnce(() => readSpec(all, readUsed));
}

/** The outputs that would take the place of a file that was read, also of one that another uses. */
export function outputsOverInputs(
  outputs: readonly { readonly path: string | undefined }[],
  spec: Spec,
  { files }: World,
): readonly Diagnostic[] {
  const read = new Set<SpecFile>(spec.files);
  for (const file of read) {
    for (const used of file.uses) read.add(used);
    if (file.drawer !== undefined) read.add(file.drawer);
  }
  return outputs.flatMap(({ path }) =>
    path !== undefined && [...read].some(({ source }) => files.isSame(source.path, path))
      ? [diagnose('C43', { kind: 'file', path }, { path })]
      : [],
  );
}

/** As much as the language takes and a little more, so that too much is refused with its own words. */
const mostBytes = 4 * 1024 * 1024;

async function readAll(stream: AsyncIterable<Uint8Array>): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  let length = 0;
  for await (const chunk of stream) {
    chunks.push(chunk);
    length += chunk.length;
    if (length > mostBytes) break;
  }
  const all = new Uint8Array(length);
  let at = 0;
  for (const chunk of chunks) {
    all.set(chunk, at);
    at += chunk.length;
  }
  return all;
}
