import {
  absolute,
  bareExact,
  ceiling,
  equal,
  isGraduation,
  larger,
  minus,
  ratio,
  showExact,
  sum,
  zero,
} from '../../measure/index.ts';
import {
  type Diagnostic,
  diagnose,
  type FileUnits,
  isError,
  type Length,
  nowhere,
  type Outcome,
  type Spec,
} from '../../model/index.ts';
import { spliced } from '../../spec/index.ts';
import { type Base, basesOf } from './bases.ts';
import { boardFaults } from './boards.ts';
import { type PartDrift, partDrifts } from './drifts.ts';
import { type Rewriting, rewritten } from './exact.ts';
import { type SaidNow, withImplied, withRuler } from './implied.ts';
import { mostDecided, type Rounding, roundTogether } from './jointly.ts';
import { remarksOn } from './remarks.ts';
import { type Standing, standingOf, verdictOf, verdictsOf } from './standing.ts';
import { stepsBelow } from './steps.ts';
import type { ConversionWishes, Reread, Texts } from './wishes.ts';

export interface ConvertedKit {
  readonly to: FileUnits;
  readonly files: readonly Rewriting[];
  /** What each file is to hold. */
  readonly texts: Texts;
  /** Undefined where all is exact: then every tile stands as it stood. */
  readonly changes: Changes | undefined;
}

/** What became of a kit whose sizes are not all what they were. */
export interface Changes {
  readonly before: Standing;
  readonly after: Standing;
  readonly parts: readonly PartDrift[];
  readonly rounded: Rounded | undefined;
  /** Tiles that have a verdict against them which they did not have before. */
  readonly worse: readonly string[];
}

export interface Rounded {
  readonly step: Length;
  readonly bases: readonly Base[];
  readonly rounding: Rounding;
}

/**
 * Writes the named files anew in the other unit.
 *
 *   Spec ─rewritten→ texts, exactly, with boards and scale as wished ─reread→ Spec
 *     ─roundTogether→ sizes ─spliced→ texts ─reread→ Spec ─standingOf→ verdicts, before and after
 *
 * @errors S70, S71, N05 to N11; nothing is given where tiles would stand worse, unless `isPartial`
 */
export function convertKit(spec: Spec, wishes: ConversionWishes, reread: Reread): Outcome<ConvertedKit> {
  const files = spec.files.map((file) => rewritten(file, spec, wishes));
  const said = [...files.flatMap(({ diagnostics }) => diagnostics), ...boardFaults(spec, wishes.materials)];
  if (said.some(isError)) return { value: undefined, diagnostics: said };
  const turned = new Map(files.map(({ file, edits }) => [file, spliced(file.source, edits)]));
  const { texts, said: implied } = withImplied(
    spec,
    turned,
    wishes.to,
    reread,
    wishes.step === undefined ? 'all' : 'grid',
  );
  const remarks = [...files.flatMap((it) => remarksOn(it, wishes.to)), ...implied.map(writtenOut)];
  const isExact = wishes.step === undefined && wishes.factor === undefined && wishes.materials.length === 0;
  if (isExact)
    return { value: { to: wishes.to, files, texts, changes: undefined }, diagnostics: [...said, ...remarks] };

  const changed = changedKit(spec, texts, wishes, reread);
  if (changed.value === undefined)
    return { value: undefined, diagnostics: [...said, ...changed.diagnostics] };
  const { changes, texts: rounded } = changed.value;
  return {
    value: { to: wishes.to, files, texts: rounded, changes },
    diagnostics: [...said, ...remarks, ...changed.diagnostics],
  };
}

function writtenOut({ path, text }: SaidNow): Diagnostic {
  return diagnose('N12', { kind: 'file', path }, { path, text });
}

interface Changed {
  readonly texts: Texts;
  readonly changes: Changes;
}

