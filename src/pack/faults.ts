import { compare, multiply, showExact, smaller, toInches } from '../measure/index.ts';
import {
  atSpan,
  type CutRules,
  type Diagnostic,
  diagnose,
  type FileUnits,
  type Length,
  type MaterialDemand,
  type NonEmpty,
  nowhere,
  type PartKind,
  type SheetKind,
} from '../model/index.ts';
import { mostCells } from './grid.ts';
import { Lie } from './job.ts';
import { liesByGrain } from './orientation.ts';
import { canBeSquared, usable } from './pose.ts';

interface Size {
  readonly length: Length;
  readonly width: Length;
}

/**
 * Why a part has no sheet at all to lie on. Of several reasons the plainest is told: its size alone, then
 * the trim alone, then grain and flutes, then the limits on strips and cuts.
 */
export function whyNowhere(
  part: PartKind,
  sheets: NonEmpty<SheetKind>,
  { material, rules }: Pick<MaterialDemand, 'material' | 'rules'>,
): Diagnostic {
  const at = atSpan(part.members[0].at);
  const show = shownLike(part, sheets);
  const facts = { part: part.members[0].label, needs: show(part) };
  const bySize = sheets.filter((sheet) => fits(part, sheet, bothWays));
  if (!isNonEmpty(bySize)) return diagnose('P01', at, { ...facts, sheet: show(largest(sheets)) });

  const byTrim = bySize.filter((sheet) => fits(part, usable(sheet), bothWays));
  if (!isNonEmpty(byTrim)) {
    const sheet = largest(bySize);
    return diagnose('P03', at, { ...facts, sheet: show(usable(sheet)), whole: show(sheet) });
  }
  const byGrain = byTrim.filter((sheet) => fits(part, usable(sheet), liesByGrain(part, sheet)));
  if (!isNonEmpty(byGrain)) {
    const sheet = largest(byTrim);
    const lies = liesByGrain(part, sheet);
    const laid = lies === Lie.turned ? { length: part.width, width: part.length } : part;
    const needs = lies === 0 ? undefined : show(laid);
    const asked = factsAsked(part);
    return diagnose('P02', at, {
      ...facts,
      needs,
      sheet: show(usable(sheet)),
      fact: asked.join(' and '),
      otherWay: lies === 0 ? undefined : madeTheOtherWay(sheet, asked),
    });
  }
  const unit = unitOf(part);
  const { longestCut } = rules;
  if (longestCut !== undefined && byGrain.every((sheet) => !canBeSquared(sheet, longestCut))) {
    const longest = showExact(longestCut, unit);
    const sheet = show(largest(byGrain));
    return diagnose('P10', at, { material: material.name, part: facts.part, sheet, longest });
  }
  const least = showExact(rules.leastStrip, unit);
  if (compare(smaller(part.length, part.width), rules.leastStrip) < 0) {
    return diagnose('P07', at, { part: facts.part, size: facts.needs, least });
  }
  const limits = [
    ...(rules.longestCut === undefined ? [] : [`with cuts of at most ${showExact(rules.longestCut, unit)}`]),
    ...(rules.leastStrip.numerator === 0n ? [] : [`without a strip under ${least}`]),
    ...(rules.rounds === undefined
      ? []
      : [`in ${rules.rounds} ${rules.rounds === 1 ? 'round' : 'rounds'} of cuts`]),
  ];
  return diagnose('P08', at, {
    ...facts,
    sheet: show(usable(largest(byGrain))),
    limit: limits.join(' and '),
  });
}

/** A kerf as wide as the part itself is a slip of the pen far more often than a tool. */
export function kerfTooWide(part: PartKind, { kerf }: CutRules): Diagnostic | undefined {
  if (compare(kerf, smaller(part.length, part.width)) < 0) return undefined;
  return diagnose('P09', atSpan(part.members[0].at), {
    part: part.members[0].label,
    size: shownLike(part)(part),
    kerf: showExact(kerf, unitOf(part)),
  });
}

export function noSheets({ material }: MaterialDemand): Diagnostic {
  return diagnose('P05', atSpan(material.at), { material: material.name });
}

export function tooFine({ material, parts }: MaterialDemand, odd: Length, longest: Length): Diagnostic {
  const unit = unitOf(parts[0]);
  return diagnose('P06', atSpan(material.at), {
    material: material.name,
    odd: showExact(odd, unit),
    longest: showExact(longest, unit),
    most: mostCells,
  });
}

