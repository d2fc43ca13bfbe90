import { exactDecimal, finestInch, isMultiple, mixedText, showExact, toInches } from '../../measure/index.ts';
import type {
  DrawerEntry,
  FileUnits,
  Length,
  ListedEntry,
  Named,
  SheetSpec,
  Span,
  SpecFile,
} from '../../model/index.ts';

/** Characters `start` to `end` of a text become `text`. */
export interface Splice {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** Edits of one text that don't overlap, made from the last to the first. */
export function spliced(text: string, splices: readonly Splice[]): string {
  return [...splices]
    .sort((a, b) => b.start - a.start)
    .reduce((it, { start, end, text: put }) => it.slice(0, start) + put + it.slice(end), text);
}

/**
 * What takes `count` pieces of an entry out of its file: its count becomes less, or it goes, with the remark
 * behind it. Undefined where it stands in a way that can't be edited safely.
 */
export function takingOut(entry: ListedEntry, count: number, file: SpecFile): readonly Splice[] | undefined {
  if (entry.count === 'as needed') return [];
  const left = entry.count - count;
  if (left < 0) return undefined;
  if (left > 0)
    return entry.countAt && [{ start: entry.countAt.start, end: entry.countAt.end, text: `${left}` }];
  const list = listOf(entry, file);
  return list && withoutItem(list, entry.at);
}

/** What puts an entry into its file: behind the last of its material, else where the material would stand. */
export function puttingIn(entry: DrawerEntry, file: SpecFile): readonly Splice[] | undefined {
  const { text } = file.source;
  const lineEnd = lineEndOf(text);
  const section = entry.kind === 'sheet' ? 'sheets' : 'offcuts';
  const item = written(entry, file.units);
  const lists = file[section];
  const list = lists.find(({ name }) => name === entry.material);
  if (list !== undefined) return intoList(list, item, text);
  const block = (indent: string): string => `${indent}${entry.material}:${lineEnd}${indent}  - ${item}`;
  const neighbour = lists.at(-1);
  if (neighbour !== undefined) {
    const lead = leadOf(text, neighbour.at.start);
    const end = endOfList(neighbour, text);
    if (end === undefined) return undefined;
    if (/^[ \t]+$/u.test(lead)) {
      const at = endOfLine(text, end);
      return at === undefined ? undefined : [{ start: at, end: at, text: `${lineEnd}${block(lead)}` }];
    }
    return [{ start: end, end, text: `, ${entry.material}: [${item}]` }];
  }
  const empty = new RegExp(`^${section}:[ \\t]*\\{\\s*\\}`, 'mu').exec(text);
  if (empty !== null) {
    const start = empty.index;
    return [{ start, end: start + empty[0].length, text: `${section}:${lineEnd}${block('  ')}` }];
  }
  const gap = text === '' || /[\r\n]$/u.test(text) ? '' : lineEnd;
  return [
    { start: text.length, end: text.length, text: `${gap}${section}:${lineEnd}${block('  ')}${lineEnd}` },
  ];
}

type List = Named<readonly SheetSpec[]>;

function listOf({ kind, at }: ListedEntry, file: SpecFile): List | undefined {
  const section = kind === 'sheet' ? 'sheets' : 'offcuts';
  return file[section].find(({ value }) => value.some((it) => it.at.start === at.start));
}

/**
 *   - { size: [8, 5], label: G1 }  # a remark        the whole line goes, or its lines
 *   [{ size: [8, 5] }, { size: [7, 4] }]             the item goes, and one comma with it
 *
 * A list that loses its last item becomes [].
 */
function withoutItem(list: List, { source, start, end: last }: Span): readonly Splice[] | undefined {
  const { text } = source;
  const end = trimmedEnd(text, start, last);
  const lead = leadOf(text, start);
  const isOnly = list.value.length === 1;
  if (isBlockItem(lead)) {
    const lineStart = start - lead.length;
    const after = endOfLine(text, end);
    if (after === undefined) return undefined;
    const next = after + (/^\r?\n|^\r/u.exec(text.slice(after))?.[0].length ?? 0);
    const gone: Splice = { start: lineStart, end: next, text: '' };
    if (!isOnly) return [gone];
    const colon = /^[ \t]*:/u.exec(text.slice(list.at.end))?.[0].length;
    if (colon === undefined) return undefined;
    const behind = list.at.end + colon;
    return [{ start: behind, end: behind, text: ' []' }, gone];
  }
  // A space before a remark stays, or the remark would be none.
  const comma = /^[ \t]*,(?:\s*(?=[^\s#])|)/u.exec(text.slice(end))?.[0];
  if (comma !== undefined && !isOnly) return [{ start, end: end + comma.length, text: '' }];
  const before = /,\s*$/u.exec(text.slice(0, start))?.[0];
  if (before !== undefined && !isOnly) return [{ start: start - before.length, end, text: '' }];
  return isOnly ? [{ start, end, text: '' }] : undefined;
}

function intoList(list: List, item: string, text: string): readonly Splice[] | undefined {
  const last = list.value.at(-1);
  if (last === undefined) {
    const empty = /^[ \t]*:\s*\[/u.exec(text.slice(list.at.end))?.[0];
    if (empty === undefined) return undefined;
    const at = list.at.end + empty.length;
    return [{ start: at, end: at, text: item }];
  }
  const { start } = last.at;
  const end = trimmedEnd(text, start, last.at.end);
  const lead = leadOf(text, start);
  if (isBlockItem(lead)) {
    const at = endOfLine(text, end);
    const dash = lead.slice(0, lead.indexOf('-'));
    return at === undefined
      ? undefined
      : [{ start: at, end: at, text: `${lineEndOf(text)}${dash}- ${item}` }];
  }
  const isOnOwnLine = /^[ \t]+$/u.test(lead) && list.value.length > 1;
  return [{ start: end, end, text: isOnOwnLine ? `,${lineEndOf(text)}${lead}${item}` : `, ${item}` }];
}

/** Behind the last item, and behind the bracket where there is one. */
function endOfList(list: List, text: string): number | undefined {
  const last = list.value.at(-1);
  if (last === undefined) {
    const empty = /^[ \t]*:\s*\[\s*\]/u.exec(text.slice(list.at.end))?.[0];
    return empty === undefined ? undefined : list.at.end + empty.length;
  }
  const end = trimmedEnd(text, last.at.start, last.at.end);
  if (isBlockItem(leadOf(text, last.at.start))) return end;
  const closed = /^\s*,?\s*\]/u.exec(text.slice(end))?.[0];
  return closed === undefined ? undefined : end + closed.length;
}

function isBlockItem(lead: string): boolean {
  return /^[ \t]*-[ \t]+$/u.test(lead);
}

/** What stands before a place on its line. */
export function leadOf(text: string, at: number): string {
  const before = text.slice(0, at);
  return before.slice(Math.max(before.lastIndexOf('\n'), before.lastIndexOf('\r')) + 1);
}

export function trimmedEnd(text: string, start: number, end: number): number {
  return start + text.slice(start, end).trimEnd().length;
}

/** The end of the line, where nothing but a remark stands between; undefined where something else does. */
export function endOfLine(text: string, at: number): number | undefined {
  const rest = /^[^\r\n]*/u.exec(text.slice(at))?.[0] ?? '';
  return /^[ \t]*(?:[ \t]#.*)?$/u.test(rest) ? at + rest.length : undefined;
}

export function lineEndOf(text: string): string {
  return /\r\n|\r|\n/u.exec(text)?.[0] ?? '\n';
}

/** An entry as a line of a file in these units. */
export function written(entry: DrawerEntry, units: FileUnits | undefined): string {
  const size = `[${sizeText(entry.length, units)}, ${sizeText(entry.width, units)}]`;
  const keys: readonly (readonly [string, string | undefined])[] = [
    ['size', size],
    ['thick', entry.thick && sizeText(entry.thick, units)],
    ['grain', entry.grain],
    ['flutes', entry.flutes],
    ['count', entry.count === 1 ? undefined : `${entry.count}`],
    ['label', entry.label === undefined ? undefined : quoted(entry.label)],
    ['where', entry.where === undefined ? undefined : quoted(entry.where)],
    ['note', entry.note === undefined ? undefined : quoted(entry.note)],
  ];
  return `{ ${keys.flatMap(([key, value]) => (value === undefined ? [] : [`${key}: ${value}`])).join(', ')} }`;
}

/** Exact, in the file's own unit where that is a size as people write it. */
function sizeText(length: Length, units: FileUnits | undefined): string {
  const isInches = isMultiple(length, finestInch);
  if (units === 'in' && isInches) return mixedText(toInches(length));
  const decimal = exactDecimal(length);
  if (units === 'mm' && decimal !== undefined && !(isInches && decimal.length > 8)) return decimal;
  if (isInches) return showExact(length, 'in');
  return decimal === undefined ? showExact(length, units ?? 'mm') : `${decimal} mm`;
}

export function quoted(text: string): string {
  return /^\p{L}[\p{L}\p{N}]*(?:[ ./'-][\p{L}\p{N}]+)*$/u.test(text) ? text : JSON.stringify(text);
}
