import { inches, isPositive, isZero, millimetres, readMeasure, unitWrittenIn } from '../measure/index.ts';
import type { BoardWish, ConversionWishes } from '../mend/units/index.ts';
import {
  type Diagnostic,
  diagnose,
  type FileUnits,
  type Length,
  type Outcome,
  type Rational,
  type Spec,
} from '../model/index.ts';
import type { Request } from './arguments.ts';

/** What the command line asks of a conversion, apart from the unit that is only known with the files. */
export interface AskedConversion extends Omit<ConversionWishes, 'to'> {
  readonly to: FileUnits | undefined;
}

/** Reads what is asked of whole files. */
export function readConversion(request: Request): Outcome<AskedConversion> {
  const step = readStep(request);
  const factor = readFactor(request.scale);
  const materials = request.material.map((text) => readBoard(text, request));
  const to = request.to === 'in' || request.to === 'mm' ? request.to : undefined;
  const said = [step, factor, ...materials].flatMap(({ diagnostics }) => diagnostics);
  const noUnit = request.to !== undefined && to === undefined ? [notForFiles(request.to)] : [];
  const wishes = materials.flatMap(({ value }) => value ?? []);
  return {
    value: {
      to: to ?? (request.round === undefined ? undefined : (unitWrittenIn(request.round) ?? 'in')),
      step: step.value,
      factor: factor.value,
      boards: request.boards === 'scaled' ? 'scaled' : 'kept',
      materials: wishes,
      isPartial: request.partial,
    },
    diagnostics: [...said, ...noUnit, ...twice(wishes)],
  };
}

/**
 * The unit that files are written anew in: as asked; else a kit that is scaled keeps its own, and any other goes to
 * the one that it is not in.
 */
export function unitWanted({ to, factor }: AskedConversion, spec: Spec): FileUnits {
  if (to !== undefined) return to;
  const own = spec.files.map(({ units }) => units).find((it) => it !== undefined);
  if (factor !== undefined) return own ?? 'mm';
  return own === 'in' ? 'mm' : 'in';
}

function wrong(option: string, found: string, wanted: string, why: string): Diagnostic {
  return diagnose(
    'C35',
    { kind: 'argument', argument: `${option} ${found}` },
    { option, found, wanted, why },
  );
}

function notForFiles(found: string): Diagnostic {
  return wrong('--to', found, 'in or mm for whole files', 'a file is written in inches or in millimetres');
}

/** A step is one of a rule: it need not divide a unit, since sizes are counted in it from nothing. */
function readStep({ round, to, units }: Request): Outcome<Length> {
  if (round === undefined) return { value: undefined, diagnostics: [] };
  const refuse = (why: string): Outcome<Length> => ({
    value: undefined,
    diagnostics: [wrong('--round', round, 'a step to round to, as in 0.5mm or 1/16in', why)],
  });
  // A bare fraction is one of an inch, as rules are spoken of.
  const isFraction = /^\s*\d+[/\u2044\u2215]\d+\s*$/u.test(round);
  const reading = readMeasure(round);
  if (reading.kind === 'bare' && !isPositive(reading.number)) return refuse('a step is above zero');
  const step = lengthOf(round, to ?? units ?? (isFraction ? 'in' : undefined));
  if (typeof step === 'string') return refuse(step);
  return isPositive(step) ? { value: step, diagnostics: [] } : refuse('a step is above zero');
}

function readFactor(text: string | undefined): Outcome<Rational> {
  if (text === undefined) return { value: undefined, diagnostics: [] };
  const refuse = (why: string): Outcome<Rational> => ({
    value: undefined,
    diagnostics: [wrong('--scale', text, 'a factor above zero, as in 7/8 or 1.25', why)],
  });
  const reading = readMeasure(text);
  if (reading.kind === 'length') return refuse('it is a length');
  if (reading.kind === 'refused') return refuse('no number is written so');
  return isPositive(reading.number)
    ? { value: reading.number, diagnostics: [] }
    : refuse(isZero(reading.number) ? 'nothing would be left' : 'it is below zero');
}

function readBoard(text: string, request: Request): Outcome<BoardWish> {
  const refuse = (why: string): Outcome<BoardWish> => ({
    value: undefined,
    diagnostics: [wrong('--material', text, 'NAME=THICKNESS', why)],
  });
  const equals = text.lastIndexOf('=');
  if (equals === -1) return refuse('there is no =');
  const material = text.slice(0, equals).trim();
  if (material === '') return refuse('no material stands before the =');
  const thickness = lengthOf(text.slice(equals + 1).trim(), request.to ?? request.units);
  if (typeof thickness === 'string') return refuse(thickness);
  if (!isPositive(thickness)) return refuse('a thickness is above zero');
  return { value: { material, thickness, argument: `--material '${text}'` }, diagnostics: [] };
}

/** A bare number is in the unit that is asked for, where one is. */
function lengthOf(text: string, units: string | undefined): Length | string {
  const reading = readMeasure(text);
  if (reading.kind === 'length') return reading.length;
  if (reading.kind === 'refused') return `no measure is written as "${text}"`;
  if (units === 'in') return inches(reading.number);
  if (units === 'mm') return millimetres(reading.number);
  return `${text} in or ${text} mm?`;
}

function twice(wishes: readonly BoardWish[]): readonly Diagnostic[] {
  return wishes.flatMap(({ material, argument }, index) =>
    wishes.findIndex((it) => it.material === material) === index
      ? []
      : [
          wrong(
            '--material',
            argument.slice("--material '".length, -1),
            'one thickness of each material',
            `"${material}" is named twice`,
          ),
        ],
  );
}
