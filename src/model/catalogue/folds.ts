import { entry } from './entry.ts';

/** What can be wrong with parts that are folded: a part of the codes of `outline/`. */
export const foldCodes = {
  T30: entry({
    severity: 'error',
    title: 'a panel that its folds leave nothing of',
    say: ({ what, size, taken, thickness }: PanelTooShort) =>
      `${what} is ${size} on its outside, and the folds beside it take ${taken} of that, in material ${thickness} thick`,
    hint: ({ taken }) => `more than ${taken}, or a thinner material`,
  }),
  T31: entry({
    severity: 'error',
    title: 'folds that run into each other',
    say: ({ one, other, size }: { one: string; other: string; size: string }) =>
      `folded, ${other} runs into ${one}: they share ${size}`,
    hint: () =>
      'a shorter panel before it, or a smaller angle; what is glued inside is shorter by a thickness',
  }),
  T32: entry({
    severity: 'error',
    title: 'angles that do not go with the panels',
    say: ({ panels, found, wanted }: { panels: number; found: number; wanted: readonly number[] }) =>
      panels === 1 && wanted.length === 1
        ? `1 panel without a tab has no fold, and ${count(found, 'angle')} ${found === 1 ? 'is' : 'are'} given`
        : `${count(panels, 'panel')} fold at ${wanted.join(' or ')}, and ${count(found, 'angle')} ${found === 1 ? 'is' : 'are'} given`,
    hint: ({ panels, wanted }) =>
      panels === 1 && wanted.length === 1
        ? 'another panel, a tab, or a part with a size in place of folds'
        : 'one angle for each fold between two panels; those of tabs may be left out',
  }),
  T33: entry({
    severity: 'error',
    title: 'a fold by nothing, or by half a turn',
    say: ({ found }: { found: string }) => `a fold of ${found} is none, or leaves no room for the thickness`,
    hint: () => 'more than 0 and less than 180; below 0 it folds toward you',
  }),
  T34: entry({
    severity: 'error',
    title: 'a panel that is not there',
    say: ({ number, panels }: { number: number; panels: number }) =>
      `there is no panel ${number}: the strip has ${panels}`,
    hint: ({ panels }) => `1 to ${panels}; a tab before the first is none of them`,
  }),
  T35: entry({
    severity: 'error',
    title: 'a key that does not go with folds',
    say: ({ key }: { key: string }) =>
      `"${key}" stands beside folds, which say it already or leave it no edge`,
    hint: ({ key }) =>
      key === 'size' ? 'the length follows from the panels; the width goes into folds' : `leave "${key}" out`,
  }),
  T36: entry({
    severity: 'warning',
    title: 'folds across the grain or the flutes',
    say: ({ part, what }: { part: string; what: 'grain' | 'flutes' }) =>
      `"${part}" folds across its ${what}, where board resists, and cracks or tears`,
    hint: ({ what }) => `${what}: width   so that they run along the folds`,
  }),
  T37: entry({
    severity: 'error',
    title: 'laps without a panel that lies',
    say: ({ why }: { why: 'none' | 'round' }) =>
      why === 'none'
        ? 'no panel of it lies level, so nothing can be said to lap over what it lies on'
        : 'it is folded round on itself, so nothing of it laps over what it lies on',
    hint: () => 'base: 2   says which panel lies level',
  }),
  T38: entry({
    severity: 'error',
    title: 'a tray that can not be folded',
    say: ({ what, size, wanted }: { what: string; size: string; wanted: string }) =>
      `the ${what} of the tray is ${size}; it has to be ${wanted}`,
    hint: ({ what, wanted }) =>
      what !== 'tab'
        ? `${wanted}, or a thinner material`
        : wanted.startsWith('less')
          ? `${wanted}: shorter than its walls are high and than half its width`
          : `${wanted}: a fold on it, and a thickness beside that`,
  }),
  T39: entry({
    severity: 'error',
    title: 'walls that can not be folded out of one strip',
    say: ({ why, parts }: NoStrip) => {
      const all = parts.map((it) => `"${it}"`).join(', ');
      switch (why) {
        case 'parts':
          return `folded walls are one strip, and so one part; here are ${all}`;
        case 'turned':
          return `folded walls have the good side of ${all} outside, and can be turned no other way`;
        case 'drawn':
          return `${all} has a shape of its own, and folded walls are cut from a strip whose length follows`;
        case 'open':
          return `${all} does not go all the way round, and a tab is glued behind the first wall, where the last one meets it`;
        case 'elsewhere':
          return `${all} is folded in one place, and is another strip or no strip in another`;
      }
    },
    hint: ({ why }) => {
      if (why === 'parts') return 'one part on all sides, or   corners: mitre';
      if (why === 'turned') return 'leave "facing", "flip" and "mirrored" out';
      if (why === 'open') return 'leave "tab" out, or a wall on each side';
      return why === 'drawn'
        ? 'size: [rest, …], and cuts on the strip or on its walls, as in   on: front'
        : 'a part of its own for each';
    },
  }),
  T42: entry({
    severity: 'error',
    title: 'a cut or a mark on a wall that is not there',
    say: ({ side, walls }: { side: string; walls: readonly string[] }) =>
      walls.length === 0
        ? `"on: ${side}" is a wall of those that are folded round a room, and this part is not`
        : `"on: ${side}": no wall is folded there; there are ${walls.join(', ')}`,
    hint: ({ walls }) =>
      walls.length === 0
        ? 'size: [rest, …] in a frame with   corners: fold   or leave "on" out'
        : `one of ${walls.join(', ')}`,
  }),
  T43: entry({
    severity: 'error',
    title: 'a cut or a mark that goes into a fold',
    say: ({ cut, wall, takes, at, has }: OnWall) =>
      takes === undefined
        ? `the ${cut} lies ${at} along the ${wall}, which is flat from ${has}`
        : `the ${cut} takes ${takes} of the ${wall}, which is flat from ${has}`,
    hint: ({ takes, has }) =>
      takes === undefined
        ? `within ${has}, measured from its left corner`
        : `within ${has}, measured from its left corner; across a corner it is cut in two, one on each wall`,
  }),
  T44: entry({
    severity: 'warning',
    title: 'a cut that takes some of a fold',
    say: ({ cut, fold, long, left }: FoldCut) =>
      `the ${cut} goes over ${fold}: of its ${long} there is left ${left.join(' and ')}`,
    hint: () =>
      'accepted: { folds cut: WHY }   where it is meant, as a window round a corner; else move it clear of the fold',
  }),
  T45: entry({
    severity: 'error',
    title: 'a cut that leaves too little of a fold',
    say: ({
      cut,
      fold,
      long,
      left,
      thin,
      thickness,
    }: FoldCut & { thin: string | undefined; thickness: string }) =>
      thin === undefined
        ? `the ${cut} takes all ${long} of ${fold}, so nothing is left to fold there`
        : `the ${cut} goes over ${fold}: of its ${long} there is left ${left.join(' and ')}; ${thin} in one place is less than the material is thick, ${thickness}`,
    hint: ({ thickness }) =>
      `leave at least ${thickness} of the fold wherever some of it is left, or move it clear of the fold`,
  }),
} as const;

/** What a cut takes of a wall, from where to where; or where a point of a mark lies on it. */
type OnWall = { readonly cut: string; readonly wall: string; readonly has: string } & (
  | { readonly takes: string; readonly at?: undefined }
  | { readonly takes: undefined; readonly at: string }
);

interface FoldCut {
  readonly cut: string;
  /** `fold 2, 28 mm from the left`, `the fold between the front and the right`. */
  readonly fold: string;
  readonly long: string;
  /** `0 mm to 6 mm`, from its low end. */
  readonly left: readonly string[];
}

interface NoStrip {
  readonly why: 'parts' | 'turned' | 'drawn' | 'open' | 'elsewhere';
  readonly parts: readonly string[];
}

interface PanelTooShort {
  /** `panel 2`, `the tab`. */
  readonly what: string;
  readonly size: string;
  readonly taken: string;
  readonly thickness: string;
}

function count(number: number, what: string): string {
  return `${number} ${what}${number === 1 ? '' : 's'}`;
}
