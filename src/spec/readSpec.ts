import {
  atSpan,
  type Diagnostic,
  diagnose,
  inReadingOrder,
  type NonEmpty,
  type Outcome,
  type Placed,
  type Spec,
  type SpecFile,
} from '../model/index.ts';
import { decode } from './decode.ts';
import { readFile } from './file.ts';
import { compose } from './yaml/compose.ts';

/** What became of a file that `uses` names. */
export type Loaded =
  | { readonly kind: 'bytes'; readonly bytes: Uint8Array }
  /** By another path, a link or from another folder, it is a file that was read before as `as`. */
  | { readonly kind: 'same'; readonly as: string }
  | { readonly kind: 'missing' | 'folder' | 'unreadable'; readonly reason: string };

/** Reads a file that `uses` names; `path` is already resolved against the file that names it. */
export type Loader = (path: string) => Loaded;

/**
 * Reads the files named on the command line and all that they use, each of them once.
 *
 *   bytes ─decode→ text ─compose→ nodes with places ─readFile→ SpecFile ─uses→ the next files
 *
 * @errors S01 to S69, and M for the measures; all independent ones of all files in one run. There is no value
 *         where a file, or something that others lean on, is not known at all: what the next phases would
 *         say then is noise.
 */
export function readSpec(
  entries: NonEmpty<{ readonly path: string; readonly bytes: Uint8Array }>,
  load: Loader,
): Outcome<Spec> {
  const reading = new Reading(load);
  for (const { path, bytes } of entries) reading.given(path, bytes);
  const [first, ...others] = entries.map(({ path }) => reading.file(path));
  const files = [first, ...others].filter((it) => it !== undefined);
  const [head, ...rest] = files;
  const isWhole = head !== undefined && files.length === entries.length && !reading.isTorn;
  return {
    value: isWhole ? { files: [head, ...rest] } : undefined,
    diagnostics: withoutRepeats(inReadingOrder(reading.diagnostics)),
  };
}

class Reading {
  readonly #load: Loader;
  readonly #given = new Map<string, { readonly path: string; readonly bytes: Uint8Array }>();
  readonly #done = new Map<string, SpecFile | undefined>();
  /** The files that lead to the one in hand, to see a loop. */
  readonly #trail: string[] = [];
  readonly diagnostics: Diagnostic[] = [];
  isTorn = false;

  constructor(load: Loader) {
    this.#load = load;
  }

  given(path: string, bytes: Uint8Array): void {
    this.#given.set(resolved('', path), { path, bytes });
  }

  /** A file of the command line. */
  file(path: string): SpecFile | undefined {
    const given = this.#given.get(resolved('', path));
    return given && this.#read(resolved('', path), given.path, given.bytes);
  }

  #read(key: string, path: string, bytes: Uint8Array): SpecFile | undefined {
    if (this.#done.has(key)) return this.#done.get(key);
    this.#trail.push(key);
    const file = this.#made(path, bytes);
    this.#trail.pop();
    this.#done.set(key, file);
    if (file === undefined) this.isTorn = true;
    return file;
  }

  #made(path: string, bytes: Uint8Array): SpecFile | undefined {
    const source = decode(path, bytes);
    this.diagnostics.push(...source.diagnostics);
    if (source.value === undefined) return undefined;
    const nodes = compose(source.value);
    this.diagnostics.push(...nodes.diagnostics);
    if (nodes.value === undefined) return undefined;
    const read = readFile(nodes.value);
    this.diagnostics.push(...read.diagnostics);
    if (read.value === undefined) return undefined;
    const { file, uses, drawer, isTorn } = read.value;
    if (isTorn) this.isTorn = true;
    const used = uses.map((it) => this.#used(it, path)).filter((it) => it !== undefined);
    const kept = drawer && this.#drawer(drawer, path);
    const led = kept === undefined ? {} : { drawer: kept };
    return { ...file, uses: [...new Set(used)], usesAt: uses, ...led };
  }

  #used({ value, at }: Placed<string>, by: string): SpecFile | undefined {
    const file = this.#led({ value, at }, by);
    if (file?.kind !== 'session' && file?.kind !== 'drawer') return file;
    this.diagnostics.push(diagnose('S07', atSpan(at), { path: value, kind: file.kind }));
    return undefined;
  }

  #drawer({ value, at }: Placed<string>, by: string): SpecFile | undefined {
    const file = this.#led({ value, at }, by);
    if (file === undefined || file.kind === 'drawer') return file;
    this.diagnostics.push(diagnose('S09', atSpan(at), { path: value, kind: file.kind }));
    return undefined;
  }

  #led({ value, at }: Placed<string>, by: string): SpecFile | undefined {
    const path = resolved(by, value);
    const loaded = this.#done.has(path) || this.#given.has(path) ? undefined : this.#load(path);
    const key = loaded?.kind === 'same' ? resolved('', loaded.as) : path;
    const turn = this.#trail.indexOf(key);
    if (turn >= 0) {
      this.isTorn = true;
      const chain = [...this.#trail.slice(turn), key];
      this.diagnostics.push(diagnose('S06', atSpan(at), { chain }));
      return undefined;
    }
    return this.#found(key, { value, at }, loaded);
  }

  #found(key: string, named: Placed<string>, loaded: Loaded | undefined): SpecFile | undefined {
    if (this.#done.has(key)) return this.#done.get(key);
    const given = this.#given.get(key);
    if (given !== undefined) return this.#read(key, given.path, given.bytes);
    if (loaded === undefined || loaded.kind === 'same') return undefined; // then it was given, or is done
    if (loaded.kind === 'bytes') return this.#read(key, key, loaded.bytes);
    this.isTorn = true;
    const facts = { path: named.value, reason: loaded.reason };
    this.diagnostics.push(diagnose('S01', atSpan(named.at), facts));
    this.#done.set(key, undefined);
    return undefined;
  }
}

/** What an alias repeats is read again, and its faults with it; each is told once. */
function withoutRepeats(diagnostics: readonly Diagnostic[]): readonly Diagnostic[] {
  const seen = new Set<string>();
  return diagnostics.filter(({ code, message, place }) => {
    const where = place.kind === 'span' ? `${place.span.source.path} ${place.span.start}` : '';
    const key = `${code} ${where} ${message}`;
    if (place.kind !== 'span' || !seen.has(key)) {
      seen.add(key);
      return true;
    }
    return false;
  });
}

/** A path from the folder of the file that names it; from the working folder for standard input. */
function resolved(by: string, path: string): string {
  const folder = by === '<stdin>' ? '' : by.slice(0, by.lastIndexOf('/') + 1);
  const steps: string[] = [];
  const whole = folder + path;
  for (const step of whole.split('/')) {
    if (step === '' || step === '.') continue;
    if (step === '..' && steps.length > 0 && steps.at(-1) !== '..') steps.pop();
    else if (step !== '..' || !whole.startsWith('/')) steps.push(step);
  }
  // `.` itself, which a caller then finds to be a folder.
  return (whole.startsWith('/') ? '/' : '') + steps.join('/') || '.';
}