/** @param left  how many parts of each kind found no place though sheets of their size exist */
export function sheetsUsedUp(
  { material, parts, sheets, rules }: MaterialDemand,
  left: readonly number[],
): Diagnostic {
  const short = left.flatMap((count, i) => (count > 0 ? [{ part: parts[i]!, count }] : []));
  const named = short.map(({ part, count }) => {
    const labels = part.members.map(({ label }) => `"${label}"`).join(' or ');
    return `${count} × ${labels}`;
  });
  const first = short[0]?.part;
  const { longestCut } = rules;
  const untrimmed =
    longestCut === undefined ? [] : sheets.filter((sheet) => !canBeSquared(sheet, longestCut));
  return diagnose('P04', first === undefined ? nowhere : atSpan(first.members[0].at), {
    parts: named.join(', '),
    material: material.name,
    count: left.reduce((sum, count) => sum + count, 0),
    tooLarge:
      longestCut !== undefined && first !== undefined && isNonEmpty(untrimmed)
        ? {
            sheet: shownLike(first, untrimmed)(largest(untrimmed)),
            longest: showExact(longestCut, unitOf(first)),
          }
        : undefined,
  });
}

const bothWays = Lie.straight | Lie.turned;

function fits(part: Size, sheet: Size, ways: number): boolean {
  const fitsLying = (along: Length, across: Length) =>
    compare(along, sheet.length) <= 0 && compare(across, sheet.width) <= 0;
  return (
    ((ways & Lie.straight) !== 0 && fitsLying(part.length, part.width)) ||
    ((ways & Lie.turned) !== 0 && fitsLying(part.width, part.length))
  );
}

function largest(sheets: NonEmpty<SheetKind>): SheetKind {
  const area = (sheet: SheetKind) => multiply(sheet.length, sheet.width);
  const [first, ...others] = sheets;
  return others.reduce((a, b) => {
    const [areaOfA, areaOfB] = [area(a), area(b)];
    const isSmaller = areaOfA.numerator * areaOfB.denominator < areaOfB.numerator * areaOfA.denominator;
    return isSmaller ? b : a;
  }, first);
}

function factsAsked(part: PartKind): readonly ('grain' | 'flutes')[] {
  return (['grain', 'flutes'] as const).filter((fact) => part[fact] !== 'any');
}

/** `grain: width` of a sheet whose grain runs along its length. */
function madeTheOtherWay(sheet: SheetKind, facts: readonly ('grain' | 'flutes')[]): string {
  const turned = { length: 'width', width: 'length' } as const;
  return facts
    .flatMap((fact) => {
      const runs = sheet[fact];
      return runs === 'length' || runs === 'width' ? [`${fact}: ${turned[runs]}`] : [];
    })
    .join(', ');
}

/**
 * In the unit of the part; where a sheet of another is told beside it, each in its own, and what is in inches in
 * millimetres too: `3 × 12 in (76.2 × 304.8 mm)` beside `297 × 210 mm`.
 */
function shownLike(part: Size, sheets: readonly Size[] = []): (size: Size) => string {
  const unit = unitOf(part);
  const isMixed =
    sheets.some((it) => unitsOf(it).some((own) => own !== unit)) || new Set(unitsOf(part)).size > 1;
  if (!isMixed) return (size) => inUnits(size, [unit, unit]);
  return (size) => {
    const own = unitsOf(size);
    const exact = inUnits(size, own);
    return own.includes('in') ? `${exact} (${inUnits(size, ['mm', 'mm'])})` : exact;
  };
}

function inUnits({ length, width }: Size, [along, across]: readonly [FileUnits, FileUnits]): string {
  const long = showExact(length, along);
  return `${along === across ? long.replace(/ (in|mm)$/, '') : long} × ${showExact(width, across)}`;
}

/** Each side in the unit in which it is round; where it is in both, in that of the whole size. */
function unitsOf(size: Size): readonly [FileUnits, FileUnits] {
  const sideOf = (side: Length): FileUnits => {
    const [inMm, inInches] = [side.denominator, toInches(side).denominator];
    return inMm === inInches ? unitOf(size) : inInches < inMm ? 'in' : 'mm';
  };
  return [sideOf(size.length), sideOf(size.width)];
}

/** The unit in which the sizes are round, which is the one they were written in. */
function unitOf({ length, width }: Size): FileUnits {
  const inMm = length.denominator * width.denominator;
  const inInches = toInches(length).denominator * toInches(width).denominator;
  return inInches <= inMm ? 'in' : 'mm';
}

function isNonEmpty<T>(list: readonly T[]): list is NonEmpty<T> {
  return list.length > 0;
}