function changedKit(spec: Spec, exact: Texts, wishes: ConversionWishes, reread: Reread): Outcome<Changed> {
  const stood = standingOf(spec);
  if (stood.standing === undefined) return { value: undefined, diagnostics: stood.diagnostics };
  const before = stood.standing;
  if (wishes.step === undefined) return concluded(before, exact, undefined, wishes, reread);
  const kit = { spec, exact };
  const { rounded, texts, said } = bestRounding(wishes.step, kit, before, wishes, reread, 'decide');
  if (rounded.rounding.sizes === undefined && !wishes.isPartial) {
    return { value: undefined, diagnostics: [noRounding(rounded, kit, before, wishes, reread)] };
  }
  const there = reread(texts);
  const written = new Map(
    spec.files.map((file, index) => {
      const again = there.value?.files[index];
      const edits = again === undefined ? [] : editsOf(rounded, again.source.path, wishes.to);
      return [file, again === undefined ? file.source.text : spliced(again.source, edits)];
    }),
  );
  const result = concluded(before, written, rounded, wishes, reread);
  return { ...result, diagnostics: [...said.map(writtenOut), ...result.diagnostics] };
}

interface Found {
  readonly rounded: Rounded;
  /** The exact texts that were rounded, perhaps with another rule at hand. */
  readonly texts: Texts;
  readonly said: readonly SaidNow[];
}

/**
 * Sizes are cut to the marks of a rule, and a tile may close by its sizes but not by the marks next to them. Whoever
 * rounds to a step can tell steps apart, so where the usual rule will not do, that of the step may.
 */
function bestRounding(
  step: Length,
  { spec, exact }: { readonly spec: Spec; readonly exact: Texts },
  before: Standing,
  wishes: ConversionWishes,
  reread: Reread,
  effort: 'decide' | 'lookAbout',
): Found {
  const first = roundedIn(exact, step, before, wishes, reread, effort);
  const isSaid = spec.files.some(({ print }) => print?.ruler !== undefined);
  const [usual] = before.batch.settings.ruler.value;
  const found: Found = { rounded: first, texts: exact, said: [] };
  if (first.rounding.sizes !== undefined || isSaid || !isGraduation(step) || equal(step, usual)) return found;
  const { texts, said } = withRuler(spec, exact, [step], reread);
  const second = roundedIn(texts, step, before, wishes, reread, effort);
  return second.rounding.sizes === undefined ? found : { rounded: second, texts, said };
}

function roundedIn(
  texts: Texts,
  step: Length,
  before: Standing,
  wishes: ConversionWishes,
  reread: Reread,
  effort: 'decide' | 'lookAbout',
): Rounded {
  const { value } = reread(texts);
  return roundedTo(step, value ?? before.spec, before, wishes, effort);
}

function roundedTo(
  step: Length,
  spec: Spec,
  before: Standing,
  wishes: ConversionWishes,
  effort: 'decide' | 'lookAbout',
): Rounded {
  const exact = standingOf(spec).standing;
  const reach = wishes.materials.length === 0 ? 0 : reachFor(step, before, exact ?? before);
  const bases = basesOf(spec, before.spec, step, reach);
  const { settings, wander } = exact?.batch ?? before.batch;
  const bench = { ruler: settings.ruler.value, wander };
  // A kit of another scale is held to what is right with it at that scale.
  const allowed = wishes.factor === undefined || exact === undefined ? before : together(before, exact);
  return { step, bases, rounding: roundTogether(spec, bases, allowed, bench, effort) };
}

/** How many steps a size may have to go further, where boards are thinner or thicker than they were. */
function reachFor(step: Length, before: Standing, now: Standing): number {
  const thickness = (standing: Standing): ReadonlyMap<string, Length> =>
    new Map(
      standing.batch.builds.map(({ tile, parts }) => [tile, sum(...parts.map(({ size }) => size.thickness))]),
    );
  const then = thickness(before);
  let most = zero;
  for (const [tile, all] of thickness(now)) {
    most = larger(most, absolute(minus(all, then.get(tile) ?? all)));
  }
  const steps = Number(ceiling(ratio(most, step)));
  return Math.min(steps, mostReach);
}

const mostReach = 24;

function together(a: Standing, b: Standing): Standing {
  return {
    ...a,
    fits: a.fits.map((fit) => {
      const other = b.fits.find(({ build }) => build.tile === fit.build.tile);
      return { ...fit, faults: [...fit.faults, ...(other?.faults ?? [])] };
    }),
  };
}

