import { bareExact, inches, millimetres, rational } from '../../measure/index.ts';
import type { FileUnits, Fix, Length, Span, SpecFile } from '../../model/index.ts';

/**
 * What a grid leaves unsaid is 1/64 in in an inch file and 0.4 mm in one of millimetres, which is not the same: where
 * that would change a verdict, it has to be said.
 */
export interface Implied {
  readonly slack: boolean;
  readonly lip: boolean;
}

/** What the tiles of a file go by without its being written anywhere they can see. */
export function impliedIn(file: SpecFile): Implied {
  const seen = new Set([file]);
  for (const it of seen) for (const used of it.uses) seen.add(used);
  const says = (key: 'slack' | 'lip') => [...seen].some(({ grid }) => grid?.[key] !== undefined);
  const hasTiles = file.tiles.length > 0;
  return { slack: hasTiles && !says('slack'), lip: hasTiles && !says('lip') };
}

export function usualSlack(units: FileUnits): Length {
  return units === 'in' ? inches(rational(1n, 64n)) : millimetres(rational(4n, 10n));
}

/**
 * The edit by which a file that is now in other units says what it went by before; undefined where no place for it can
 * be told.
 *
 * @param file  as it is now
 */
export function implicationWritten(file: SpecFile, before: FileUnits, implied: Implied): Fix | undefined {
  const { units, source, grid, unitsAt } = file;
  if (units === undefined) return undefined;
  const text = bareExact(usualSlack(before), units);
  const said = [...(implied.slack ? [`slack: ${text}`] : []), ...(implied.lip ? [`lip: ${text}`] : [])];
  if (grid !== undefined) return intoMap(grid.at, said);
  if (unitsAt === undefined) return undefined;
  // A line of its own below that of the units, as far in as they are.
  const start = source.text.lastIndexOf('\n', unitsAt.start - 1) + 1;
  const indent = /^ */u.exec(source.text.slice(start))?.[0] ?? '';
  if (!/^ *units *:/u.test(source.text.slice(start))) return undefined;
  const end = lineEnd(source.text, unitsAt.end);
  const at: Span = { source, start: end, end };
  return { span: at, text: `${lineBreak(source.text)}${indent}grid: { ${said.join(', ')} }` };
}

function intoMap(at: Span, said: readonly string[]): Fix {
  const { source, start, end } = at;
  const written = source.text.slice(start, end);
  if (written.startsWith('{')) {
    // `{ square: 3, tallest: 2 }`, also with a comma at its end, or on several lines.
    const inside = written.slice(1, written.lastIndexOf('}'));
    const last = inside.trimEnd();
    const place = start + 1 + last.length;
    const before = last === '' ? ' ' : last.endsWith(',') ? ' ' : ', ';
    return { span: { source, start: place, end: place }, text: before + said.join(', ') };
  }
  const lineStart = source.text.lastIndexOf('\n', start - 1) + 1;
  const indent = ' '.repeat([...source.text.slice(lineStart, start)].length);
  const lines = said.map((it) => `${it}${lineBreak(source.text)}${indent}`).join('');
  return { span: { source, start, end: start }, text: lines };
}

function lineBreak(text: string): string {
  return text.includes('\r\n') ? '\r\n' : '\n';
}

function lineEnd(text: string, from: number): number {
  const found = text.slice(from).search(/\r?\n|\r/u);
  return found < 0 ? text.length : from + found;
}
