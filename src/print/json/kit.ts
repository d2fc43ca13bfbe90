import { zero } from '../../measure/index.ts';
import { type ConvertedKit, largestDrift } from '../../mend/units/index.ts';
import { type Diagnostic, positionOf, type TileFit } from '../../model/index.ts';
import { describeDiagnostic } from './diagnostics.ts';
import { type FileOut, versions } from './documents.ts';
import { describeLength } from './length.ts';
import type { Document } from './schema.ts';

/** @param kit undefined where nothing could be made; the diagnostics then say why */
export function kitDocument(
  kit: ConvertedKit | undefined,
  diagnostics: readonly Diagnostic[],
  files: readonly FileOut[] = [],
): Document<'kit'> {
  return {
    schema: 'cardwright/kit',
    version: versions.kit,
    diagnostics: diagnostics.map(describeDiagnostic),
    result: kit === undefined ? null : described(kit),
    files: files.map(({ path, written }) => ({ path, written })),
  };
}

function described({ to, files, texts, changes }: ConvertedKit): NonNullable<Document<'kit'>['result']> {
  const parts = changes?.parts ?? [];
  return {
    to,
    kits: files.map(({ file, converted, kept }) => ({
      file: file.source.path,
      converted,
      kept: kept.length,
      text: texts.get(file) ?? file.source.text,
    })),
    rounding: changes?.rounded === undefined ? null : describeRounding(changes.rounded),
    parts: parts.map(({ tile, part, before, after }) => ({
      tile: tile ?? null,
      part,
      was: { length: describeLength(before.length), width: describeLength(before.width) },
      is: { length: describeLength(after.length), width: describeLength(after.width) },
    })),
    largestDrift: describeLength(parts.length === 0 ? zero : largestDrift(parts)),
    tiles: changes === undefined ? [] : tilesOf(changes),
  };
}

type Changes = NonNullable<ConvertedKit['changes']>;

function describeRounding({ step, bases, rounding }: NonNullable<Changes['rounded']>) {
  const { drift, isProved, ruledOut, sizes, together, wouldFall, halfCircles } = rounding;
  return {
    step: describeLength(step),
    together,
    drift: describeLength(drift),
    proved: sizes !== undefined && isProved,
    ruledOut: { ...ruledOut },
    oneByOne: [...wouldFall],
    bentArcs: halfCircles.bent.map(({ base, off }) => ({
      line: positionOf(bases[base]!.asRead).line, // it is one of them
      off: describeLength(off),
    })),
    sizes: bases.map(({ asRead, worth, choices }, at) => ({
      line: positionOf(asRead).line,
      was: describeLength(worth),
      is: describeLength(sizes?.[at] ?? choices[0] ?? worth),
    })),
  };
}

function tilesOf({ before, after, worse }: Changes) {
  const now = new Map(after.fits.map((fit) => [fit.build.tile, fit]));
  return before.fits.map((fit) => {
    const { tile } = fit.build;
    return { tile, before: kinds(fit), now: kinds(now.get(tile)), worse: worse.includes(tile) };
  });
}

function kinds(fit: TileFit | undefined): string[] {
  return [...new Set((fit?.faults ?? []).map(({ kind }) => kind))];
}
