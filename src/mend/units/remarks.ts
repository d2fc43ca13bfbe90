import { type Diagnostic, diagnose, type FileUnits, positionOf, type SpecFile } from '../../model/index.ts';
import type { Rewriting } from './exact.ts';
import { ownUnitOf } from './sorts.ts';

/** What a person should look at afterwards: measures that kept their unit, remarks that may speak of old ones. */
export function remarksOn({ file, kept, edits }: Rewriting, to: FileUnits): readonly Diagnostic[] {
  const { path } = file.source;
  const place = { kind: 'file', path } as const;
  const own = kept.filter((it) => ownUnitOf(it) !== to);
  const keptWords = own.map(({ span }) => {
    const text = span.source.text.slice(span.start, span.end);
    return `${text} on line ${positionOf(span).line}`;
  });
  const stale = edits.length === 0 ? [] : linesWithFigures(file);
  return [
    ...(own.length === 0
      ? []
      : [diagnose('N03', place, { count: own.length, path, lines: listed(keptWords) })]),
    ...(stale.length === 0
      ? []
      : [
          diagnose('N04', place, {
            count: stale.length,
            path,
            lines: listed(stale.map((line) => `line ${line}`)),
          }),
        ]),
  ];
}

/** Lines whose remark holds a figure; a `#` within quotes is none. */
function linesWithFigures({ source }: SpecFile): readonly number[] {
  const lines = source.text.split(/\r\n|\n|\r/u);
  return lines.flatMap((line, index) => {
    const unquoted = line.replace(/"(?:[^"\\]|\\.)*"|'[^']*'/gu, (it) => ' '.repeat(it.length));
    const start = unquoted.search(/(?:^|\s)#/u);
    return start >= 0 && /\d/u.test(line.slice(start)) ? [index + 1] : [];
  });
}

const mostNamed = 6;

function listed(words: readonly string[]): string {
  const named = words.slice(0, mostNamed).join(', ');
  return words.length <= mostNamed ? named : `${named} and ${words.length - mostNamed} more`;
}
