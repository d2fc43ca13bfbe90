import {
  type Diagnostic,
  diagnose,
  type FileUnits,
  type Length,
  type NonEmpty,
  type Place,
  type Rational,
} from '../model/index.ts';
import { decimalPlaces } from './decimals.ts';
import { joinArguments } from './joining.ts';
import { inches, millimetres } from './length.ts';
import { parse, toLength } from './notation.ts';
import { rational, toFraction } from './rational.ts';
import { readMeasure } from './reading.ts';
import { shown } from './refusal.ts';
import { nearestMark } from './rounding.ts';
import {
  inchScales,
  mmScales,
  showDecimal,
  showExact,
  showFeet,
  showLength,
  showOnRuler,
  showThou,
} from './showing.ts';

/** Inches, also as feet and inches or as thousandths, and millimetres. */
export type WantedUnit = FileUnits | 'ft' | 'thou';

export interface ConvertOptions {
  /** The unit wanted; absent: the one that the measure was not written in. */
  readonly to?: WantedUnit;
  /** The unit of a number without one; absent: both are answered, where there is room for two answers. */
  readonly from?: FileUnits;
  /** The rules at hand; empty: 1/16 in and 0.5 mm. */
  readonly ruler: readonly Length[];
  /** What becomes of a value half way between two marks; absent: it goes up, as makers expect of a rule. */
  readonly halves?: 'half up' | 'half even';
}

/** A measure in the unit that was asked for. */
export interface Answer {
  /** The unit that a bare number was taken to be in; undefined where a unit was written. */
  readonly takenAs: FileUnits | undefined;
  readonly length: Length;
  readonly to: WantedUnit;
  /** Without any rounding: `60.325 mm`, `2 46/127 in`. */
  readonly exact: string;
  /** The decimal where `exact` is an odd fraction, with its error where it is rounded. */
  readonly decimal: string | undefined;
  /** Why a usual rule is taken, though rules are at hand: none of them divides the unit. */
  readonly instead: string | undefined;
  /** The nearest mark on each rule of that unit, halves up. */
  readonly onRuler: NonEmpty<RulerAnswer>;
}

export interface RulerAnswer {
  readonly step: Length;
  /** `1/16 in`, `0.5 mm`. */
  readonly rule: string;
  readonly mark: Length;
  /** True length less the mark; 0 where the rule has the very mark. */
  readonly error: Length;
  /** `2 3/8 in`, `2 3/8 in scant (-0.013)`. */
  readonly text: string;
}

export type Conversion =
  | { readonly kind: 'converted'; readonly input: string; readonly answers: NonEmpty<Answer> }
  | { readonly kind: 'refused'; readonly input: string; readonly diagnostic: Diagnostic };

/** What the arguments of one command line come to, in their order. */
export interface ConvertedArguments {
  readonly conversions: readonly Conversion[];
  /** The measures that were put together from several arguments, for the user to see. */
  readonly joined: readonly string[];
}

/**
 * Converts the measures of a command line.
 *
 * @param answers  `one` where there is room for one answer only, as in JSON: a bare number is then refused
 *                 without `from`
 */
export function convertArguments(
  args: readonly string[],
  options: ConvertOptions,
  answers: 'one' | 'all',
): ConvertedArguments {
  const measures = joinArguments(args);
  const convert = answers === 'one' ? convertToOne : convertMeasure;
  return {
    conversions: measures.map(({ text }) => convert(text, options)),
    joined: measures.flatMap(({ text, isJoined }) => (isJoined ? [text] : [])),
  };
}

/** Where the faulty characters of an input lie; `start` and `end` are offsets within it. */
export type PlaceWithin = (start: number, end: number) => Place;

