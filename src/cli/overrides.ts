import { effortSteps, paperNamed } from '../expand/index.ts';
import {
  inches,
  isGraduation,
  isNegative,
  isPositive,
  millimetres,
  readMeasure,
  zero,
} from '../measure/index.ts';
import {
  type Diagnostic,
  diagnose,
  didYouMean,
  type Effort,
  type EffortName,
  type Length,
  type NonEmpty,
  type Outcome,
  type Overrides,
  type PaperName,
  type ShownUnits,
} from '../model/index.ts';
import type { Request } from './arguments.ts';
import { namesSlips } from './pageChoice.ts';
import { readTyped } from './typedMeasure.ts';

/** What the command line says over the files. */
export function readOverrides(request: Request): Outcome<Overrides> {
  const rulers = readRulers(request);
  const effort = readEffort(request.effort);
  const margin = readMargin(request);
  const made = request.make.map(readMake);
  const make = made.flatMap(({ value }) => (value === undefined ? [] : [value]));
  const tried = request.with.map((text) => readWith(text, request.units));
  const thicknesses = tried.flatMap(({ value }) => (value === undefined ? [] : [value]));
  const [first, ...others] = rulers.value ?? [];
  return {
    value: {
      // The choices of --units and --paper were held against the table of options.
      ...(request.units === undefined ? {} : { units: request.units as ShownUnits }),
      ...(first === undefined ? {} : { ruler: [first, ...others] as NonEmpty<Length> }),
      ...(request.paper === undefined ? {} : { paper: paperNamed(request.paper as PaperName) }),
      ...(request.landscape ? { landscape: true } : {}),
      ...(margin.value === undefined ? {} : { margin: margin.value }),
      ...(effort.value === undefined ? {} : { effort: effort.value }),
      ...(request.slips || namesSlips(request.pages) ? { slips: true as const } : {}),
      ...(make.length === 0 ? {} : { make }),
      ...(request.evening === undefined
        ? {}
        : { evening: { name: request.evening, argument: `--evening ${request.evening}` } }),
      ...(thicknesses.length === 0 ? {} : { thicknesses }),
    },
    diagnostics: [
      ...rulers.diagnostics,
      ...effort.diagnostics,
      ...margin.diagnostics,
      ...[...made, ...tried].flatMap((it) => it.diagnostics),
      ...triedTwice(thicknesses),
    ],
  };
}

/** The rules at hand; empty where none is named. */
export function readRulers({ ruler, units }: Pick<Request, 'ruler' | 'units'>): Outcome<readonly Length[]> {
  const steps: Length[] = [];
  const diagnostics: Diagnostic[] = [];
  for (const text of ruler) {
    const step = readStep(text, units);
    if (typeof step !== 'string') steps.push(step);
    else {
      const place = { kind: 'argument', argument: `--ruler ${text}` } as const;
      diagnostics.push(diagnose('C12', place, { found: text, why: step }));
    }
  }
  return { value: steps, diagnostics };
}

/** A bare fraction is one of an inch, as rules are spoken of; any other bare number has to say its unit. */
function readStep(text: string, units: string | undefined): Length | string {
  const reading = readMeasure(text);
  if (reading.kind === 'refused') return 'no measure is written so';
  if (!isPositive(reading.kind === 'length' ? reading.length : reading.number)) return 'a step is above zero';
  const step =
    reading.kind === 'length'
      ? reading.length
      : /[/\u2044\u2215\p{No}]/u.test(text) || units === 'in'
        ? inches(reading.number)
        : units === 'mm'
          ? millimetres(reading.number)
          : undefined;
  if (step === undefined) return `${text} in or ${text} mm?`;
  return isGraduation(step) ? step : 'neither an inch nor a millimetre holds it a whole number of times';
}

function readEffort(text: string | undefined): Outcome<Effort> {
  if (text === undefined) return { value: undefined, diagnostics: [] };
  const names = Object.keys(effortSteps) as readonly EffortName[]; // its keys are typed as these
  const name = names.find((it) => it === text.toLowerCase());
  if (name !== undefined) return { value: { name, steps: effortSteps[name] }, diagnostics: [] };
  if (/^\d{1,9}$/.test(text)) return { value: { name: 'stated', steps: Number(text) }, diagnostics: [] };
  const place = { kind: 'argument', argument: `--effort ${text}` } as const;
  return {
    value: undefined,
    diagnostics: [diagnose('C13', place, { found: text, meant: didYouMean(text, names) })],
  };
}

/** Whether the paper has room for it is seen when pages are composed. */
function readMargin({ margin, units }: Pick<Request, 'margin' | 'units'>): Outcome<Length> {
  if (margin === undefined) return { value: undefined, diagnostics: [] };
  // None is none in any unit.
  const length = margin.trim() === '0' ? zero : readTyped(margin, units);
  const why =
    typeof length === 'string' ? length : isNegative(length) ? 'a margin is not below zero' : undefined;
  if (typeof length !== 'string' && why === undefined) return { value: length, diagnostics: [] };
  const place = { kind: 'argument', argument: `--margin ${margin}` } as const;
  return {
    value: undefined,
    diagnostics: [diagnose('C38', place, { found: margin, why: why ?? '' })],
  };
}

type Made = NonNullable<Overrides['make']>[number];

/** A tile's name may hold an equals sign, so the last one counts. */
function readMake(text: string): Outcome<Made> {
  const argument = `--make '${text}'`;
  const wrong = (why: string): Outcome<Made> => ({
    value: undefined,
    diagnostics: [diagnose('C11', { kind: 'argument', argument }, { found: text, why })],
  });
  const equals = text.lastIndexOf('=');
  if (equals === -1) return wrong('there is no =');
  const tile = text.slice(0, equals).trim();
  const count = text.slice(equals + 1).trim();
  if (tile === '') return wrong('no tile stands before the =');
  if (!/^\d{1,7}$/.test(count) || Number(count) > mostTiles) {
    return wrong('the count is a whole number from 0 to 1000000');
  }
  return { value: { tile, count: Number(count), argument }, diagnostics: [] };
}

type Tried = NonNullable<Overrides['thicknesses']>[number];

/** A bare number says no unit, so it is refused unless --units does. */
function readWith(text: string, units: string | undefined): Outcome<Tried> {
  const argument = `--with '${text}'`;
  const wrong = (why: string): Outcome<Tried> => ({
    value: undefined,
    diagnostics: [diagnose('C26', { kind: 'argument', argument }, { found: text, why })],
  });
  const equals = text.lastIndexOf('=');
  if (equals === -1) return wrong('there is no =');
  const material = text.slice(0, equals).trim();
  const measure = text.slice(equals + 1).trim();
  if (material === '') return wrong('no material stands before the =');
  const thickness = readTyped(measure, units);
  if (typeof thickness === 'string') return wrong(thickness);
  if (!isPositive(thickness)) return wrong('a thickness is above zero');
  return { value: { material, thickness, argument }, diagnostics: [] };
}

/** One material has one thickness at a time; which of two was meant can't be told. */
function triedTwice(tried: readonly Tried[]): readonly Diagnostic[] {
  return tried.flatMap(({ material, argument }, index) => {
    const first = tried.findIndex((it) => it.material === material);
    if (first === index) return [];
    const facts = { found: argument.slice("--with '".length, -1), why: `"${material}" is tried twice` };
    return [diagnose('C26', { kind: 'argument', argument }, facts)];
  });
}

const mostTiles = 1_000_000;
