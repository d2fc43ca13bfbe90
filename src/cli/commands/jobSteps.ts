import { showExact } from '../../measure/index.ts';
import {
  type Diagnostic,
  type DrawerEntry,
  diagnose,
  type FileUnits,
  type Job,
  type JobEvent,
  type JobSheet,
  type Length,
  nowhere,
  type Outcome,
} from '../../model/index.ts';
import {
  type Change,
  type FittingsChange,
  lastToUndo,
  puttingAway,
  sheetsMeant,
  sheetsOf,
  takenBack,
  withChanges,
} from '../../stock/index.ts';
import { digest } from '../digest.ts';
import type { CaughtUp } from '../jobs.ts';
import type { HeldDrawer } from '../keeping.ts';

/** A job on its way: what it became, and what is to be written of the drawer. */
export interface Step {
  readonly job: Job;
  /** In words. */
  readonly changes: readonly string[];
  readonly said: readonly Diagnostic[];
  readonly drawer?: {
    readonly text: string;
    /** For its journal: what is done of the drawer alone. */
    readonly what: string;
    readonly sheets: readonly JobSheet[];
    readonly undoes: number | undefined;
  };
}

/** Marks sheets as cut; what an interrupted run has put away is so already, which is no fault then. */
export function cutting(
  { job: of, changes, said }: Step,
  texts: readonly string[],
  known: CaughtUp,
): Outcome<Step> {
  const { value: sheets, diagnostics } = sheetsMeant(of, texts);
  if (known.putAway.length > 0 && diagnostics.length > 0 && diagnostics.every(({ code }) => code === 'K25')) {
    const words = 'cut: the run that was interrupted had done it';
    return { value: { job: of, changes: [...changes, words], said }, diagnostics: [] };
  }
  if (sheets === undefined) return { value: undefined, diagnostics };
  const event: JobEvent = { kind: 'cut', sheets };
  const words = sheets.map(({ material, number }) => `${material} ${number}`).join(', ');
  return {
    value: { job: { ...of, events: [...of.events, event] }, changes: [...changes, `cut: ${words}`], said },
    diagnostics: [],
  };
}

/** Puts away what is cut. */
export function away(
  { job: of, changes, said }: Step,
  held: HeldDrawer | undefined,
  known: CaughtUp,
): Outcome<Step> {
  if (of.plan.drawer === undefined || held === undefined) {
    return { value: undefined, diagnostics: [diagnose('K29', nowhere, {})] };
  }
  const { sheets, changes: made, fittings, elsewhere } = puttingAway(of);
  if (sheets.length === 0) {
    if (known.putAway.length === 0) {
      const isOver = sheetsOf(of).every(({ isCut }) => isCut);
      return { value: undefined, diagnostics: [diagnose('K28', nowhere, { isOver })] };
    }
    const words = 'put away: the run that was interrupted had done it';
    return { value: { job: of, changes: [...changes, words], said }, diagnostics: [] };
  }
  const { units } = held.open.drawer;
  const after = withChanges(held.open, made, fittings);
  const place = { kind: 'file', path: held.path } as const;
  if ('why' in after) {
    const { change } = after;
    const what = 'listed' in change ? change.listed.name : pieceWords(change, units);
    const code = after.why === 'not there' ? 'K35' : 'K04';
    return { value: undefined, diagnostics: [diagnose(code, place, { what })] };
  }
  const warnings = elsewhere.map(({ sheet, material }) => {
    const what = `${material} ${sizeWords(sheet, units)}${sheet.label === undefined ? '' : ` (${sheet.label})`}`;
    return diagnose('K32', nowhere, { what, where: 'the session' });
  });
  const words =
    made.length + after.fittings.length === 0
      ? ['put away: nothing goes out, nothing comes in']
      : [...made.map((it) => wordsFor(it, units)), ...after.fittings.map(wordsForFittings)];
  return {
    value: {
      job: of,
      changes: [...changes, ...words],
      said: [...said, ...warnings],
      drawer: { text: after.text, what: words.join('; '), sheets, undoes: undefined },
    },
    diagnostics: [],
  };
}

