import { blanksFor } from '../../blank/index.ts';
import { slicesOf } from '../../expand/index.ts';
import { zero } from '../../measure/index.ts';
import {
  type DrawerEntry,
  diagnose,
  didYouMean,
  type Job,
  type JobEvent,
  type ListedEntry,
  type Made,
  type MaterialDemand,
  type MaterialLayouts,
  type MaterialPlan,
  type NonEmpty,
  type Outcome,
  type PartKind,
  type Pause,
  type SheetKind,
  type SlicedBlock,
  type Source,
  type SpecFile,
} from '../../model/index.ts';
import { packAtHand } from '../../pack/index.ts';
import { plan } from '../../plan/index.ts';
import { isLike } from '../drawer/changing.ts';
import { blocksTaken } from './blocks.ts';
import { entryOf } from './entries.ts';
import { jobPicture, picturesOf } from './making.ts';
import { sheetsOf } from './state.ts';

export interface Recut {
  /** What is printed. */
  readonly made: Made;
  readonly event: Extract<JobEvent, { kind: 'recut' }>;
}

/**
 * Lays spoiled pieces out anew. What is nearest is tried first, and each wider choice only where it did not do:
 *
 *   leftovers of sheets that are cut → all leftovers of the job → the drawer → what can be bought
 *
 * @param entries  the drawer as it is now
 * @errors K26 no such label, and what `pack` says where the pieces find no place at all
 */
export function* recut(
  job: Job,
  { label, count }: { readonly label: string; readonly count: number },
  entries: readonly ListedEntry[],
  source: Source,
): Generator<Pause, Outcome<Recut>> {
  const found = partCalled(label, job);
  if (found === undefined) {
    const labels = job.plan.materials.flatMap(({ demand }) => labelsOf(demand.parts));
    const facts = { label, meant: didYouMean(label, labels) };
    return { value: undefined, diagnostics: [diagnose('K26', { kind: 'argument', argument: label }, facts)] };
  }
  const { demand } = found;
  const parts: NonEmpty<PartKind> = [alone(found.kind, label, count)];
  let last: Outcome<MaterialLayouts> = { value: undefined, diagnostics: [] };
  for (const sheets of choices(job, demand, entries)) {
    if (sheets.length === 0) continue;
    const ways = blanksFor({ ...demand, parts, sheets }, job.plan.settings.ruler.value[0]);
    last = yield* packAtHand(ways, job.plan.settings.effort.value.steps);
    if (last.value?.unplaced.length === 0) break;
  }
  if (last.value === undefined || last.value.unplaced.length > 0) {
    if (last.diagnostics.length > 0) return { value: undefined, diagnostics: last.diagnostics };
    const facts = { label, material: demand.material.name };
    return { value: undefined, diagnostics: [diagnose('K27', { kind: 'argument', argument: label }, facts)] };
  }
  const [planned] = yield* plan([last.value], job.plan.settings, labelsInUse(job, entries));
  if (planned === undefined) throw new Error('one layout gives one plan');
  const material = demand.material.name;
  const plans = [renumbered(planned, lastNumber(job, material))];
  const pictures = plans.flatMap(({ sheets }) => sheets.map((it) => jobPicture(it, isOwn(it.sheet))));
  const { settings, title } = job.plan;
  return {
    value: {
      made: {
        spec: { files: [bareFile(source)] },
        batch: {
          title: `${title}: ${count} x ${label} again`,
          notes: [],
          tiles: [],
          materials: [{ ...demand, parts }],
          builds: [],
          wander: undefined,
          // A single sheet is no pile.
          settings: { ...settings, slips: { value: false, from: 'built-in' } },
        },
        fits: [],
        layouts: [last.value],
        plans,
      },
      event: { kind: 'recut', label, count, material, pictures },
    },
    diagnostics: last.diagnostics,
  };
}