/** A bare number is answered both ways (inches first), unless `from` says which it is. */
export function convertMeasure(text: string, options: ConvertOptions, placeWithin?: PlaceWithin): Conversion {
  const placed: PlaceWithin = placeWithin ?? (() => ({ kind: 'argument', argument: text }));
  const parsed = parse(text);
  if (parsed?.unit !== undefined) {
    const { family } = parsed.unit;
    return {
      kind: 'converted',
      input: text,
      answers: [answer(toLength(parsed), family, undefined, options)],
    };
  }
  const reading = readMeasure(text);
  switch (reading.kind) {
    case 'length':
      throw new Error('what has a unit was answered');
    case 'refused':
      return {
        kind: 'refused',
        input: text,
        diagnostic: reading.toDiagnostic(placed(reading.start, reading.end)),
      };
    case 'bare': {
      const { number } = reading;
      const [first, ...others]: NonEmpty<FileUnits> =
        options.from === undefined ? ['in', 'mm'] : [options.from];
      const taken = (unit: FileUnits): Answer => answer(inUnit(number, unit), unit, unit, options);
      return { kind: 'converted', input: text, answers: [taken(first), ...others.map(taken)] };
    }
  }
}

/** The same where there is room for one answer only, as in JSON: a bare number is refused without `from`. */
export function convertToOne(text: string, options: ConvertOptions, placeWithin?: PlaceWithin): Conversion {
  const conversion = convertMeasure(text, options, placeWithin);
  if (conversion.kind === 'refused' || conversion.answers.length === 1) return conversion;
  const place = placeWithin?.(0, text.length) ?? { kind: 'argument', argument: text };
  return { kind: 'refused', input: text, diagnostic: diagnose('M27', place, { found: shown(text) }) };
}

function answer(
  length: Length,
  written: FileUnits,
  takenAs: FileUnits | undefined,
  options: ConvertOptions,
): Answer {
  return new Answered(length, takenAs, options.to ?? (written === 'in' ? 'mm' : 'in'), options);
}

/** Each part is worked out when it is asked for: of a line among a hundred thousand that is one of them. */
class Answered implements Answer {
  readonly length: Length;
  readonly takenAs: FileUnits | undefined;
  readonly to: WantedUnit;
  readonly #options: ConvertOptions;

  constructor(length: Length, takenAs: FileUnits | undefined, to: WantedUnit, options: ConvertOptions) {
    this.length = length;
    this.takenAs = takenAs;
    this.to = to;
    this.#options = options;
  }

  get exact(): string {
    if (this.to === 'ft') return showFeet(this.length);
    return this.to === 'thou' ? showThou(this.length) : showExact(this.length, this.to);
  }

  get decimal(): string | undefined {
    return this.to === 'ft' || this.to === 'thou' ? undefined : showDecimal(this.length, this.to);
  }