/**
 * Takes back the last thing that was done; putting away only where the drawer is as it was left. Where the drawer has
 * it undone already, by a run that was interrupted or by hand, that is all there is to do.
 */
export function undoing(
  { job: of, changes, said }: Step,
  held: HeldDrawer | undefined,
  known: CaughtUp,
): Outcome<Step> {
  if (known.undone.length > 0) {
    const words = known.undone.map((it) => `undone in the drawer already: ${it}`);
    return { value: { job: of, changes: [...changes, ...words], said }, diagnostics: [] };
  }
  const last = of.events.at(-1);
  if (last === undefined) return { value: undefined, diagnostics: [diagnose('K30', nowhere, {})] };
  const before = { ...of, events: of.events.slice(0, -1) };
  if (last.kind !== 'put away') {
    const words =
      last.kind === 'cut'
        ? `cut ${last.sheets.map(({ material, number }) => `${material} ${number}`).join(', ')}`
        : `${last.count} x ${last.label} again`;
    return { value: { job: before, changes: [...changes, `undid: ${words}`], said }, diagnostics: [] };
  }
  if (held === undefined) return { value: undefined, diagnostics: [diagnose('K29', nowhere, {})] };
  const place = { kind: 'file', path: held.path } as const;
  const entry = held.journal.find(({ number }) => number === last.entry);
  if (entry === undefined || lastToUndo(held.journal)?.number !== last.entry) {
    const what = entry?.what ?? `change ${last.entry} of the drawer`;
    const facts = { what, isKnown: entry !== undefined };
    return { value: undefined, diagnostics: [diagnose('K31', place, facts)] };
  }
  const text = takenBack(entry, held.open.file.source.text, digest);
  if (text === undefined) {
    return { value: undefined, diagnostics: [diagnose('K06', place, { what: entry.what })] };
  }
  const what = `undid: ${entry.what}`;
  const drawer = { text, what, sheets: last.sheets, undoes: entry.number };
  return {
    value: { job: before, changes: [...changes, what], said, drawer },
    diagnostics: [],
  };
}

function wordsForFittings({ listed, count, bought }: FittingsChange): string {
  const used = listed.count + bought - count;
  const more = bought === 0 ? '' : ` with the ${bought} that were bought`;
  return `out: ${used} x ${listed.name}, ${count} left${more}`;
}

function wordsFor(change: Change, units: FileUnits | undefined): string {
  return `${change.kind === 'take' ? 'out' : 'in'}: ${pieceWords(change, units)}`;
}

function pieceWords(change: Change, units: FileUnits | undefined): string {
  const { entry } = change;
  const count = change.kind === 'take' ? change.count : entry.count;
  const label = entry.label === undefined ? '' : ` (${entry.label})`;
  const block = entry.thick === undefined ? '' : `, ${thickWords(entry.thick, units)} thick`;
  return `${count} x ${entry.material} ${sizeWords(entry, units)}${block}${label}`;
}

/** As short as its other sizes are. */
function thickWords(thick: Length, units: FileUnits | undefined): string {
  const inInches = showExact(thick, 'in');
  return units !== 'mm' && inInches.length <= 11 ? inInches : showExact(thick, 'mm');
}

/** In inches where these are short, but never of a drawer that is written in millimetres. */
function sizeWords(
  { length, width }: Pick<DrawerEntry, 'length' | 'width'>,
  units: FileUnits | undefined,
): string {
  const [inLength, inWidth] = [showExact(length, 'in'), showExact(width, 'in')];
  const isShort = units !== 'mm' && inLength.length + inWidth.length <= 22;
  if (isShort) return `${inLength.replace(/ in$/, '')} x ${inWidth}`;
  return `${showExact(length, 'mm').replace(/ mm$/, '')} x ${showExact(width, 'mm')}`;
}
