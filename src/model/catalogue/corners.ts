import { entry } from './entry.ts';

/** What can be wrong with walls that meet at corners: a part of the codes of `expand/`. */
export const cornerCodes = {
  E41: entry({
    severity: 'error',
    title: 'a mitre between different thicknesses',
    say: ({ one, other }: Meeting) =>
      `"${one.part}" is ${one.size} thick and "${other.part}" ${other.size}: no bevel of half the corner fits both`,
    hint: () => 'one material for both, or   corners: front through',
  }),
  E42: entry({
    severity: 'error',
    title: 'walls that leave too little room between them',
    say: ({ way, room, walls, inside }: Within) =>
      inside === undefined
        ? `the walls are ${walls} thick together ${way}, which leaves nothing within a room of ${room}`
        : `what stands within is ${inside} ${way}, and its walls leave ${room}`,
    hint: ({ inside }) =>
      inside === undefined
        ? 'thinner walls, a wider room, or solid layers in place of walls'
        : 'rest for its size, a wider room, or thinner walls',
  }),
  E43: entry({
    severity: 'error',
    title: 'a rebate that cuts nothing away, or all',
    say: ({ stays, part, thickness }: { stays: string; part: string; thickness: string }) =>
      `${stays} can't stay of "${part}", which is ${thickness} thick`,
    hint: ({ thickness }) => `what stays is more than 0 and less than ${thickness}`,
  }),
  E44: entry({
    severity: 'error',
    title: 'a wall whose stated length does not reach its corners',
    say: ({ part, stated, wanted, isFolded }: StatedLength) =>
      `"${part}" states a length of ${stated}; ${isFolded ? 'in the flat, for its corners,' : 'between its corners'} it is ${wanted}`,
    hint: ({ wanted }) => `rest for its length, or ${wanted}`,
  }),
  E45: entry({
    severity: 'error',
    title: 'one part with different edges',
    say: ({ part, here, there }: { part: string; here: string; there: string }) =>
      `"${part}" has ${here} here and ${there} there`,
    hint: () => 'make two parts of it:  like: NAME',
  }),
  E46: entry({
    severity: 'error',
    title: 'a mitre between different heights',
    say: ({ one, other }: Meeting) =>
      `"${one.part}" is ${one.size} high and "${other.part}" ${other.size}: above the lower one the slant would show`,
    hint: () => 'one height for both, or   corners: front through',
  }),
  E47: entry({
    severity: 'error',
    title: 'a wall whose end is not straight where it is cut for a corner',
    say: ({ part, side, why }: { part: string; side: string; why: 'cut into' | 'clad' | 'left larger' }) =>
      why === 'cut into'
        ? `"${part}" is cut into or bent at its ${side}, where it goes into a corner`
        : why === 'clad'
          ? `"${part}" is clad, and its ${side} goes into a corner`
          : `"${part}" is left larger at its ${side}, where it goes into a corner`,
    hint: () => 'a whole straight end there, or   corners: front through',
  }),
} as const;

interface StatedLength {
  readonly part: string;
  readonly stated: string;
  readonly wanted: string;
  /** Where it is a strip that is folded round its corners. */
  readonly isFolded?: true;
}

interface Within {
  readonly way: string;
  readonly room: string;
  readonly walls: string;
  /** How large what stands within is, where there is room for something. */
  readonly inside: string | undefined;
}

/** Two walls of one corner, and what of them differs. */
interface Meeting {
  readonly one: { readonly part: string; readonly size: string };
  readonly other: { readonly part: string; readonly size: string };
}