function partCalled(
  label: string,
  job: Job,
): { readonly demand: MaterialDemand; readonly kind: PartKind } | undefined {
  for (const { demand } of job.plan.materials) {
    const kind = demand.parts.find(({ members }) => members.some((it) => it.label === label));
    if (kind !== undefined) return { demand, kind };
  }
  return undefined;
}

function labelsOf(parts: readonly PartKind[]): readonly string[] {
  return parts.flatMap(({ members }) => members.map((it) => it.label));
}

/** The one part, as if it belonged to no tile: tiles are not made anew. */
function alone(kind: PartKind, label: string, count: number): PartKind {
  const [first] = kind.members;
  const { turnedOver: _, asFits: __, ...member } = kind.members.find((it) => it.label === label) ?? first;
  return { ...kind, count, members: [{ ...member, tile: undefined, count, each: count }] };
}

function choices(
  job: Job,
  demand: MaterialDemand,
  entries: readonly ListedEntry[],
): readonly (readonly SheetKind[])[] {
  const own = ownLeftovers(job, demand.material.name);
  const all = own.map(({ kind, count }) => ({ ...kind, available: count }));
  const cut = own.flatMap(({ kind, cut: available }) => (available > 0 ? [{ ...kind, available }] : []));
  const kept = inDrawer(job, demand, entries);
  const offcuts = kept.filter(({ isUncut }) => isUncut !== true);
  const bought = stillToBuy(job, demand);
  return [cut, all, [...all, ...offcuts], [...all, ...kept], [...all, ...kept, ...bought]];
}

interface OwnLeftover {
  readonly kind: SheetKind;
  readonly count: number;
  /** Of these, so many come from sheets that are cut. */
  readonly cut: number;
}

/** The leftovers with a name that lie on the bench, or will: those put away are the drawer's. */
export function ownLeftovers(job: Job, material: string): readonly OwnLeftover[] {
  const found = new Map<string, { kind: SheetKind; count: number; cut: number }>();
  for (const { material: of, picture, isCut, isPutAway } of sheetsOf(job)) {
    if (of !== material || isPutAway) continue;
    for (const { box, keep } of picture.leftovers) {
      if (keep === undefined) continue;
      const { grain, flutes, at } = picture.sheet;
      const known = found.get(keep) ?? {
        kind: {
          at,
          length: box.length,
          width: box.width,
          trim: noTrim,
          grain,
          flutes,
          available: 0,
          price: undefined,
          isOffcut: true,
          trueEdges: true,
          label: keep,
          where: undefined,
          note: undefined,
        },
        count: 0,
        cut: 0,
      };
      found.set(keep, { ...known, count: known.count + 1, cut: known.cut + (isCut ? 1 : 0) });
    }
  }
  for (const { isOwn: own, sheet, times } of picturesOf(job, material)) {
    const known = own ? found.get(sheet.label ?? '') : undefined;
    if (known === undefined || sheet.label === undefined) continue;
    found.set(sheet.label, { ...known, count: known.count - times, cut: known.cut - times });
  }
  return [...found.values()].filter(({ count }) => count > 0);
}

const noTrim = { left: zero, right: zero, bottom: zero, top: zero };

/** What the drawer has of the material beside what the job is to cut and has not put away. */
function inDrawer(job: Job, demand: MaterialDemand, entries: readonly ListedEntry[]): readonly SheetKind[] {
  const material = demand.material.name;
  const taken = sheetsOf(job)
    .filter((it) => it.material === material && !it.isPutAway && it.picture.sheet.inDrawer)
    .map(({ picture }) => entryOf(picture.sheet, material));
  return entries
    .filter((it) => it.material === material)
    .flatMap((entry): readonly SheetKind[] => {
      const { count } = entry;
      const block = blockOf(entry, demand);
      const less =
        block === undefined ? taken.filter((it) => isLike(it, entry)).length : blocksTaken(job, entry);
      const available = count === 'as needed' ? count : (count - less) * (block?.layers ?? 1);
      if (available !== 'as needed' && available <= 0) return [];
      return [sheetOf(entry, available, demand)];
    });
}

