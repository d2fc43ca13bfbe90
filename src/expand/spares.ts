import { ceiling, multiply, rational, whole } from '../measure/index.ts';
import { atSpan, diagnose, didYouMean, type Named, type SpareSpec, type SpecFile } from '../model/index.ts';
import { wholeOf } from './evaluate.ts';
import { fileScope, type Workings } from './workings.ts';

/** A part that could have spares. */
export interface SparePart {
  /** It is made as often as it fits, and so has none. */
  readonly isFiller?: boolean;
  /** Undefined for a loose part. */
  readonly tile: string | undefined;
  readonly part: string;
}

/** How many more are wanted, where `count` are asked for; `isFirst`: no evening before has asked for any. */
export interface Spares {
  readonly ofPart: (part: SparePart, count: number, isFirst: boolean) => number;
  readonly ofFitting: (name: string, count: number, isFirst: boolean) => number;
}

/**
 * Spares for spoiled pieces. A bare name means that part, in both hands, in every tile that has it, and as a
 * loose part; `face of retaining wall` means one. A number is so many of each, once over all evenings; a share
 * is taken of what is cut, and rounded up. The name of a fitting means all there are of it.
 *
 * @param known     every part there is, made tonight or not
 * @param fittings  the names of all fittings
 * @errors E84 no such part or fitting, E99 a part that is made as often as it fits
 */
export function sparesOf(
  sessions: readonly SpecFile[],
  known: readonly SparePart[],
  fittings: ReadonlySet<string>,
  workings: Workings,
): Spares {
  const rules = sessions
    .flatMap(({ spares }) => spares ?? [])
    .flatMap((it) => {
      const means = meant(it.name);
      if (!fittings.has(it.name) && !known.some(means)) {
        const parts = known.flatMap(({ tile, part }) => [
          part,
          ...(tile === undefined ? [] : [`${part} of ${tile}`]),
        ]);
        const names = [...new Set([...parts, ...fittings])];
        const facts = { name: it.name, meant: didYouMean(it.name, names) };
        workings.faults.report(diagnose('E84', atSpan(it.at), facts));
        return [];
      }
      const named = known.filter(means);
      if (named.length > 0 && named.every(({ isFiller }) => isFiller)) {
        workings.faults.report(diagnose('E99', atSpan(it.at), { part: it.name, by: 'spares' }));
        return [];
      }
      return [{ name: it.name, means, more: moreBy(it, workings) }];
    });
  const together = (
    applies: (rule: (typeof rules)[number]) => boolean,
    count: number,
    isFirst: boolean,
  ): number => rules.filter(applies).reduce((sum, { more }) => sum + more(count, isFirst), 0);
  return {
    ofPart: (part, count, isFirst) => together(({ means }) => means(part), count, isFirst),
    ofFitting: (name, count, isFirst) => together((rule) => rule.name === name, count, isFirst),
  };
}

function meant(name: string): (part: SparePart) => boolean {
  const [, part = name, tile] = /^(?<part>.+?) of (?<tile>.+)$/u.exec(name) ?? [];
  const isPart = (it: string): boolean => it === part || it === `${part}, other hand`;
  return (it) => isPart(it.part) && (tile === undefined || it.tile === tile);
}

function moreBy(
  { value }: Named<SpareSpec>,
  workings: Workings,
): (count: number, isFirst: boolean) => number {
  if (value.kind === 'percent') {
    const share = multiply(value.percent, rational(1n, 100n));
    return (count) => Number(ceiling(multiply(share, whole(count))));
  }
  const more = wholeOf(value.count, { least: 0, what: 'spares' }, fileScope, workings) ?? 0;
  return (count, isFirst) => (isFirst && count > 0 ? more : 0);
}
