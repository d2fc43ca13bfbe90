import { ceiling, multiply, rational, whole } from '../measure/index.ts';
import { atSpan, diagnose, didYouMean, type Named, type SpareSpec, type SpecFile } from '../model/index.ts';
import { wholeOf } from './evaluate.ts';
import { fileScope, type Workings } from './workings.ts';

/** A part that could have spares. */
export interface SparePart {
  /** Undefined for a loose part. */
  readonly tile: string | undefined;
  readonly part: string;
}

/** How many more of a part are cut, of which `count` are asked for; `isFirst`: no evening before has cut it. */
export type Spares = (part: SparePart, count: number, isFirst: boolean) => number;

/**
 * Spares for spoiled pieces. A bare name means that part, in both hands, in every tile that has it, and as a
 * loose part; `face of retaining wall` means one. A number is so many of each, once over all evenings; a share
 * is taken of what is cut, and rounded up.
 *
 * @param known  every part there is, made tonight or not
 * @errors E84 no such part
 */
export function sparesOf(
  sessions: readonly SpecFile[],
  known: readonly SparePart[],
  workings: Workings,
): Spares {
  const rules = sessions
    .flatMap(({ spares }) => spares ?? [])
    .flatMap((it) => {
      const means = meant(it.name);
      if (!known.some(means)) {
        const names = [
          ...new Set(
            known.flatMap(({ tile, part }) => [part, ...(tile === undefined ? [] : [`${part} of ${tile}`])]),
          ),
        ];
        const facts = { name: it.name, meant: didYouMean(it.name, names) };
        workings.faults.report(diagnose('E84', atSpan(it.at), facts));
        return [];
      }
      return [{ means, more: moreBy(it, workings) }];
    });
  return (part, count, isFirst) =>
    rules.reduce((sum, { means, more }) => sum + (means(part) ? more(count, isFirst) : 0), 0);
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
