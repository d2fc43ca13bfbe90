import { expand } from '../expand/index.ts';
import { type Bench, judge, missIn } from '../fit/index.ts';
import {
  absolute,
  compare,
  divide,
  equal,
  isPositive,
  isZero,
  millimetres,
  minus,
  rational,
  roundToStep,
  showThickness,
  subtract,
  sum,
} from '../measure/index.ts';
import {
  type Build,
  type Diagnostic,
  type Expression,
  type Fault,
  type Fix,
  isError,
  type Length,
  type Overrides,
  type Spec,
  type TileFit,
} from '../model/index.ts';
import { type Candidate, candidates } from './candidates.ts';
import { faultKey, keysOf } from './changes.ts';

type Unclosed = Extract<Fault, { kind: 'does not close' }>;

/** What is at hand for mending: the run as it was, so that it can be run again with one size changed. */
export interface Run {
  readonly spec: Spec;
  readonly overrides: Overrides;
  readonly bench: Bench;
  readonly fits: readonly TileFit[];
}

export interface SizeFix {
  readonly fix: Fix;
  /** What the fix writes where it is not the exact size, but a mark of the rule next to it. */
  readonly mark: Length | undefined;
}

export interface Mends {
  /** The one size that closes the build, as an edit of the text; undefined where none does, or more than one. */
  readonly only: SizeFix | undefined;
  /** Sizes that close it and that the fault itself doesn't name. */
  readonly others: readonly { readonly what: string; readonly right: Length }[];
}

/**
 * The sizes that close a build.
 *
 * Each size that the build follows from is tried: what is missing changes in proportion to it, so two runs
 * tell what it should be, and a third, with everything, tells that it closes this build and breaks no other.
 * A plain measure goes before a sum, which says more than its worth.
 */
export function mendsOf(fault: Unclosed, { build }: TileFit, run: Run): Mends {
  const closing = candidates(build, run.spec).flatMap((candidate) => {
    const right = rightSize(candidate, fault, build, run);
    return right !== undefined && closes(candidate, right, fault, build.tile, run)
      ? [{ candidate, right }]
      : [];
  });
  const literal = closing.filter(({ candidate }) => candidate.isLiteral);
  const [only, ...more] = literal.length > 0 ? literal : closing;
  const others = closing.flatMap(({ candidate: { what }, right }) =>
    what === undefined ? [] : [{ what, right }],
  );
  return {
    only: only === undefined || more.length > 0 ? undefined : editOf(only, fault, build.tile, run),
    others,
  };
}

function editOf(
  { candidate, right: exact }: { readonly candidate: Candidate; readonly right: Length },
  fault: Unclosed,
  tile: string,
  run: Run,
): SizeFix {
  const { at } = candidate.expression;
  const right = onTheRule(exact, run.bench.ruler[0], fault).find(
    (it) => equal(it, exact) || closes(candidate, it, fault, tile, run),
  );
  const text = written(right ?? exact, candidate.expression, run.spec);
  const isMark = right !== undefined && !equal(right, exact);
  return { fix: { span: at, text }, mark: isMark ? right : undefined };
}

/** The size that is right, but first the marks about it that are off by no more than the slack. */
function onTheRule(right: Length, scale: Length, { slack }: Unclosed): readonly Length[] {
  const marks = [roundToStep(right, scale, 'down'), roundToStep(right, scale, 'up')];
  const near = marks.filter((it) => isPositive(it) && compare(absolute(minus(it, right)), slack) <= 0);
  return [...near, right];
}

/** How things stand and one more run give the slope, and so the size at which nothing is missing. */
function rightSize(
  { expression, now }: Candidate,
  fault: Unclosed,
  build: Build,
  run: Run,
): Length | undefined {
  const nudge = millimetres(rational(1n, 64n));
  const { builds } = expandedAgain(expression, sum(now, nudge), run, new Set([build.tile]));
  const nudged = builds.find(({ tile }) => tile === build.tile);
  const [here, there] = [missIn(build, fault), nudged && missIn(nudged, fault)];
  if (here === undefined || there === undefined) return undefined;
  const slope = divide(subtract(there, here), nudge);
  if (isZero(slope)) return undefined;
  const right = minus(now, millimetres(divide(here, slope)));
  return isPositive(right) && !equal(right, now) ? right : undefined;
}

/**
 * True where the fault is gone and nothing new is wrong, in this tile or another. The tile is looked at alone
 * first: most sizes fail there, and then the others need not be worked out.
 */
function closes(candidate: Candidate, right: Length, fault: Unclosed, tile: string, run: Run): boolean {
  return (
    isBetterWith(candidate, right, fault, tile, run, new Set([tile])) &&
    (candidate.tiles?.size === 1 || isBetterWith(candidate, right, fault, tile, run, candidate.tiles))
  );
}

function isBetterWith(
  { expression }: Candidate,
  right: Length,
  fault: Unclosed,
  tile: string,
  run: Run,
  tiles: ReadonlySet<string> | undefined,
): boolean {
  const { builds, errors } = expandedAgain(expression, right, run, tiles);
  if (errors.length > 0 && isNewAmong(errors, run, tiles)) return false;
  const isLookedAt = ({ build }: TileFit) => tiles?.has(build.tile) !== false;
  const before = new Set(run.fits.filter(isLookedAt).flatMap(keysOf));
  const after = builds.flatMap((build) => keysOf(judge(build, run.bench)));
  return after.every((key) => before.has(key)) && !after.includes(faultKey(fault, tile));
}

function expandedAgain(
  expression: Expression,
  value: Length,
  { spec, overrides }: Run,
  only: ReadonlySet<string> | undefined,
) {
  const instead = [...(overrides.instead ?? []), { at: expression.at, value }];
  const again = only === undefined ? { ...overrides, instead } : { ...overrides, instead, only };
  const { value: batch, diagnostics } = expand(spec, again);
  return { builds: batch?.builds ?? [], errors: diagnostics.filter(isError) };
}

/** What is wrong with another tile anyhow speaks against no size. */
function isNewAmong(
  errors: readonly Diagnostic[],
  { spec, overrides }: Run,
  only: ReadonlySet<string> | undefined,
): boolean {
  const { diagnostics } = expand(spec, only === undefined ? overrides : { ...overrides, only });
  const isKnown = (it: Diagnostic): boolean =>
    diagnostics.some(({ code, message }) => code === it.code && message === it.message);
  return !errors.every(isKnown);
}

/** As the file would say it: bare in the file's own unit, or with the unit in which it is short. */
function written(right: Length, { at }: Expression, spec: Spec): string {
  const files = new Set(spec.files);
  for (const file of files) for (const used of file.uses) files.add(used);
  const units = [...files].find(({ source }) => source === at.source)?.units;
  const text = showThickness(right, units ?? 'mm');
  return units === undefined || !text.endsWith(` ${units}`) ? text : text.slice(0, -units.length - 1);
}
