import {
  bareExact,
  errorText,
  exactDecimal,
  inches,
  isNegative,
  isZero,
  millimetres,
  minus,
  mixedText,
  rational,
  showExact,
  showLength,
  showThickness,
} from '../../measure/index.ts';
import { type Changes, largestDrift, type PartDrift, type Rounded } from '../../mend/units/index.ts';
import {
  type FileUnits,
  type Length,
  lineOf,
  positionOf,
  type Span,
  type TileFit,
} from '../../model/index.ts';
import { type Column, clean, type Lines, type Look, paragraph, signsOf, table } from '../columns/index.ts';

/**
 * What rounding, other boards or another scale have cost: what each base size became, each part before and after,
 * and how every tile stands.
 *
 * @param to  the unit that the kit is written in now
 */
export function printConversion(changes: Changes, to: FileUnits, look: Look): string {
  const { rounded } = changes;
  const lines = [
    ...(rounded === undefined
      ? []
      : [
          ...summary(rounded, to, look),
          '',
          ...baseTable(changes.before.batch.settings.firstUnit, rounded, to, look),
          '',
        ]),
    ...partTable(changes, to, look),
    '',
    ...tileTable(changes, look),
  ];
  return `${lines.map((line) => line.trimEnd()).join('\n')}\n`;
}

function summary({ step, bases, rounding }: Rounded, to: FileUnits, look: Look): Lines {
  const moved = bases.filter((_, at) => !isZero(driftAt({ bases, rounding }, at))).length;
  const { drift, isProved, ruledOut, together, sizes, halfCircles } = rounding;
  const isNearest = ruledOut.bySums + ruledOut.byRuns === 0;
  const proof = isProved
    ? isNearest
      ? 'each is the nearest, so no choice has less'
      : `no choice has less: ${counted(ruledOut.bySums, 'other choice')} ruled out by a sum, ${ruledOut.byRuns} by putting the tiles together`
    : 'whether another choice has less was not decided';
  const choice =
    sizes === undefined
      ? ['each size is rounded by itself, half up, since no choice was found with which all tiles stand']
      : together === 0
        ? ['no tile leans on a size that changes, so each is rounded by itself, half up']
        : [
            `${counted(together, 'size')} chosen together, so that every tile stands as before${keptWords(halfCircles)}`,
            `drift of these in all ${showExact(drift, 'mm')}; ${proof}`,
            oneByOneWords(rounding),
          ];
  return [
    `Base sizes in steps of ${showExact(step, to)}`,
    ...[
      `${moved} of ${bases.length} changed; what follows from them is worked out anew`,
      ...choice,
      ...bentWords(bases, halfCircles),
    ].flatMap((it) => paragraph(it, look.width, '  ')),
  ];
}

type Rounding = Rounded['rounding'];

function keptWords({ count, bent }: Rounding['halfCircles']): string {
  return count === 0 || bent.length > 0 ? '' : `, and ${counted(count, 'half circle')} as well`;
}

function oneByOneWords({ wouldFall, halfCircles: { wouldBend } }: Rounding): string {
  const wrong = [
    ...(wouldFall.length === 0 ? [] : [`${listed(wouldFall)} would not stand`]),
    ...(wouldBend === 0 ? [] : [`${counted(wouldBend, 'half circle')} would be bent`]),
  ];
  return wrong.length === 0
    ? 'each size rounded by itself, half up, would do as well'
    : `with each size rounded by itself, half up, ${wrong.join(', and ')}`;
}

/** What became of an arc that could not be kept. */
function bentWords(bases: Rounded['bases'], { bent }: Rounding['halfCircles']): readonly string[] {
  const told = bent.slice(0, mostListed).map(({ base, off }) => {
    const { line, column } = positionOf(bases[base]!.asRead); // it is one of them
    return `the arc at ${line}:${column} is no half circle any more: chord less twice its rise or radius ${errorText(off, 'mm')} mm`;
  });
  const more = bent.length - told.length;
  return more <= 0 ? told : [...told, `and ${counted(more, 'arc')} more`];
}

function baseTable(from: FileUnits, rounded: Rounded, to: FileUnits, look: Look): Lines {
  const headings: readonly Column[] = [
    { heading: 'base size', align: 'left', wraps: true },
    { heading: `was, ${from}`, align: 'right', wraps: false },
    { heading: `is, ${to}`, align: 'right', wraps: false },
    { heading: 'drift, mm', align: 'right', wraps: false },
  ];
  const isOfOneFile = new Set(rounded.bases.map(({ asRead }) => asRead.source)).size === 1;
  const rows = rounded.bases.flatMap(({ asRead, worth }, at): readonly (readonly string[])[] => {
    const drift = driftAt(rounded, at);
    if (isZero(drift)) return [];
    const { line, column } = positionOf(asRead);
    const file = isOfOneFile ? '' : `${clean(asRead.source.path)}:`;
    const where = `${file}${line}:${column}  ${endingWith(asRead, look)}`;
    return [[where, bareExact(worth, from), bareExact(sizeAt(rounded, at), to), signed(drift)]];
  });
  if (rows.length === 0) return ['every base size is in step already'];
  return table(headings, rows, { columns: look.width, rule: signsOf(look).rule });
}

