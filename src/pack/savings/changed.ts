import { larger, minus, zero } from '../../measure/index.ts';
import type {
  Change,
  Length,
  MaterialDemand,
  NonEmpty,
  PartKind,
  PartMember,
  SheetKind,
} from '../../model/index.ts';

/** The demand as it is with the change; undefined where nothing is left of it. */
export function changed(demand: MaterialDemand, change: Change): MaterialDemand | undefined {
  const { rules, sheets } = demand;
  switch (change.kind) {
    case 'longer search':
      return demand;
    case 'turns freely':
      return withPart(demand, change.part, (part) => ({ ...part, grain: 'any', flutes: 'any' }));
    case 'smaller part':
      return withPart(demand, change.part, (part) => ({
        ...part,
        [change.side]: minus(part[change.side], change.by),
      }));
    case 'less trim':
      return { ...demand, sheets: sheets.map((sheet) => ({ ...sheet, trim: lessTrim(sheet, change.by) })) };
    case 'narrower strips':
      return { ...demand, rules: { ...rules, leastStrip: change.to } };
    case 'thinner kerf':
      return { ...demand, rules: { ...rules, kerf: change.to } };
    case 'fewer parts':
      return withPart(demand, change.part, (part) => withFewer(part, change.count));
    case 'fewer tiles':
      return withoutTiles(demand, change.tile, change.count);
    case 'one more sheet':
      return { ...demand, sheets: sheets.map((sheet, i) => (i === change.sheet ? oneMore(sheet) : sheet)) };
    case 'other sheet':
      return { ...demand, sheets: [...sheets.filter(({ isOffcut }) => isOffcut), change.sheet] };
  }
}

function withPart(
  demand: MaterialDemand,
  index: number,
  change: (part: PartKind) => PartKind | undefined,
): MaterialDemand | undefined {
  return withParts(demand, (part, i) => (i === index ? change(part) : part));
}

function withParts(
  demand: MaterialDemand,
  change: (part: PartKind, index: number) => PartKind | undefined,
): MaterialDemand | undefined {
  const parts = demand.parts.flatMap((part, i) => change(part, i) ?? []);
  return isNonEmpty(parts) ? { ...demand, parts } : undefined;
}

/** Leaves so many out, the members that come last first. */
function withFewer(part: PartKind, count: number): PartKind | undefined {
  const members: PartKind['members'][number][] = [];
  let kept = part.count - count;
  for (const member of part.members) {
    const now = Math.min(member.count, kept);
    if (now > 0) members.push({ ...member, count: now });
    kept -= now;
  }
  return isNonEmpty(members) ? { ...part, count: part.count - count, members } : undefined;
}

/**
 * What so many tiles take is left out, part by part: blanks that give one each first, then those that give two,
 * of which one is kept where it still gives one that is asked for.
 */
function withoutTiles(demand: MaterialDemand, tile: string, tiles: number): MaterialDemand | undefined {
  const toDrop = new Map<string, number>();
  for (const { tile: its, part, each } of demand.parts.flatMap(({ members }) => members)) {
    if (its === tile) toDrop.set(part, tiles * each);
  }
  const left = new Map<PartMember, number>();
  for (const gives of [1, 2]) {
    for (const member of demand.parts.flatMap(({ members }) => members)) {
      if (member.tile !== tile || (member.shared === undefined ? 1 : 2) !== gives) continue;
      const drop = toDrop.get(member.part) ?? 0;
      const dropped = Math.min(member.count, Math.floor(drop / gives));
      toDrop.set(member.part, drop - dropped * gives);
      left.set(member, member.count - dropped);
    }
  }
  return withParts(demand, (part) => {
    const members = part.members
      .map((it) => ({ ...it, count: left.get(it) ?? it.count }))
      .filter(({ count }) => count > 0);
    const count = members.reduce((sum, it) => sum + it.count, 0);
    return isNonEmpty(members) ? { ...part, count, members } : undefined;
  });
}

function lessTrim({ trim }: SheetKind, by: Length): SheetKind['trim'] {
  const less = (edge: Length) => larger(zero, minus(edge, by));
  return {
    left: less(trim.left),
    right: less(trim.right),
    bottom: less(trim.bottom),
    top: less(trim.top),
  };
}

function oneMore(sheet: SheetKind): SheetKind {
  const { available } = sheet;
  return { ...sheet, available: available === 'as needed' ? available : available + 1 };
}

function isNonEmpty<T>(list: readonly T[]): list is NonEmpty<T> {
  return list.length > 0;
}
