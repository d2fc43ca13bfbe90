import { type Diagnostic, diagnose, type Fix, lineOf, nowhere, positionOf } from '../model/index.ts';
import { spliced } from '../spec/index.ts';
import type { Request } from './arguments.ts';
import { shellQuoted } from './shellQuoted.ts';
import type { Voice } from './voice.ts';
import { isTrouble, type World } from './world.ts';

/** What was mended, as far as files are concerned. */
export interface Mended {
  /** The world as it is now, or in a dry run would be; undefined where it is as it was. */
  readonly world: World | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Writes the edits of verdicts back into their files: shows each change first, touches nothing but the
 * measure itself, and in a dry run writes nothing. Only files that were named are written: what they use may
 * be used by others too.
 */
export async function mendInPlace(
  said: readonly Diagnostic[],
  request: Pick<Request, 'dryRun' | 'operands'>,
  voice: Voice,
  world: World,
): Promise<Mended> {
  const fixes = distinct(
    said.flatMap((it) => (it.code.startsWith('F') && it.fix !== undefined ? [it.fix] : [])),
  );
  if (fixes.length === 0) return { world: undefined, diagnostics: [diagnose('N01', nowhere, {})] };
  const diagnostics: Diagnostic[] = [];
  const mended = new Map<string, Uint8Array>();
  for (const path of new Set(fixes.map(({ span }) => span.source.path))) {
    if (!request.operands.some((it) => it === path || world.files.isSame(it, path))) {
      diagnostics.push(onlyUsed(path, request.operands));
      continue;
    }
    const refuse = (reason: string) =>
      diagnostics.push(diagnose('C42', { kind: 'file', path }, { path, reason }));
    const own = fixes.filter(({ span }) => span.source.path === path);
    const bytes = withEdits(own, world);
    if (typeof bytes === 'string') {
      refuse(bytes);
      continue;
    }
    if (!voice.json) await voice.product(changes(own));
    const trouble = request.dryRun ? world.files.refusal(path) : world.files.write(path, bytes);
    if (trouble !== undefined) {
      refuse(trouble.reason);
      continue;
    }
    if (!voice.json) await voice.product(`${request.dryRun ? 'would write' : 'wrote'} ${path}\n\n`);
    mended.set(path, bytes);
  }
  return { world: mended.size === 0 ? undefined : withFiles(world, mended), diagnostics };
}

/** Two verdicts may ask for the same edit; two edits of one place can't both be made, so the first counts. */
function distinct(fixes: readonly Fix[]): readonly Fix[] {
  const byPlace = new Map<string, Fix>();
  for (const fix of fixes) {
    const { source, start } = fix.span;
    const key = `${source.path}\n${start}`;
    if (!byPlace.has(key)) byPlace.set(key, fix);
  }
  return [...byPlace.values()].sort((a, b) => a.span.start - b.span.start);
}

function onlyUsed(path: string, operands: readonly string[]): Diagnostic {
  const command = `cardwright check --fix ${[...operands, path].map(shellQuoted).join(' ')}`;
  return diagnose('N02', { kind: 'file', path }, { path, command });
}

/** Each line that changes, as it stands and as it will. */
function changes(fixes: readonly Fix[]): string {
  const lines = new Map<number, Fix[]>();
  for (const fix of fixes) {
    const { line } = positionOf(fix.span);
    lines.set(line, [...(lines.get(line) ?? []), fix]);
  }
  return [...lines].map(([line, own]) => change(line, own)).join('');
}

function change(line: number, fixes: readonly Fix[]): string {
  const [first] = fixes;
  if (first === undefined) return '';
  const before = lineOf(first.span);
  const points = [...before];
  // From the last to the first, so that what is written before does not move what comes behind.
  for (const { span, text } of [...fixes].reverse()) {
    const { column } = positionOf(span);
    const length = [...span.source.text.slice(span.start, span.end)].length;
    points.splice(column - 1, length, text);
  }
  return `${first.span.source.path}:${line}\n  - ${before}\n  + ${points.join('')}\n${lost(before, fixes)}`;
}

/** What a measure in place of a sum takes along, so that it does not go unseen. */
function lost(before: string, fixes: readonly Fix[]): string {
  if (fixes.every(({ span }) => span.source.text[span.start] !== '(')) return '';
  const remark = / #/u.test(before) ? '; see whether the remark is still true' : '';
  return `    a measure in place of a sum: it will follow nothing any more${remark}\n`;
}

/** The file's bytes with the edits made; or why that can't be. */
function withEdits(fixes: readonly Fix[], { files }: World): Uint8Array | string {
  const [first] = fixes;
  if (first === undefined) return 'there is nothing to mend in it';
  const { path, text: read } = first.span.source;
  const bytes = files.read(path);
  if (isTrouble(bytes)) return bytes.reason;
  // An editor may have saved it since, and its edits would be lost.
  if (new TextDecoder().decode(bytes) !== read) return 'it has changed since it was read';
  return encodedAs(bytes, spliced(first.span.source, fixes));
}

/** A text as bytes, with a byte order mark if the bytes that it takes the place of have one. */
export function encodedAs(before: Uint8Array, text: string): Uint8Array {
  const hasMark = before[0] === 0xef && before[1] === 0xbb && before[2] === 0xbf;
  return new TextEncoder().encode(hasMark ? `\ufeff${text}` : text);
}

/** The world in which these files hold something else. */
function withFiles(world: World, contents: ReadonlyMap<string, Uint8Array>): World {
  const read: World['files']['read'] = (path) => {
    const same = [...contents.keys()].find((it) => it === path || world.files.isSame(it, path));
    return same === undefined ? world.files.read(path) : (contents.get(same) ?? world.files.read(path));
  };
  return { ...world, files: { ...world.files, read } };
}
