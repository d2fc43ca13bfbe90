import {
  type Diagnostic,
  diagnose,
  didYouMean,
  type MaterialSpec,
  type Named,
  type Spec,
  type SpecFile,
} from '../../model/index.ts';
import { filesOf } from './standing.ts';
import type { BoardWish } from './wishes.ts';

/** What speaks against putting other boards in the place of nominal ones. */
export function boardFaults(spec: Spec, wishes: readonly BoardWish[]): readonly Diagnostic[] {
  const files = filesOf(spec);
  const all = files.flatMap((file) => file.materials.map((material) => ({ file, material })));
  return wishes.flatMap(({ material: name, argument }): readonly Diagnostic[] => {
    const place = { kind: 'argument', argument } as const;
    const found = all.filter(({ material }) => material.name === name);
    if (found.length === 0) {
      const meant = didYouMean(
        name,
        all.map(({ material }) => material.name),
      );
      return [diagnose('N09', place, { name, meant })];
    }
    return found.flatMap((it) => [...elsewhere(it, spec, place), ...measured(it, files, place)]);
  });
}

interface Found {
  readonly file: SpecFile;
  readonly material: Named<MaterialSpec>;
}

type At = { readonly kind: 'argument'; readonly argument: string };

function elsewhere({ file, material }: Found, spec: Spec, place: At): readonly Diagnostic[] {
  if (spec.files.includes(file)) return [];
  return [diagnose('N10', place, { name: material.name, path: file.source.path })];
}

function measured({ material }: Found, files: readonly SpecFile[], place: At): readonly Diagnostic[] {
  const isMeasured =
    material.value.measured !== undefined ||
    files.some((file) => file.measured.some(({ name }) => name === material.name));
  return isMeasured ? [diagnose('N11', place, { name: material.name })] : [];
}
