import { lines, type Mark, type Point } from './mark.ts';
import { type Typeface, words, wordsAround } from './type.ts';

/** Long enough to see an error of a printer with a rule. */
export const barMm = 100;
export const barInches = 4;
const inch = 25.4;

/**
 * Two bars from one zero, millimetres above and inches below; or turned to the left, to run up the page.
 *
 *   0 mm         50            100
 *   ├──┴──┴──┴──┴┴──┴──┴──┴──┴──┤
 *   ├─────┬──────┬──────┬───────┤
 *   0 in  1      2      3       4
 *
 * @param zero where the upper bar begins
 */
export function scaleBars(face: Typeface, zero: Point, way: 'across' | 'up'): readonly Mark[] {
  const turned = way === 'up';
  const at = (along: number, below: number): Point =>
    turned ? { x: zero.x + below, y: zero.y - along } : { x: zero.x + along, y: zero.y + below };
  const tick = (along: number, from: number, to: number): readonly [Point, Point] => [
    at(along, from),
    at(along, to),
  ];
  const upper = Array.from({ length: 21 }, (_, n) =>
    tick(n * 5, 0, -(n % 10 === 0 ? 2.4 : n % 2 === 0 ? 1.6 : 1)),
  );
  const lower = Array.from({ length: 17 }, (_, n) =>
    tick((n * inch) / 4, 0.8, 0.8 + (n % 4 === 0 ? 2.4 : 1.2)),
  );
  const figure = (text: string, along: number, below: number): Mark =>
    wordsAround(face, 'scale bar', text, at(along, below), turned);
  return [
    ...lines('scale bar', [
      [at(0, 0), at(barMm, 0)],
      [at(0, 0.8), at(barInches * inch, 0.8)],
    ]),
    ...lines('scale bar', [...upper, ...lower]),
    words(face, 'scale bar', '0 mm', at(0, -3.2), turned),
    figure('50', 50, -4.3),
    figure('100', barMm, -4.3),
    words(face, 'scale bar', '0 in', at(0, 6.3), turned),
    ...[1, 2, 3, 4].map((n) => figure(`${n}`, n * inch, 5.2)),
  ];
}
