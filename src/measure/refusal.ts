import { type Code, type Diagnostic, diagnose, type Place } from '../model/index.ts';
import * as notation from './notation.ts';

/** Why a text is no measure, and where; UTF-16 offsets within the text. */
export interface Refusal {
  readonly start: number;
  readonly end: number;
  readonly toDiagnostic: (place: Place) => Diagnostic;
}

/** M27 is about what is done with a measure, all others are about how it is written. */
export type FaultCode = Exclude<Extract<Code, `M${string}`>, 'M27'>;

export interface Fault {
  readonly code: FaultCode;
  readonly start: number;
  readonly end: number;
  /** What the message calls it; the faulty characters where absent. */
  readonly found?: string;
  /** Guesses at what was meant, likeliest first; those that would not be read are dropped. */
  readonly instead?: readonly string[];
  /** The sum it may have been meant to be, without its brackets. */
  readonly sum?: string;
}

/** Looks for one kind of fault. */
export type Rule = (text: string) => Fault | undefined;

export function toRefusal(text: string, fault: Fault): Refusal {
  const found = fault.found ?? shown(text.slice(fault.start, fault.end));
  const instead = (fault.instead ?? []).map(shown).filter((it) => notation.parse(it) !== undefined);
  const sum = fault.sum === undefined ? undefined : `(${shown(fault.sum)})`;
  return {
    start: fault.start,
    end: fault.end,
    toDiagnostic: (place) => diagnose(fault.code, place, { found, instead: [...new Set(instead)], sum }),
  };
}

/** What a rule's pattern has found. */
export interface Match {
  readonly text: string;
  readonly start: number;
  readonly end: number;
  readonly groups: Readonly<Record<string, string | undefined>>;
  /** The whole text with the faulty characters replaced. */
  readonly with: (other: string) => string;
}

/**
 * The rule of one code.
 *
 * @param pattern  its group `fault`, or else all of it, is what is wrong
 * @param meant    what else is to be said; undefined where it is no fault after all
 */
export function rule(
  code: FaultCode,
  pattern: string,
  meant: (match: Match) => Partial<Fault> | undefined = () => ({}),
): Rule {
  // Put together at the first refusal only: thirty patterns cost ten milliseconds that most runs never need.
  let expression: RegExp | undefined;
  return (text) => {
    expression ??= new RegExp(pattern, 'dgu');
    for (const found of text.matchAll(expression)) {
      const [start, end] = found.indices?.groups?.fault ?? [found.index, found.index + found[0].length];
      const replace = (other: string): string => text.slice(0, start) + other + text.slice(end);
      const fault = meant({ text, start, end, groups: found.groups ?? {}, with: replace });
      if (fault !== undefined) return { code, start, end, ...fault };
    }
    return undefined;
  };
}

/** Spaces of any kind as one, characters that can't be seen by their number. */
export function shown(text: string): string {
  return text
    .replace(/\s+/gu, (it) => (it.includes('\ufeff') ? 'U+FEFF' : ' '))
    .replace(
      /[\p{C}\p{M}]/gu,
      (it) => `U+${(it.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`,
    )
    .trim();
}
