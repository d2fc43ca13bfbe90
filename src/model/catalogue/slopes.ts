import type { Way } from '../build.ts';
import type { Side } from '../spec.ts';
import { entry } from './entry.ts';

/** What can be wrong with what slopes, climbs or bends: a part of the codes of `expand/`. */
export const slopeCodes = {
  E48: entry({
    severity: 'error',
    title: 'a slope that can not be',
    say: (it: NoSlope) => {
      switch (it.why) {
        case 'no run':
          return `"${it.part}" would rise ${it.rise} over a run of ${it.run}: steeper than upright`;
        case 'no rise':
          return `"${it.part}" would rise by ${it.rise} over a run of ${it.run}, so it does not slope`;
        case 'too short':
          return `"${it.part}" would be no longer than the ${it.thickness} that it is thick: it rises ${it.rise} over a run of ${it.run}`;
      }
    },
    hint: ({ why }) =>
      why === 'no rise'
        ? 'a rise above zero; to: says at which side it is high'
        : 'a longer run, or a wall that stands upright',
  }),
  E49: entry({
    severity: 'error',
    title: 'a size that follows and is stated',
    say: ({ part, size, why }: { part: string; size: Side; why: 'slope' | 'bend' | 'under' }) =>
      `the ${size} of "${part}" follows from ${why === 'slope' ? 'its slope' : why === 'bend' ? 'what it is bent over' : 'what it stands under'}`,
    hint: ({ size, why }) =>
      `let it be the rest:   ${size === 'length' ? 'size: [rest, …]' : 'size: […, rest]'}${
        why === 'under' ? '' : '   or say which way its length runs:   length: WAY'
      }`,
  }),
  E77: entry({
    severity: 'error',
    title: 'a length that has to be rounded',
    say: ({ part, size, found }: { part: string; size: Side; found: string; units: 'in' | 'mm' }) =>
      `the ${size} of "${part}" comes to ${found}, which no fraction says exactly`,
    hint: ({ units }) => `round it outward:   up to: ${units === 'in' ? '1/64' : '0.5'}`,
  }),
  E78: entry({
    severity: 'error',
    title: 'a rest above or below a slope without a run',
    say: ({ part }: { part: string }) =>
      `how high "${part}" comes follows from its run, so the rest beside it can't be told before`,
    hint: () => 'slope: { run: … }   with a measure, or no rest in its row',
  }),
  E79: entry({
    severity: 'error',
    title: 'top edges that no skin lies on together',
    say: ({ name, other, why }: { name: string; other: string; why: Apart }) => {
      switch (why.kind) {
        case 'lies':
          return `"${name}" lies flat, so it has no top edge to bend a skin over`;
        case 'ways':
          return `"${name}" runs ${why.one} and "${other}" ${why.other}: no skin bends over both`;
        case 'edges':
          return `"${name}" and "${other}" have different top edges: at ${why.where} ${why.way} the one is ${why.one} high, the other ${why.other}`;
        case 'reach':
          return `the top edge of "${name}" goes from ${why.one} ${why.way}, that of "${other}" from ${why.other}`;
      }
    },
    hint: () => 'cut them by one outline or master, and stand them in line',
  }),
  E88: entry({
    severity: 'error',
    title: 'a top edge that no skin follows',
    say: ({ part, name, why, where }: NoFollowing) => {
      switch (why.kind) {
        case 'turns back':
          return `the top edge of "${name}" turns back at ${where}, and "${part}" can't be laid round that from above`;
        case 'hollow':
          return `"${name}" has a hollow corner at ${where}, which "${part}" can't be bent into`;
        case 'tight':
          return `the hollow at ${where} of "${name}" has a radius of ${why.radius}; "${part}" is ${why.thickness} thick`;
      }
    },
    hint: () => 'round it more, or lay two skins that meet there',
  }),
  E89: entry({
    severity: 'error',
    title: 'a bend tighter than the material takes',
    say: (it: { part: string; material: string; radius: string; least: string; where: string }) =>
      `"${it.part}" is bent to a radius of ${it.radius} at ${it.where}; "${it.material}" takes ${it.least}`,
    hint: () => 'a larger radius, thinner card, or a score on the outside',
  }),
  E92: entry({
    severity: 'warning',
    title: 'grain or flutes that run round a bend',
    say: ({ part, what, way }: { part: string; what: 'grain' | 'flutes'; way: Way | undefined }) =>
      way === undefined
        ? `the ${what} of "${part}" may run any way; card bends evenly only across its ${what}`
        : `the ${what} of "${part}" would run ${way}, round the bend; card bends evenly only across its ${what}`,
    hint: ({ what }) =>
      `leave "${what}" out: what is bent over something has its ${what} along the axis of the bend`,
  }),
  E93: entry({
    severity: 'error',
    title: 'nothing there that slopes',
    say: ({ name }: { name: string }) => `"${name}" doesn't slope, so nothing is cut to stand under it`,
    hint: () => 'under: NAME  of a part with  slope:  in the build',
  }),
  E94: entry({
    severity: 'error',
    title: 'a climb of one',
    say: (_: Record<string, never>) => 'this stands once, so nothing climbs',
    hint: () => 'times: 3, every: 1, climb: 1/4',
  }),
} as const;

type NoSlope = { readonly part: string; readonly run: string; readonly rise: string } & (
  | { readonly why: 'no run' | 'no rise' }
  | { readonly why: 'too short'; readonly thickness: string }
);

type Apart =
  | { readonly kind: 'lies' }
  | { readonly kind: 'ways'; readonly one: Way; readonly other: Way }
  | {
      readonly kind: 'edges';
      readonly way: Way;
      readonly where: string;
      readonly one: string;
      readonly other: string;
    }
  | { readonly kind: 'reach'; readonly way: Way; readonly one: string; readonly other: string };

interface NoFollowing {
  readonly part: string;
  readonly name: string;
  readonly where: string;
  readonly why:
    | { readonly kind: 'turns back' | 'hollow' }
    | { readonly kind: 'tight'; readonly radius: string; readonly thickness: string };
}
