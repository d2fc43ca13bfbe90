import { type Diagnostic, diagnose, type Fix, lineOf, nowhere, positionOf } from '../model/index.ts';
import type { Request } from './arguments.ts';
import type { Voice } from './voice.ts';
import { isTrouble, type World } from './world.ts';

/** What was mended, as far as files are concerned. */
export interface Mended {
  readonly isWritten: boolean;
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Writes the edits of verdicts back into their files: shows each change first, touches nothing but the
 * measure itself, and in a dry run writes nothing.
 */
export async function mendInPlace(
  said: readonly Diagnostic[],
  request: Pick<Request, 'dryRun'>,
  voice: Voice,
  world: World,
): Promise<Mended> {
  const fixes = distinct(
    said.flatMap((it) => (it.code.startsWith('F') && it.fix !== undefined ? [it.fix] : [])),
  );
  if (fixes.length === 0) return { isWritten: false, diagnostics: [diagnose('N01', nowhere, {})] };
  const diagnostics: Diagnostic[] = [];
  let isWritten = false;
  for (const path of new Set(fixes.map(({ span }) => span.source.path))) {
    const own = fixes.filter(({ span }) => span.source.path === path);
    if (!voice.json) for (const fix of own) await voice.product(change(fix));
    if (request.dryRun) continue;
    const trouble = write(path, own, world);
    if (trouble === undefined) isWritten = true;
    else diagnostics.push(diagnose('C42', { kind: 'file', path }, { path, reason: trouble }));
  }
  return { isWritten, diagnostics };
}

/** Two verdicts may ask for the same edit; two edits of one place can't both be made, so the first counts. */
function distinct(fixes: readonly Fix[]): readonly Fix[] {
  const byPlace = new Map<string, Fix>();
  for (const fix of fixes) {
    const { source, start } = fix.span;
    const key = `${source.path}\n${start}`;
    if (!byPlace.has(key)) byPlace.set(key, fix);
  }
  return [...byPlace.values()];
}

/** The line as it stands, and as it will. */
function change({ span, text }: Fix): string {
  const { line, column } = positionOf(span);
  const before = lineOf(span);
  const points = [...before];
  const length = [...span.source.text.slice(span.start, span.end)].length;
  const after = [...points.slice(0, column - 1), text, ...points.slice(column - 1 + length)].join('');
  return `${span.source.path}:${line}\n  - ${before}\n  + ${after}\n`;
}

/** @returns why it could not be written */
function write(path: string, fixes: readonly Fix[], { files }: World): string | undefined {
  const bytes = files.read(path);
  if (isTrouble(bytes)) return bytes.reason;
  const hasMark = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
  let text = fixes[0]?.span.source.text ?? '';
  for (const { span, text: mended } of [...fixes].sort((a, b) => b.span.start - a.span.start)) {
    text = text.slice(0, span.start) + mended + text.slice(span.end);
  }
  const encoded = new TextEncoder().encode(hasMark ? `\ufeff${text}` : text);
  return files.write(path, encoded)?.reason;
}
