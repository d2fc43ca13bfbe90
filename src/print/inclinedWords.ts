import { millimetres, toFraction } from '../measure/index.ts';
import type { Bend, DrawnPart, Enclosure, Length, Side, Slope, StandingPart } from '../model/index.ts';
import { middleOf } from '../outline/index.ts';
import { listed } from './enumerated.ts';

type Inclining = Pick<DrawnPart, 'inclined'>;

interface Style {
  /** A mark, with its error where no rule has it. */
  readonly brief: (length: Length) => string;
}

/** `truly 4 3/32 full (+0.0049) long; slopes 3/4 over 4`, `bend over cheek 1 and cheek 2, this face out`: in a list. */
export function inclinedBriefly({ inclined }: Inclining, isTurned: boolean, style: Style): readonly string[] {
  if (inclined === undefined) return [];
  const { how, roundedTo, truly, size } = inclined;
  const long = (size === 'length') === isTurned ? 'wide' : 'long';
  const true_ =
    roundedTo === undefined
      ? []
      : [`truly ${near(truly, style).replace(/\u00a0(full|scant)/u, ' $1')} ${long}`];
  if (how.kind === 'bend') return [...true_, `bend over ${listed(how.over)}, ${faceOut(how)}`];
  return [...true_, `slopes ${style.brief(how.rise)} over ${style.brief(how.run)}`, ...gapWords(how, style)];
}

/** `deck 3 over 4, 5/64 thick upright`: what of a piece tells the sizes of others, once for each part. */
export function inclinedParts(
  parts: readonly Pick<StandingPart, 'part' | 'inclined'>[],
  style: Style & { readonly clean: (text: string) => string },
): readonly string[] {
  const told = parts.flatMap(({ part, inclined }): readonly string[] => {
    if (inclined === undefined) return [];
    const { how, truly, size } = inclined;
    const name = style.clean(part);
    if (how.kind === 'bend')
      return [`${name} truly ${near(truly, style)} ${size === 'length' ? 'long' : 'wide'}`];
    const slope = `${name} ${style.brief(how.rise)} over ${style.brief(how.run)}`;
    return [[`${slope}, ${near(how.plumb, style)} thick upright`, ...gapWords(how, style)].join(', ')];
  });
  return [...new Set(told)];
}

/** `what is cut into skin is not seen here`: what no verdict on its tile knows of. */
export function takenWhole(
  parts: readonly Pick<StandingPart, 'part' | 'isTakenWhole'>[],
  clean: (text: string) => string,
): readonly string[] {
  const names = parts.flatMap(({ part, isTakenWhole }) => (isTakenWhole === true ? clean(part) : []));
  if (names.length === 0) return [];
  const all = [...new Set(names)];
  return [`taken for whole, whatever is cut into ${all.length === 1 ? 'it' : 'them'}: ${listed(all)}`];
}

/** What its net size was rounded outward to, and what it is truly. */
export function inclinedAbout(
  { inclined }: Inclining,
  style: Style & { readonly fine: (length: Length) => string },
): readonly string[] {
  if (inclined?.roundedTo === undefined) return [];
  const { roundedTo, truly, size } = inclined;
  return [`its ${size} rounded outward to ${style.fine(roundedTo)}, truly ${near(truly, style)}`];
}

/** How a part slopes, or how it is bent: whole sentences. */
export function inclinedRows({ inclined }: Inclining, style: Style): readonly string[] {
  if (inclined === undefined) return [];
  const { how, size } = inclined;
  return how.kind === 'slope' ? slopeRows(how, style) : bendRows(how, size, style);
}

function slopeRows(how: Slope, style: Style): readonly string[] {
  const gaps = gapWords(how, style);
  return [
    `It slopes ${style.brief(how.rise)} up over ${style.brief(how.run)} level. Measured upright it is ` +
      `${near(how.plumb, style)} thick: so much lower is the top edge of what stands beneath it.`,
    ...gaps.map((it) => `Its ends are cut square: ${it}.`),
  ];
}

function gapWords({ gap, ends }: Slope, style: Style): readonly string[] {
  if (ends === 'plumb') return [];
  return [`a gap of ${near(gap, style)} at either end, below at the low one, above at the high one`];
}

function bendRows(how: Bend, size: Side, style: Style): readonly string[] {
  const axis = size === 'length' ? 'width' : 'length';
  const faces = { outer: 'its outer face', middle: 'the middle of its thickness', inner: 'its inner face' };
  const { leastRadius: least } = how;
  const tightest =
    least === undefined ? '' : `; its tightest bend has a radius of ${near(least, style)} inside`;
  return [
    `Bend it over ${listed(how.over)}, ${faceOut(how)}, round an axis along its ${axis}: its ${size} is that of ` +
      `${faces[how.face]}${tightest}. It goes on last.`,
  ];
}

function faceOut({ isGoodOut }: Bend): string {
  return isGoodOut ? 'this face out' : 'this face in';
}

/** The same text for what is told alike. */
export function inclinedKey({ inclined }: Inclining): string {
  if (inclined === undefined) return '';
  const { how, truly, size } = inclined;
  const numbers = [truly.lo, truly.hi, ...(how.kind === 'slope' ? [how.run, how.rise] : [])];
  const words = how.kind === 'slope' ? [how.ends] : [how.face, ...how.over, faceOut(how)];
  return [size, how.kind, ...words, ...numbers.map(toFraction)].join(' ');
}

/** In the middle of where it may be: closer than any rule. */
export function near(about: Enclosure<Length>, { brief }: Pick<Style, 'brief'>): string {
  return brief(millimetres(middleOf(about)));
}
