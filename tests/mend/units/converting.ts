import { checkUp } from '../../../src/checkUp.ts';
import { inches, millimetres, rational } from '../../../src/measure/index.ts';
import { type ConversionWishes, type ConvertedKit, convertKit } from '../../../src/mend/units/index.ts';
import {
  type Diagnostic,
  type FileUnits,
  isError,
  type Length,
  type Outcome,
  type Spec,
  type SpecFile,
} from '../../../src/model/index.ts';
import { runToEnd } from '../../../src/pipeline.ts';
import { readSpec } from '../../../src/spec/index.ts';

export const mm = (numerator: number, denominator = 1): Length =>
  millimetres(rational(BigInt(numerator), BigInt(denominator)));
export const inch = (numerator: number, denominator = 1): Length =>
  inches(rational(BigInt(numerator), BigInt(denominator)));

/** Reads files that lie in memory, the first of them named. */
export function read(files: Readonly<Record<string, string>>, named: readonly string[]): Outcome<Spec> {
  const entry = (path: string) => ({ path, bytes: new TextEncoder().encode(files[path] ?? '') });
  const [first = '', ...others] = named;
  return readSpec([entry(first), ...others.map(entry)], (path) =>
    files[path] === undefined
      ? { kind: 'missing', reason: 'there is none' }
      : { kind: 'bytes', bytes: new TextEncoder().encode(files[path]) },
  );
}

export interface Ran {
  readonly kit: ConvertedKit | undefined;
  readonly diagnostics: readonly Diagnostic[];
  readonly texts: readonly string[];
}

export function convert(
  files: Readonly<Record<string, string>>,
  to: FileUnits,
  wishes: Partial<ConversionWishes> = {},
  named: readonly string[] = Object.keys(files).slice(0, 1),
): Ran {
  const { value: spec, diagnostics } = read(files, named);
  if (spec === undefined || diagnostics.some(isError)) return { kit: undefined, diagnostics, texts: [] };
  const reread = (texts: ReadonlyMap<SpecFile, string>) => {
    const own = Object.fromEntries([...texts].map(([file, text]) => [file.source.path, text]));
    return read({ ...files, ...own }, named);
  };
  const all: ConversionWishes = {
    to,
    step: undefined,
    factor: undefined,
    boards: 'kept',
    materials: [],
    isPartial: false,
    ...wishes,
  };
  const { value: kit, diagnostics: said } = convertKit(spec, all, reread);
  return {
    kit,
    diagnostics: [...diagnostics, ...said],
    texts: kit === undefined ? [] : spec.files.map((file) => kit.texts.get(file) ?? ''),
  };
}

/** What `check` says of a kit, without places and figures: its code and the tile. */
export function verdicts(text: string): readonly string[] {
  const { value, diagnostics } = read({ 'kit.yaml': text }, ['kit.yaml']);
  const said = value === undefined ? [] : runToEnd(checkUp(value, {})).diagnostics;
  return [...diagnostics, ...said]
    .filter(({ severity }) => severity !== 'note')
    .map(({ code, message }) => `${code} ${/"[^"]*"/u.exec(message)?.[0] ?? ''}`)
    .sort();
}

/** Every size of every part of a kit, exactly. */
export function sizes(text: string): readonly string[] {
  const { value } = read({ 'kit.yaml': text }, ['kit.yaml']);
  const batch = value && runToEnd(checkUp(value, {})).value?.batch;
  return (batch?.materials ?? []).flatMap(({ material, parts }) => [
    `${material.name} ${fraction(material.thickness)}`,
    ...parts.map(({ length, width, members }) => {
      const names = members.map(({ tile, part }) => `${tile} ${part}`).join(', ');
      return `${names}: ${fraction(length)} ${fraction(width)}`;
    }),
  ]);
}

function fraction({ numerator, denominator }: Length): string {
  return `${numerator}/${denominator}`;
}