function sizeAt({ bases, rounding }: Pick<Rounded, 'bases' | 'rounding'>, at: number): Length {
  const { choices, worth } = bases[at]!; // asked for numbers of bases alone
  return rounding.sizes?.[at] ?? choices[0] ?? worth;
}

function driftAt(rounded: Pick<Rounded, 'bases' | 'rounding'>, at: number): Length {
  return minus(sizeAt(rounded, at), rounded.bases[at]!.worth);
}

function partTable({ before, parts, rounded }: Changes, to: FileUnits, look: Look): Lines {
  const { firstUnit } = before.batch.settings;
  const { times, rule } = signsOf(look);
  const pair = (length: Length, width: Length, unit: FileUnits): string => {
    const step = unit === to ? rounded?.step : undefined;
    return `${readable(length, unit, step)} ${times} ${readable(width, unit, step)}`.replaceAll(
      ' ',
      '\u00a0',
    );
  };
  const headings: readonly Column[] = [
    { heading: 'part', align: 'left', wraps: true },
    { heading: `was, ${firstUnit}`, align: 'right', wraps: false },
    { heading: `is, ${to}`, align: 'right', wraps: false },
    { heading: 'drift, mm', align: 'right', wraps: false },
  ];
  const rows = parts.map(({ tile, part, before: was, after: is, drift }) => [
    clean(tile === undefined ? part : `${tile}: ${part}`),
    pair(was.length, was.width, firstUnit),
    pair(is.length, is.width, to),
    `${signed(drift.length)} ${times} ${signed(drift.width)}`.replaceAll(' ', '\u00a0'),
  ]);
  const largest = largestDrift(parts);
  return [
    ...table(headings, rows, { columns: look.width, rule }),
    '',
    isZero(largest)
      ? 'no part has changed'
      : `largest drift ${showExact(largest, 'mm')}: ${listed(farthest(parts, largest))}`,
  ].flatMap((line) => (line.startsWith('largest') ? paragraph(line, look.width) : [line]));
}

/** The parts that have the largest drift. */
function farthest(parts: readonly PartDrift[], largest: Length): readonly string[] {
  return parts
    .filter(
      (it) =>
        largestDrift([it]).numerator * largest.denominator ===
        largest.numerator * largestDrift([it]).denominator,
    )
    .map(({ tile, part }) => clean(tile === undefined ? part : `${tile}: ${part}`));
}

function tileTable({ before, after, worse }: Changes, look: Look): Lines {
  const headings: readonly Column[] = [
    { heading: 'tile', align: 'left', wraps: true },
    { heading: 'before', align: 'left', wraps: true },
    { heading: 'now', align: 'left', wraps: true },
  ];
  const now = new Map(after.fits.map((fit) => [fit.build.tile, fit]));
  const rows = before.fits.map((fit) => {
    const { tile } = fit.build;
    const then = now.get(tile);
    return [clean(tile), verdict(fit), `${verdict(then)}${worse.includes(tile) ? ' (worse)' : ''}`];
  });
  return rows.length === 0
    ? ['no tile has a build']
    : table(headings, rows, { columns: look.width, rule: signsOf(look).rule });
}

function verdict(fit: TileFit | undefined): string {
  const kinds = new Set((fit?.faults ?? []).map((it) => (it.kind === 'habit' ? it.habit : it.kind)));
  return kinds.size === 0 ? 'stands' : [...kinds].join(', ');
}

/** In millimetres whatever the kit is in: there it is a plain decimal, between any two rules. */
function signed(drift: Length): string {
  if (isZero(drift)) return '0';
  return `${isNegative(drift) ? '' : '+'}${exactDecimal(drift) ?? mixedText(drift)}`;
}

/** A size as it can be read: exact where that is short, else the nearest mark and by how much it is off. */
function readable(size: Length, unit: FileUnits, step: Length | undefined): string {
  const exact = showThickness(size, unit);
  if (exact.endsWith(` ${unit}`) && !/\/\d{3}/u.test(exact)) return exact.slice(0, -unit.length - 1);
  const ruler = step === undefined ? [usualStep[unit]] : [step, usualStep[unit]];
  return showLength(size, {
    units: unit,
    firstUnit: unit,
    ruler: [ruler[0] ?? usualStep[unit], ...ruler.slice(1)],
  }).compact;
}

const usualStep: Readonly<Record<FileUnits, Length>> = {
  in: inches(rational(1n, 64n)),
  mm: millimetres(rational(1n, 10n)),
};

function listed(names: readonly string[]): string {
  const shown = names.slice(0, mostListed).map((it) => `"${it}"`);
  return names.length <= mostListed
    ? shown.join(', ')
    : `${shown.join(', ')} and ${names.length - mostListed} more`;
}

const mostListed = 3;

function counted(count: number, name: string): string {
  return `${count} ${name}${count === 1 ? '' : 's'}`;
}

/** The line up to the size that is meant, and of that as much as tells which it is: `levels: { water: 6, towpath: 15`. */
function endingWith(span: Span, look: Look): string {
  const { onAndOn } = signsOf(look);
  const { column, length } = positionOf(span);
  const line = [...lineOf(span)].slice(0, column - 1 + length).join('');
  const points = [...clean(line.trim())];
  return points.length <= mostShown
    ? points.join('')
    : `${onAndOn}${points.slice(onAndOn.length - mostShown).join('')}`;
}

const mostShown = 40;