function sheetOf(
  entry: ListedEntry,
  available: SheetKind['available'],
  { material, sheets, rules }: MaterialDemand,
): SheetKind {
  const run = (has: boolean, side: DrawerEntry['grain']) => (has ? (side ?? 'unknown') : 'none');
  const block = blockOf(entry, { material, rules });
  const usual = sheets.find(({ isOffcut, isUncut }) => !isOffcut || isUncut)?.trim ?? noTrim;
  return {
    at: entry.at,
    length: entry.length,
    width: entry.width,
    trim: entry.trim ?? (entry.kind === 'sheet' ? usual : noTrim),
    grain: run(material.hasGrain, entry.grain),
    flutes: run(material.hasFlutes, entry.flutes),
    available,
    price: entry.price,
    isOffcut: true,
    ...(block === undefined ? {} : { block }),
    ...(entry.kind === 'sheet' ? { isUncut: true as const } : {}),
    inDrawer: true,
    trueEdges: entry.trueEdges,
    label: entry.label,
    where: entry.where,
    note: entry.note,
  };
}

/** What of the drawer is still to be sliced. */
function blockOf(
  { thick }: DrawerEntry,
  { material, rules }: Pick<MaterialDemand, 'material' | 'rules'>,
): SlicedBlock | undefined {
  return thick && { thick, ...slicesOf(thick, material.thickness, rules.kerf) };
}

function isOwn({ isOffcut, isUncut, inDrawer: isKept, label }: SheetKind): boolean {
  return isOffcut && isUncut !== true && isKept !== true && label !== undefined;
}

/** Where only so many can be had, less those that the job takes. */
function stillToBuy(job: Job, { material, sheets }: MaterialDemand): readonly SheetKind[] {
  const used = sheetsOf(job).filter((it) => it.material === material.name && !it.picture.sheet.isOffcut);
  return sheets.flatMap((sheet): readonly SheetKind[] => {
    if (sheet.isOffcut) return [];
    if (sheet.available === 'as needed') return [sheet];
    const taken = used.filter(({ picture }) => isLike(entryOf(picture.sheet, ''), entryOf(sheet, '')));
    const available = sheet.available - taken.length;
    return available > 0 ? [{ ...sheet, available }] : [];
  });
}

/** No leftover may be called like one that the job or the drawer has. */
function labelsInUse(job: Job, entries: readonly ListedEntry[]): readonly string[] {
  const own = sheetsOf(job).flatMap(({ picture }) => picture.leftovers.flatMap(({ keep }) => keep ?? []));
  return [...own, ...entries.flatMap(({ label }) => label ?? [])];
}

export function lastNumber(job: Job, material: string): number {
  return picturesOf(job, material).reduce((most, { first, times }) => Math.max(most, first + times - 1), 0);
}

/** The same plan with its sheets counted on from a number. */
export function renumbered(of: MaterialPlan, from: number): MaterialPlan {
  return {
    ...of,
    sheets: of.sheets.map((sheet) => ({ ...sheet, first: sheet.first + from })),
    order: of.order.map(({ size, uses: [use, ...others] }) => ({
      size,
      uses: [{ ...use, sheet: use.sheet + from }, ...others.map((it) => ({ ...it, sheet: it.sheet + from }))],
    })),
  };
}

/** The file that stands for all that a job was made from. */
function bareFile(source: Source): SpecFile {
  return {
    source,
    kind: 'session',
    title: undefined,
    note: undefined,
    units: undefined,
    uses: [],
    lengths: [],
    numbers: [],
    levels: [],
    grid: undefined,
    materials: [],
    sheets: [],
    offcuts: [],
    masters: [],
    parts: [],
    racks: [],
    tiles: [],
    make: undefined,
    loose: [],
    measured: [],
    cutting: undefined,
    print: undefined,
  };
}
