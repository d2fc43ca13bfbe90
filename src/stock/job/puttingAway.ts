import { isPositive, multiply, roundToStep, subtract, whole } from '../../measure/index.ts';
import type {
  Box,
  DrawerEntry,
  Job,
  JobPicture,
  JobSheet,
  Length,
  Rational,
  SheetKind,
} from '../../model/index.ts';
import { type Change, isLike } from '../drawer/changing.ts';
import { picturesOf } from './making.ts';
import { type SheetState, sheetsOf } from './state.ts';

/** What putting sheets away does to the drawer, and what lies elsewhere. */
export interface PuttingAway {
  readonly sheets: readonly JobSheet[];
  readonly changes: readonly Change[];
  /** Sheets at hand that are listed in another file, which is never written. */
  readonly elsewhere: readonly {
    readonly sheet: SheetKind;
    readonly material: string;
    readonly count: number;
  }[];
}

/**
 * What was cut and not put away yet: sheets of the drawer go out, leftovers with a name come in, each size rounded
 * down to the first rule, so that sizes do not grow finer every evening. A leftover that something is cut again
 * from stays on the bench.
 */
export function puttingAway(job: Job): PuttingAway {
  const step = job.plan.settings.ruler.value[0];
  const open = sheetsOf(job).filter(({ isCut, isPutAway }) => isCut && !isPutAway);
  const out = new Map<string, { entry: DrawerEntry; count: number }>();
  const put: { entry: DrawerEntry; count: number }[] = [];
  const elsewhere: PuttingAway['elsewhere'][number][] = [];
  for (const { material, picture } of open) {
    const { sheet, leftovers } = picture;
    if (sheet.inDrawer) counted(out, entryOf(sheet, material));
    else if (sheet.isOffcut && !picture.isOwn) elsewhere.push({ sheet, material, count: 1 });
    for (const { box, keep } of leftovers) {
      if (keep === undefined) continue;
      const entry = offcutOf(box, keep, sheet, material, step);
      if (entry === undefined) continue;
      const known = put.find((it) => isLike(it.entry, entry));
      if (known === undefined) put.push({ entry, count: 1 });
      else known.count++;
    }
  }
  const reserved = keepsCutAgain(job, open);
  return {
    sheets: open.map(({ material, number }) => ({ material, number })),
    changes: [
      ...[...out.values()].map(({ entry, count }): Change => ({ kind: 'take', entry, count })),
      ...put.flatMap(({ entry, count }): readonly Change[] => {
        const left = count - (reserved.get(`${entry.label} ${entry.material}`) ?? 0);
        return left > 0 ? [{ kind: 'put', entry: { ...entry, count: left } }] : [];
      }),
    ],
    elsewhere,
  };
}

/** How many of each leftover are cut again, of those whose sheets are put away just now. */
function keepsCutAgain(job: Job, open: readonly SheetState[]): ReadonlyMap<string, number> {
  const materials = new Set(open.map(({ material }) => material));
  const used = new Map<string, number>();
  for (const material of materials) {
    for (const { isOwn, sheet, times } of picturesOf(job, material)) {
      if (!isOwn || sheet.label === undefined) continue;
      const key = `${sheet.label} ${material}`;
      used.set(key, (used.get(key) ?? 0) + times);
    }
  }
  return used;
}

function counted(all: Map<string, { entry: DrawerEntry; count: number }>, entry: DrawerEntry): void {
  for (const known of all.values()) {
    if (!isLike(known.entry, entry)) continue;
    known.count++;
    return;
  }
  all.set(`${all.size}`, { entry, count: 1 });
}

/** A sheet of the drawer, as its file lists it. */
export function entryOf(sheet: SheetKind, material: string): DrawerEntry {
  const run = (it: SheetKind['grain']): DrawerEntry['grain'] => (it === 'none' ? undefined : it);
  return {
    kind: sheet.isUncut ? 'sheet' : 'offcut',
    material,
    length: sheet.length,
    width: sheet.width,
    grain: run(sheet.grain),
    flutes: run(sheet.flutes),
    count: 1,
    label: sheet.label,
    where: sheet.where,
    note: sheet.note,
    price: sheet.price,
    trim: undefined,
    trueEdges: sheet.trueEdges,
  };
}

/** A leftover as it goes into the drawer; it lies as its sheet lay, so grain and flutes run as they did. */
function offcutOf(
  { length, width }: Box,
  keep: string,
  sheet: SheetKind,
  material: string,
  step: Length,
): DrawerEntry | undefined {
  const sizes = { length: roundToStep(length, step, 'down'), width: roundToStep(width, step, 'down') };
  if (!isPositive(sizes.length) || !isPositive(sizes.width)) return undefined;
  const of = entryOf(sheet, material);
  return {
    ...of,
    ...sizes,
    kind: 'offcut',
    label: keep,
    where: undefined,
    note: undefined,
    price: undefined,
    trueEdges: true,
  };
}

/** Where the area of the sheets of a job went that are cut, in square millimetres. */
export interface Balance {
  readonly sheets: Rational;
  readonly parts: Rational;
  /** Leftovers with a name, before their sizes are rounded down. */
  readonly kept: Rational;
  readonly scrap: Rational;
  readonly trim: Rational;
  readonly cuts: Rational;
}

export function balanceOf(pictures: readonly JobPicture[]): Balance {
  const nothing: Rational = whole(0);
  let [sheets, parts, kept, scrap, trim] = [nothing, nothing, nothing, nothing, nothing];
  for (const { sheet, inside, pieces, leftovers, times } of pictures) {
    const count = whole(times);
    const grown = (area: Rational, of: Pick<Box, 'length' | 'width'>): Rational =>
      plus(area, multiply(areaOf(of), count));
    sheets = grown(sheets, sheet);
    trim = plus(trim, multiply(subtract(areaOf(sheet), areaOf(inside)), count));
    for (const { box } of pieces) parts = grown(parts, box);
    for (const { box, keep } of leftovers) {
      if (keep === undefined) scrap = grown(scrap, box);
      else kept = grown(kept, box);
    }
  }
  const cuts = subtract(sheets, [parts, kept, scrap, trim].reduce(plus));
  return { sheets, parts, kept, scrap, trim, cuts };
}

function plus(a: Rational, b: Rational): Rational {
  return subtract(a, subtract(whole(0), b));
}

function areaOf({ length, width }: Pick<Box, 'length' | 'width'>): Rational {
  return multiply(length, width);
}