/** The sizes that were chosen, or where none would do, each rounded by itself. */
function editsOf({ bases, rounding }: Rounded, path: string, to: FileUnits) {
  return bases.flatMap(({ literal, worth, choices }, at) => {
    const size = rounding.sizes?.[at] ?? choices[0] ?? worth;
    if (literal.span.source.path !== path || minus(size, worth).numerator === 0n) return [];
    const isBare = literal.expression.unit === 'bare';
    return [{ span: literal.span, text: isBare ? bareExact(size, to) : showExact(size, to) }];
  });
}

/** How the kit stands as it is to be written; worse than before only where that is asked for. */
function concluded(
  before: Standing,
  texts: Texts,
  rounded: Rounded | undefined,
  { isPartial, step, factor, boards }: ConversionWishes,
  reread: Reread,
): Outcome<Changed> {
  const now = reread(texts);
  if (now.value === undefined) return { value: undefined, diagnostics: now.diagnostics };
  const { standing: after, diagnostics } = standingOf(now.value);
  if (after === undefined) return { value: undefined, diagnostics };
  const known = new Set(before.fits.flatMap(verdictsOf));
  const worse = after.fits
    .filter((fit) => verdictsOf(fit).some((it) => !known.has(it)))
    .map(({ build }) => build.tile);
  const parts = partDrifts(before.batch, after.batch);
  const changes: Changes = { before, after, parts, rounded, worse };
  if (worse.length === 0) return { value: { texts, changes }, diagnostics: [] };
  const keepsBoards = factor !== undefined && boards === 'kept';
  const why = keepsBoards
    ? 'its boards are not scaled with it'
    : step === undefined
      ? 'sizes that are written do not follow the board; --round STEP chooses them anew'
      : 'no choice of sizes does better';
  const hints = keepsBoards
    ? [
        '--boards scaled   scales them too, for boards of that thickness',
        ...(step === undefined ? ['--round STEP   chooses sizes that do with the boards as they are'] : []),
      ]
    : [];
  const said = diagnose('N08', nowhere, { tiles: worseInWords(worse, after, known), why }, { hints });
  return { value: isPartial ? { texts, changes } : undefined, diagnostics: [said] };
}

/** `"wall" (does not close), "floor" (level is off)`: what is new of each. */
function worseInWords(worse: readonly string[], { fits }: Standing, known: ReadonlySet<string>): string {
  const told = worse.map((tile) => {
    const faults = fits.find(({ build }) => build.tile === tile)?.faults ?? [];
    const isNew = faults.filter((it) => !known.has(verdictOf(it, tile)));
    const kinds = isNew.map((it) => (it.kind === 'habit' ? it.habit : it.kind));
    return `"${tile}" (${[...new Set(kinds)].join(', ')})`;
  });
  return told.length <= mostNamed
    ? told.join(', ')
    : `${told.slice(0, mostNamed).join(', ')} and ${told.length - mostNamed} more`;
}

const mostNamed = 4;

/** Why there is none, and a finer step that would do. */
function noRounding(
  { step, rounding }: Rounded,
  kit: { readonly spec: Spec; readonly exact: Texts },
  before: Standing,
  wishes: ConversionWishes,
  reread: Reread,
): Diagnostic {
  const finer = stepsBelow(step, wishes.to).find(
    (it) => bestRounding(it, kit, before, wishes, reread, 'lookAbout').rounded.rounding.sizes !== undefined,
  );
  const unit = wishes.to;
  const instead =
    finer === undefined ? undefined : `--round ${showExact(finer, unit).replace(' ', '')}   does`;
  const facts = {
    step: showExact(step, unit),
    tiles: `${listed(rounding.wouldFall)} would not stand`,
    instead,
  };
  if (rounding.isProved) return diagnose('N06', nowhere, facts);
  return diagnose('N07', nowhere, { ...facts, together: rounding.together, most: mostDecided });
}

function listed(names: readonly string[]): string {
  const quoted = names.map((it) => `"${it}"`);
  const shown = quoted.slice(0, mostNamed).join(', ');
  return quoted.length <= mostNamed ? shown : `${shown} and ${quoted.length - mostNamed} more`;
}