  get instead(): string | undefined {
    return this.to === 'thou' ? undefined : insteadOf(unitOf(this.to), this.#options.ruler);
  }

  get onRuler(): NonEmpty<RulerAnswer> {
    const { ruler, halves } = this.#options;
    const as = this.to === 'ft' || this.to === 'thou' ? this.to : undefined;
    const unit = unitOf(this.to);
    const onScale = (step: Length): RulerAnswer => {
      const { mark, error } = nearestMark(this.length, step, halves);
      const rule = as === 'thou' ? '1 thou' : showExact(step, unit);
      return { step, rule, mark, error, text: showOnRuler(this.length, step, halves, as).text };
    };
    const [first, ...others]: NonEmpty<Length> = as === 'thou' ? [oneThou] : scalesOf(unit, ruler);
    return [onScale(first), ...others.map(onScale)];
  }
}

/** The unit that is read on a rule. */
function unitOf(to: WantedUnit): FileUnits {
  return to === 'mm' ? 'mm' : 'in';
}

function inUnit(number: Rational, unit: FileUnits): Length {
  return unit === 'in' ? inches(number) : millimetres(number);
}

/** Source: common practice, no source: a steel rule has sixteenths on one edge and half millimetres on the other. */
const usualInchStep: Length = inches(rational(1n, 16n));
const usualMmStep: Length = millimetres(rational(1n, 2n));
const oneThou: Length = inches(rational(1n, 1000n));

function scalesOf(unit: FileUnits, ruler: readonly Length[]): NonEmpty<Length> {
  const own = unit === 'in' ? inchScales(ruler, usualInchStep) : mmScales(ruler);
  const [first = usualMmStep, ...others] = own;
  return [first, ...others];
}

function insteadOf(unit: FileUnits, ruler: readonly Length[]): string | undefined {
  const own = unit === 'in' ? inchScales(ruler, usualMmStep) : mmScales(ruler);
  if (ruler.length === 0 || own.some((step) => ruler.includes(step))) return undefined;
  const given = ruler.map((step) => showExact(step, unit === 'in' ? 'mm' : 'in')).join(', ');
  const [usual] = scalesOf(unit, []);
  const whole = unit === 'in' ? 'an inch' : 'a millimetre';
  return `a rule of ${given} does not divide ${whole}: the usual ${showExact(usual, unit)} is taken`;
}

/**
 * What a person reads: all answers, then what they come to on a rule, under a heading that names the rounding
 * rule where a rule does not have the very mark.
 *
 *   2 3/8 in = 60.325 mm
 *
 *   to the nearest mark, half up; in brackets the true length less that mark
 *     2 3/8 in on a 0.5 mm rule: 60.5 mm scant (-0.175)
 */
export function conversionLines(
  { conversions, joined }: ConvertedArguments,
  halves: ConvertOptions['halves'] = 'half up',
): readonly string[] {
  const converted = conversions.flatMap((it) => (it.kind === 'converted' ? [it] : []));
  const isRounded = converted.some(({ answers }) =>
    answers.some(({ onRuler }) => onRuler.some(({ error }) => error.numerator !== 0n)),
  );
  const answers = converted.flatMap(({ input, answers }) => answers.map((answer) => ({ input, answer })));
  return [
    ...answers.map(({ input, answer }) => answerLine(input, answer)),
    ...joined.map((text) => `(${shown(text)} is read as one measure)`),
    ...(answers.length === 0 ? [] : ['']),
    ...new Set(answers.flatMap(({ answer }) => answer.instead ?? [])),
    ...(isRounded
      ? [`to the nearest mark, ${ruleOf(halves)}; in brackets the true length less that mark`]
      : []),
    ...answers.flatMap(({ input, answer }) => ruleLines(input, answer)),
  ];
}

/** The rounding rule by its name, as headings have it. */
export function ruleOf(halves: ConvertOptions['halves'] = 'half up'): string {
  return halves === 'half up' ? halves : 'half to even (NIST SP 811, B.7.1)';
}

/** `60 mm = 2 46/127 in = ~2.3622 in (+0.0000047)` */
function answerLine(input: string, { takenAs, exact, decimal }: Answer): string {
  return `${shown(input)}${takenWords(takenAs)} = ${exact}${decimal === undefined ? '' : ` = ${decimal}`}`;
}

function ruleLines(input: string, { takenAs, onRuler }: Answer): readonly string[] {
  return onRuler.map(
    ({ rule, error, text }) =>
      `  ${shown(input)}${takenWords(takenAs)} on a ${rule} rule: ${text}${error.numerator === 0n ? ', exactly' : ''}`,
  );
}

function takenWords(takenAs: FileUnits | undefined): string {
  return takenAs === undefined ? '' : takenAs === 'in' ? ' as inches' : ' as millimetres';
}

/** `convert -` in text: one line for each line. */
export function conversionLine(
  conversion: Conversion & { readonly kind: 'converted' },
  options: ConvertOptions,
): string {
  const answers = conversion.answers.map(
    (it) => `${shortAnswer(it, options)}${it.takenAs === undefined ? '' : ` if ${it.takenAs}`}`,
  );
  return `${shown(conversion.input)} = ${answers.join(', ')}`;
}

/** What one measure is in JSON Lines. Nothing is added to it: others read it. */
export type LineRecord =
  | { readonly input: string; readonly mm: string; readonly text: string }
  | { readonly input: string; readonly error: FaultRecord };

export interface FaultRecord {
  readonly code: string;
  readonly message: string;
  readonly hint: string;
}

/** @param conversion as `convertToOne` gives it */
export function lineRecord(conversion: Conversion, options: ConvertOptions): LineRecord {
  const { input } = conversion;
  if (conversion.kind === 'refused') return { input, error: faultRecord(conversion.diagnostic) };
  const [only] = conversion.answers;
  return { input, mm: toFraction(only.length), text: shortAnswer(only, options) };
}

/** One number: exact where its decimals end, since nobody lays a rule to it yet. */
function shortAnswer(answer: Answer, { ruler, halves }: ConvertOptions): string {
  const { length, to } = answer;
  if (to === 'ft' || to === 'thou') {
    const [first] = answer.onRuler;
    return first.error.numerator === 0n ? answer.exact : first.text;
  }
  if (to === 'mm' && (decimalPlaces(length) ?? mostShortDecimals + 1) <= mostShortDecimals)
    return showExact(length, to);
  if (halves === 'half even') return answer.onRuler[0].text;
  const [first, ...others] = scalesOf(to, ruler);
  return showLength(length, { units: to, firstUnit: to, ruler: [first, ...others] }).text;
}

const mostShortDecimals = 9;

function faultRecord({ code, message, hints }: Diagnostic): FaultRecord {
  return { code, message, hint: hints.join('; ') };
}

/** What one measure is within the one JSON document of `convert --json`. Lengths are fractions of a millimetre. */
export type ConversionRecord =
  | {
      readonly input: string;
      readonly mm: string;
      readonly text: string;
      readonly to: WantedUnit;
      readonly exact: string;
      readonly onRuler: readonly {
        readonly stepMm: string;
        readonly mm: string;
        readonly errorMm: string;
        readonly isExact: boolean;
        readonly text: string;
      }[];
    }
  | { readonly input: string; readonly error: FaultRecord };

/** @param conversion as `convertToOne` gives it */
export function conversionRecord(conversion: Conversion, options: ConvertOptions): ConversionRecord {
  const { input } = conversion;
  if (conversion.kind === 'refused') return { input, error: faultRecord(conversion.diagnostic) };
  const [only] = conversion.answers;
  return {
    input,
    mm: toFraction(only.length),
    text: shortAnswer(only, options),
    to: only.to,
    exact: only.exact,
    onRuler: only.onRuler.map(({ step, mark, error, text }) => ({
      stepMm: toFraction(step),
      mm: toFraction(mark),
      errorMm: toFraction(error),
      isExact: error.numerator === 0n,
      text,
    })),
  };
}

/** One line of `convert -`, without what ended it. A `\r` before the end belongs to the end. */
export function convertLine(
  line: string,
  options: ConvertOptions,
  form: 'json' | 'text',
  placeWithin?: PlaceWithin,
): LineResult {
  const input = line.replace(/\r$/u, '');
  const convert = form === 'json' ? convertToOne : convertMeasure;
  const conversion = convert(input, options, placeWithin);
  const diagnostic = conversion.kind === 'refused' ? conversion.diagnostic : undefined;
  if (form === 'json') return { output: JSON.stringify(lineRecord(conversion, options)), diagnostic };
  return {
    output: conversion.kind === 'refused' ? undefined : conversionLine(conversion, options),
    diagnostic,
  };
}

export interface LineResult {
  /** The line to print, without a line end; undefined for a refused line in the text form. */
  readonly output: string | undefined;
  /** Defined where the line failed. */
  readonly diagnostic: Diagnostic | undefined;
}
