import { blanksFor } from './blank/index.ts';
import { idleSaid, judged } from './checkUp.ts';
import { expand } from './expand/index.ts';
import { asMarked } from './mend/index.ts';
import {
  atSpan,
  type Batch,
  diagnose,
  isError,
  type Job,
  type Made,
  type MaterialLayouts,
  type Outcome,
  type Overrides,
  type Pause,
  type Spec,
} from './model/index.ts';
import { fillLeftovers, findSavings, fittedNotes, packAtHand, withFitted } from './pack/index.ts';
import { plan } from './plan/index.ts';
import { type AsMany, asManyAsAtHand, lastNumber, remaining, renumbered, withAtHand } from './stock/index.ts';

/**
 * Start reading here.
 *
 *   texts ─readSpec→ Spec ─expand→ Batch ─blanksFor→ blanks ─pack→ MaterialLayouts ─plan→ MaterialPlan ─print→ bytes
 *                                    │                       fillLeftovers ↲ └─findSavings→ Savings, where asked why ─┘
 *                                    └─judge→ TileFits, what is wrong with them ─mend→ and what would do
 *                                           the marks that sizes are cut to go back into the Batch
 *
 * Reading texts is the caller's, since `uses` asks for further files. From the first search on it pauses every few
 * milliseconds, and says how far the search is, so that whoever drives it can show that or stop it.
 */
export function* pipeline(
  spec: Spec,
  overrides: Overrides,
  wishes: Wishes = {},
): Generator<Pause, Outcome<Made>> {
  const { value: asDrawn, diagnostics } = expand(spec, overrides);
  if (asDrawn === undefined) return { value: undefined, diagnostics };
  if (asDrawn.most !== undefined && wishes.asMany === undefined && !diagnostics.some(isError)) {
    return yield* withAsMany(spec, overrides, wishes, asDrawn.most);
  }

  const stood = judged(spec, overrides, asDrawn);
  const said = [...diagnostics, ...stood.diagnostics, ...idleSaid(spec, asDrawn, stood.fits, diagnostics)];
  const asked = withWishes(asMarked(asDrawn, stood.fits), wishes);
  const { batch, told, cutAlready } =
    wishes.after === undefined ? { batch: asked, told: [] } : remaining(asked, wishes.after);
  const plain: MaterialLayouts[] = [];
  const layouts: MaterialLayouts[] = [];
  const { effort, ruler } = batch.settings;
  for (const demand of batch.materials) {
    const packed = yield* packAtHand(blanksFor(demand, ruler.value[0]), effort.value.steps);
    said.push(...packed.diagnostics);
    if (packed.value === undefined) continue;
    const filled = yield* fillLeftovers(packed.value);
    said.push(...filled.diagnostics);
    plain.push(packed.value);
    layouts.push(filled.value ?? packed.value);
  }
  const planned = yield* plan(layouts, batch.settings, batch.labelsAtHand);
  const plans = planned.map((it) =>
    wishes.after === undefined ? it : renumbered(it, lastNumber(wishes.after, it.demand.material.name)),
  );
  const made: Made = {
    spec,
    batch: {
      ...withFitted(batch, layouts),
      notes: [...batch.notes, ...told, ...fittedNotes(layouts, batch.fillersAlone, cutAlready)],
    },
    fits: stood.fits,
    layouts,
    plans,
    ...(wishes.after === undefined ? {} : { asked: withFitted(asked, layouts, cutAlready) }),
  };
  const value = wishes.why ? { ...made, savings: yield* quietly(findSavings(plain, ruler.value[0])) } : made;
  return { value, diagnostics: said };
}

/** Finds how many there can be first, and then makes so many, of what is at hand alone. */
function* withAsMany(
  spec: Spec,
  overrides: Overrides,
  wishes: Wishes,
  { what, at }: NonNullable<Batch['most']>,
): Generator<Pause, Outcome<Made>> {
  // How many there can be does not hang on the evening that is made now.
  const { evening: _, ...all } = overrides;
  const one = expand(spec, { ...all, most: 1 }).value;
  const fits = one === undefined ? [] : judged(spec, overrides, one).fits;
  const asMany = yield* asManyAsAtHand((most) => {
    const { value } = expand(spec, { ...all, most });
    return value && asMarked(value, fits);
  });
  if (asMany.count === 0) {
    const facts = { what, material: asMany.fitting ?? asMany.material ?? [...asMany.materials].join(', ') };
    return { value: undefined, diagnostics: [diagnose('K36', atSpan(at), facts)] };
  }
  return yield* pipeline(
    spec,
    { ...overrides, most: asMany.count },
    { ...wishes, asMany: { ...asMany, what } },
  );
}

/** Of what as many are made as what is at hand allows, nothing is bought. */
function withWishes(batch: Batch, { asMany }: Wishes): Batch {
  if (asMany === undefined) return batch;
  const { what, count, most, material, fitting, materials } = asMany;
  const limit = fitting === undefined ? `the area of ${material}` : `the number of ${fitting}`;
  const known = count === most ? 'no more are possible' : `${most} at most, by ${limit}`;
  return {
    ...batch,
    notes: [...batch.notes, `as many as what is at hand allows: ${count} x ${what}, ${known}`],
    materials: batch.materials.map((it) => (materials.has(it.material.name) ? withAtHand(it) : it)),
  };
}

/** What a caller may want beside the sheets. */
export interface Wishes {
  /** Why it takes so many sheets, and what would save one. */
  readonly why?: boolean;
  /** A job of which some is cut already: that is kept, and the rest is planned. */
  readonly after?: Job;
  /** How many there are of what as many were asked of as what is at hand allows. */
  readonly asMany?: AsMany & { readonly what: string };
}

/** Pauses as often, but tells nothing: how far a try is, is not how far the layouts are. */
function* quietly<T>(tries: Generator<Pause, T>): Generator<undefined, T> {
  for (;;) {
    const step = tries.next();
    if (step.done) return step.value;
    yield;
  }
}

/** Goes through all pauses without stopping. */
export function runToEnd<T>(run: Generator<Pause, T>): T {
  let step = run.next();
  while (!step.done) step = run.next();
  return step.value;
}
