import { entry } from './entry.ts';

/** Sizes as texts, ready to be shown: `14 3/8 × 2 in`. */
interface PartAndSheet {
  readonly part: string;
  readonly needs: string;
  readonly sheet: string;
}

/** The codes of `pack/`. A code is never reused or renumbered. */
export const packCodes = {
  P01: entry({
    severity: 'error',
    title: 'part larger than every sheet',
    say: ({ part, needs, sheet }: PartAndSheet) =>
      `"${part}" needs ${needs}; the sheet that comes closest has ${sheet}`,
    hint: () => 'a larger sheet, or a part in two pieces',
  }),
  P02: entry({
    severity: 'error',
    title: 'part fits only against its grain or flutes',
    /** `needs`: as it lies then; undefined where no sheet of the size lets it lie so. */
    say: ({
      part,
      needs,
      sheet,
      fact,
    }: Omit<PartAndSheet, 'needs'> & {
      needs: string | undefined;
      fact: string;
      /** What a sheet would say that is the same, and made the other way. */
      otherWay: string | undefined;
    }) =>
      needs === undefined
        ? `no sheet that is large enough lets "${part}" lie with its ${fact} as asked`
        : `laid with its ${fact} as asked, "${part}" takes ${needs}; the sheet that comes closest has ${sheet}`,
    hint: ({ fact, otherWay }) =>
      (fact === 'grain and flutes'
        ? 'any  for its grain or flutes, if the material allows it'
        : `${fact}: any  if the material allows it`) +
      (otherWay === undefined ? '' : `; or a sheet of that size with   ${otherWay}`),
  }),
  P03: entry({
    severity: 'error',
    title: 'part fits only if nothing were trimmed',
    say: ({ part, needs, sheet, whole }: PartAndSheet & { whole: string }) =>
      `"${part}" needs ${needs}; the trim leaves ${sheet} of a sheet of ${whole}`,
    hint: () => 'less trim, if the edges of the sheet are good',
  }),
  P04: entry({
    severity: 'error',
    title: 'sheets used up',
    say: ({ parts, material, count, tooLarge }: UsedUp) =>
      `the sheets of "${material}" are used up; ${count} ${count === 1 ? 'part finds' : 'parts find'} no place: ${parts}${tooLarge === undefined ? '' : `; the trim of a sheet of ${tooLarge.sheet} takes a longer cut than ${tooLarge.longest}`}`,
    hint: ({ tooLarge }) =>
      tooLarge === undefined
        ? 'more sheets, or fewer tiles'
        : 'no trim where the edges are good, a longer  longest cut:  or smaller sheets',
  }),
  P05: entry({
    severity: 'error',
    title: 'no sheets of a material',
    say: ({ material }: { material: string }) => `there is no sheet of "${material}" to cut its parts from`,
    hint: ({ material }) => `an entry for "${material}" under  sheets:`,
  }),
  P06: entry({
    severity: 'error',
    title: 'measures without a common step',
    say: ({
      material,
      odd,
      longest,
      most,
    }: {
      material: string;
      odd: string;
      longest: string;
      most: number;
    }) =>
      `the measures of "${material}" have no common step that goes into ${longest} at most ${most} times; ${odd} is the odd one`,
    hint: ({ odd }) => `${odd} rounded as the rest are, e.g.  (… up to 1/64)`,
  }),
  P07: entry({
    severity: 'error',
    title: 'part narrower than the least strip',
    say: ({ part, size, least }: { part: string; size: string; least: string }) =>
      `"${part}" is ${size}; no strip under ${least} may be cut off`,
    hint: () => 'a smaller  least strip:  or a wider part, trimmed by hand later',
  }),
  P08: entry({
    severity: 'error',
    title: 'limits on cuts leave no way to a part',
    say: ({ part, needs, sheet, limit }: PartAndSheet & { limit: string }) =>
      `"${part}" of ${needs} can't be cut from a sheet of ${sheet} ${limit}`,
    hint: () => 'a looser  longest cut:  or  least strip:  or  rounds:  or another size of sheet',
  }),
  P09: entry({
    severity: 'error',
    title: 'kerf wider than a part',
    say: ({ part, size, kerf }: { part: string; size: string; kerf: string }) =>
      `the kerf of ${kerf} is wider than "${part}", which is ${size}`,
    hint: ({ kerf }) => `is the kerf really ${kerf}?`,
  }),
  P11: entry({
    severity: 'error',
    title: 'a block thinner than its layers',
    say: ({ material, thick, thickness }: { material: string; thick: string; thickness: string }) =>
      `the block is ${thick} thick, and a layer of "${material}" ${thickness}`,
    hint: ({ thickness }) => `thick: ${thickness} or more, or a thinner material`,
  }),
  P10: entry({
    severity: 'error',
    title: 'sheet too large to be squared up',
    say: ({ material, part, sheet, longest }: Unsquared) =>
      `"${material}": the trim of a sheet of ${sheet} takes a longer cut than ${longest}; no other sheet has room for parts such as "${part}"`,
    hint: () => 'no trim where the edges are good, a longer  longest cut:  or smaller sheets',
  }),
} as const;

interface UsedUp {
  readonly parts: string;
  readonly material: string;
  readonly count: number;
  /** There is a sheet that the limit on cuts keeps from being squared up. */
  readonly tooLarge: { readonly sheet: string; readonly longest: string } | undefined;
}

interface Unsquared {
  readonly material: string;
  /** The first of all parts that lie on no other sheet. */
  readonly part: string;
  readonly sheet: string;
  readonly longest: string;
}
