import { describe, expect, it } from 'vitest';
import { toDrawnMm } from '../../../src/measure/index.ts';
import type { Words } from '../../../src/print/page/index.ts';
import { areaOfPoints } from '../../../src/print/page/mark.ts';
import { pictureOf } from '../../../src/print/page/picture.ts';
import { sizesOf } from '../../../src/print/page/sizes.ts';
import { areaOf } from '../../../src/print/page/type.ts';
import { crosscut, demand, kind, leftOver, member, mm, part, rip, sheet } from '../../plan/byHand.ts';
import { vineyard, withLayouts } from './evening.ts';
import { face } from './face.ts';

/** A sheet of 300 × 200: strips up it, one of them cut across into strips again, one of these too narrow for a letter. */
const nested = withLayouts(
  'Strips in strips',
  demand(
    [kind(mm(100), mm(60), [member('wall', 4)]), kind(mm(40), mm(3), [member('rail', 3)])],
    [sheet(mm(300), mm(200))],
  ),
  [
    rip(
      mm(60),
      crosscut(mm(100), part(0), crosscut(mm(100), part(0), crosscut(mm(40), rails(3), leftOver))),
      rip(mm(60), crosscut(mm(100), part(0), crosscut(mm(100), part(0), leftOver)), leftOver),
    ),
  ],
);

function rails(count: number): ReturnType<typeof rip> {
  return rip(mm(3), part(1), count === 1 ? leftOver : rails(count - 1));
}

describe('the letter of a strip', () => {
  it.each([
    ['of an evening', vineyard()],
    ['of strips in strips', nested],
  ])('stands in every picture %s', (_, { plans, batch }) => {
    const sizes = sizesOf(batch.settings);
    const strips = plans.flatMap((plan) =>
      plan.sheets.flatMap((it) => {
        const { marks } = pictureOf(face, sizes, plan.demand, it, 4, { x: 10, y: 30 });
        const written = new Set(marks.flatMap((mark) => (isStripName(mark) ? [mark.text] : [])));
        return it.strips.map(({ name }) => ({ name, has: written.has(name.replace('strip ', '')) }));
      }),
    );
    expect(strips.length).toBeGreaterThan(2);
    expect(strips.filter(({ has }) => !has)).toEqual([]);
  });

  it('stands in the scrap of its own strip where it has some, within that strip', () => {
    const [plan] = nested.plans;
    const [it] = plan!.sheets;
    const { marks } = pictureOf(face, sizesOf(nested.batch.settings), plan!.demand, it!, 1, { x: 0, y: 0 });
    const narrow = it!.strips.find(({ box }) => toDrawnMm(box.length) === 40)!;
    const letter = marks.filter(isStripName).find(({ text }) => text === narrow.name.replace('strip ', ''))!;
    // The sheet is where its outline is drawn.
    const [sheetLine] = marks.flatMap((mark) =>
      mark.kind === 'stroke' && mark.role === 'sheet outline' ? mark.paths : [],
    );
    const { left, bottom } = areaOfPoints(sheetLine!.points);
    const words = areaOf(letter);
    const from = { x: left + toDrawnMm(narrow.box.left), y: bottom - toDrawnMm(narrow.box.bottom) };
    expect(words.left).toBeGreaterThan(from.x);
    expect(words.right).toBeLessThan(from.x + 40);
    // Beyond the three rails of 3 mm.
    expect(words.bottom).toBeLessThan(from.y - 9);
    expect(words.top).toBeGreaterThan(from.y - 60);
  });
});

function isStripName(mark: { readonly kind: string }): mark is Words {
  return mark.kind === 'words' && (mark as Words).role === 'strip name'; // words by its kind
}
