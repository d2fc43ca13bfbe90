import { expect, it } from 'vitest';
import { millimetres, rational, sum } from '../../../src/measure/index.ts';
import type { Length } from '../../../src/model/index.ts';
import { sizesOf } from '../../../src/print/page/sizes.ts';
import { wordsOfStep } from '../../../src/print/page/stepWords.ts';
import {
  crosscut,
  demand,
  inch,
  inRow,
  kind,
  layouts,
  leftOver,
  member,
  part,
  settings,
  sheet,
} from '../../plan/byHand.ts';
import { plan } from '../../plan/planned.ts';

const hair = millimetres(rational(1n, 50n));

/** The words of the one cut step of a sheet: so many parts of 1 in, then perhaps one of 2 in, and the rest. */
function said(count: number, rest: Length, alsoTwo = false): string | undefined {
  const kinds = [
    kind(inch(1), inch(2), [member('a', count)]),
    kind(inch(2), inch(2), [member('b', 1)]),
  ] as const;
  const asked = demand(kinds, [sheet(sum(inch(alsoTwo ? count + 2 : count), rest), inch(2))]);
  const end = alsoTwo ? crosscut(inch(2), part(1), leftOver) : leftOver;
  const tree = inRow(crosscut, count, inch(1), part(0), end);
  const [planned] = plan([layouts(asked, [{ sheet: 0, tree, times: 1 }])], settings);
  const step = planned!.sheets[0]!.steps.find((it) => it.kind === 'crosscut');
  return wordsOfStep(step!, sizesOf(settings))[0]?.replaceAll('\u00a0', ' ');
}

it('tells a rest that is too thin for a strip as trimming, and any other as scrap', () => {
  expect(said(1, hair)).toBe('Crosscut the sheet, trimming it to 1 → a');
  expect(said(1, inch(0, 1, 2))).toBe('Crosscut the sheet at 1 → a; rest scrap');
  expect(said(3, hair)).toBe(
    'Crosscut the sheet at 1 · 2 · 3 → 3 × a (stop at 1, cut 3, the last to trim it)',
  );
  expect(said(1, hair, true)).toBe('Crosscut the sheet at 1 → a; trim to 3 → b, 2 wide');
});
