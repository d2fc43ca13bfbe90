import { equal, exactDecimal, finestInch, isMultiple, showExact } from '../../measure/index.ts';
import type {
  Batch,
  DrawerEntry,
  FileUnits,
  Job,
  JobEvent,
  JobMaterial,
  JobPicture,
  JobPiece,
  JobPlan,
  MaterialDemand,
  PartKind,
  PartMember,
  SheetKind,
} from '../../model/index.ts';
import type { MoreOf } from '../../pack/index.ts';
import { isLike } from '../drawer/changing.ts';
import { entryOf } from './entries.ts';
import { frozen } from './freezing.ts';
import { ownLeftovers } from './recutting.ts';
import { type SheetState, sheetsOf } from './state.ts';

/** What is still to be cut after an edit, and what the edit did to what is cut already. */
export interface Remaining {
  readonly batch: Batch;
  /** In words, one a part. */
  readonly told: readonly string[];
  /** How many are cut already of what is made as often as it fits. */
  readonly cutAlready?: MoreOf;
}

/**
 * Takes what a job has cut off what is asked for now. A piece counts where its part is still asked for and still
 * has the size it was cut to; what no longer fits is told, and is cut again.
 */
export function remaining(batch: Batch, job: Job): Remaining {
  const told: string[] = [];
  const done = piecesCut(job);
  const materials = batch.materials.flatMap((demand): readonly MaterialDemand[] => {
    const { firstUnit: unit } = batch.settings;
    const reckoning: Reckoning = { material: demand.material.name, unit, done, told, job };
    const { fillers = [], ...rest } = demand;
    const parts = demand.parts.flatMap((kind) => lessCut(kind, reckoning));
    const stillToFill = fillers.flatMap((kind) => lessFilled(kind, reckoning));
    const [first, ...others] = parts;
    if (first === undefined) return [];
    return [
      {
        ...rest,
        parts: [first, ...others],
        sheets: sheetsLeft(demand, job),
        ...(stillToFill.length === 0 ? {} : { fillers: stillToFill }),
      },
    ];
  });
  for (const { member, material, count } of done.values()) {
    if (count > 0 && !isAskedFor(batch, material, member)) {
      told.push(`${count} x ${member.label} cut, no longer asked for`);
    }
  }
  const kept = sheetsOf(job).flatMap(({ picture }) => picture.leftovers.flatMap(({ keep }) => keep ?? []));
  return {
    batch: { ...batch, materials, labelsAtHand: [...(batch.labelsAtHand ?? []), ...kept] },
    told,
    cutAlready: (material, member) => {
      const cut = done.get(keyOf(material, member));
      return cut !== undefined && cut.count > 0 && isStillSo(batch, material, cut) ? cut.count : 0;
    },
  };
}

interface CutPieces {
  readonly material: string;
  readonly kind: PartKind;
  readonly member: PartMember;
  count: number;
}

/** The pieces of the sheets that are cut, by material, tile and part. */
function piecesCut(job: Job): Map<string, CutPieces> {
  const done = new Map<string, CutPieces>();
  for (const { material, picture, isCut } of sheetsOf(job)) {
    if (!isCut) continue;
    for (const label of picture.pieces.flatMap(labelsOfUse)) {
      const found = memberCalled(job, material, label);
      if (found === undefined) continue;
      const key = keyOf(material, found.member);
      const known = done.get(key) ?? { material, ...found, count: 0 };
      known.count++;
      done.set(key, known);
    }
  }
  // What was cut again stands for what was spoiled, and makes no piece more.
  for (const event of job.events) {
    if (event.kind !== 'recut') continue;
    const found = memberCalled(job, event.material, event.label);
    const known = found && done.get(keyOf(event.material, found.member));
    if (known !== undefined) known.count -= event.count;
  }
  return done;
}

/** The parts that a piece gives: itself, or those that share its blank. */
function labelsOfUse({ label, parts = [label], ofNoUse }: JobPiece): readonly string[] {
  return ofNoUse ? [] : parts;
}

function memberCalled(job: Job, material: string, label: string) {
  for (const { demand } of job.plan.materials) {
    if (demand.material.name !== material) continue;
    for (const kind of demand.parts) {
      const member = kind.members.find((it) => it.label === label);
      if (member !== undefined) return { kind, member };
    }
  }
  return undefined;
}

function keyOf(material: string, { tile, part }: PartMember): string {
  return JSON.stringify([material, tile ?? null, part]);
}

function isAskedFor(batch: Batch, material: string, member: PartMember): boolean {
  return askedKind(batch, material, member) !== undefined;
}

function isStillSo(batch: Batch, material: string, { kind, member }: CutPieces): boolean {
  const now = askedKind(batch, material, member);
  const own = now?.members.find((it) => isSamePart(it, member));
  return (
    now !== undefined && own !== undefined && isStillTheSame({ kind, member }, { kind: now, member: own })
  );
}

function askedKind(batch: Batch, material: string, member: PartMember): PartKind | undefined {
  return batch.materials
    .filter((it) => it.material.name === material)
    .flatMap(({ parts, fillers = [] }) => [...parts, ...fillers])
    .find(({ members }) => members.some((own) => isSamePart(own, member)));
}

interface Reckoning {
  readonly material: string;
  readonly unit: FileUnits;
  readonly done: Map<string, CutPieces>;
  readonly told: string[];
  /** As it was before. */
  readonly job: Job;
}

function lessCut(kind: PartKind, reckoning: Reckoning): readonly PartKind[] {
  const members = kind.members.flatMap((member): readonly PartMember[] => {
    const cut = stillOfUse(member, kind, reckoning, 'of no use, and all of it is planned again');
    const before = memberBefore(member, reckoning);
    if (before?.asFits !== undefined) reckoning.told.push(askedOtherwise(member, before, cut?.count ?? 0));
    if (cut === undefined) return [member];
    const taken = Math.min(cut.count, member.count);
    if (cut.count > member.count)
      reckoning.told.push(`${cut.count - member.count} x ${member.label} cut too many`);
    const { spares, turnedOver, ...rest } = member;
    const count = member.count - taken;
    if (count === 0) return [];
    return [
      {
        ...rest,
        count,
        ...(spares === undefined ? {} : { spares: Math.min(spares, count) }),
        ...(turnedOver === undefined ? {} : { turnedOver: Math.min(turnedOver, count) }),
      },
    ];
  });
  const [first, ...others] = members;
  if (first === undefined) return [];
  const count = members.reduce((all, it) => all + it.count, 0);
  return [{ ...kind, count, members: [first, ...others] }];
}

/** What was cut of a filler counts towards the most that is asked for; where that is another now, it is told. */
function lessFilled(kind: PartKind, reckoning: Reckoning): readonly PartKind[] {
  const members = kind.members.flatMap((member): readonly PartMember[] => {
    const cut = stillOfUse(member, kind, reckoning, 'of no use');
    const before = memberBefore(member, reckoning);
    if (before !== undefined && askedWords(before) !== askedWords(member)) {
      reckoning.told.push(askedOtherwise(member, before, cut?.count ?? 0));
    }
    const { asFits } = member;
    if (cut === undefined || asFits?.most === undefined) return [member];
    const most = asFits.most - cut.count;
    return most > 0 ? [{ ...member, asFits: { ...asFits, most } }] : [];
  });
  const [first, ...others] = members;
  return first === undefined ? [] : [{ ...kind, members: [first, ...others] }];
}

function memberBefore(member: PartMember, { job, material }: Reckoning): PartMember | undefined {
  return job.plan.materials
    .filter(({ demand }) => demand.material.name === material)
    .flatMap(({ demand }) => demand.parts.flatMap(({ members }) => members))
    .find((it) => isSamePart(it, member));
}

/** `stones: up to 60 now, up to 35 before; 20 are cut` */
function askedOtherwise(now: PartMember, before: PartMember, cut: number): string {
  const most = now.asFits?.most;
  const over = most !== undefined && cut > most ? `, ${cut - most} more than that` : '';
  const isCut = cut === 0 ? 'none is cut' : `${cut} ${cut === 1 ? 'is' : 'are'} cut`;
  return `${now.label}: ${askedWords(now)} now, ${askedWords(before)} before; ${isCut}${over}`;
}

function askedWords({ asFits, count }: PartMember): string {
  if (asFits === undefined) return `${count}`;
  return asFits.most === undefined ? 'as many as fit' : `up to ${asFits.most}`;
}

/**
 * The pieces that are cut of a part, if they still are what it asks for; what has changed is told.
 *
 * @param otherwise  what becomes of them where they are not
 */
function stillOfUse(
  member: PartMember,
  kind: PartKind,
  { material, unit, done, told }: Reckoning,
  otherwise: string,
): CutPieces | undefined {
  const cut = done.get(keyOf(material, member));
  if (cut === undefined || cut.count <= 0) return undefined;
  if (!isStillTheSame(cut, { kind, member })) {
    told.push(otherNow({ ...cut, member }, kind, unit, otherwise));
    return undefined;
  }
  if (cut.member.label !== member.label) told.push(calledOtherwise(cut, member));
  return cut;
}

/** The tile has got other letters since: the pieces keep what is written on them. */
function calledOtherwise({ member, count }: CutPieces, now: PartMember): string {
  return `${count} x ${member.label} cut, called ${now.label} from now on: the old label stands on ${count === 1 ? 'it' : 'them'}`;
}

function otherNow({ kind, member, count }: CutPieces, now: PartKind, unit: FileUnits, so: string): string {
  const [before, after] = [kind, now].map((it) => sizeWords(it, unit));
  const what = before === after ? '' : ` (${before} before, ${after} now)`;
  return `${count} x ${member.label} cut, but the part is another now${what}: ${so}`;
}

/** In millimetres what has no mark on a rule of inches, where it is short in them. */
function sizeWords(kind: PartKind, asked: FileUnits): string {
  const { length, width } = kind;
  const areShort = [length, width].every(
    (it) => isMultiple(it, finestInch) || exactDecimal(it) === undefined,
  );
  const unit = asked === 'in' && !areShort ? 'mm' : asked;
  return `${showExact(length, unit).replace(/ \S+$/, '')} x ${showExact(width, unit)}`;
}

function isSameToTheKnife(a: PartKind, b: PartKind): boolean {
  return (
    equal(a.length, b.length) &&
    equal(a.width, b.width) &&
    a.grain === b.grain &&
    a.flutes === b.flutes &&
    a.goodSide === b.goodSide
  );
}

/** What the sheets that are cut have left: less of the drawer until it is put away, and leftovers on the bench. */
function sheetsLeft(demand: MaterialDemand, job: Job): readonly SheetKind[] {
  const material = demand.material.name;
  const cut: readonly SheetState[] = sheetsOf(job).filter((it) => it.material === material && it.isCut);
  const taken = cut.filter(({ isPutAway, picture }) => !isPutAway && !picture.isOwn);
  const own = ownLeftovers(job, material).flatMap(({ kind, cut: available }) =>
    available > 0 ? [{ ...kind, available }] : [],
  );
  const others = demand.sheets.flatMap((sheet): readonly SheetKind[] => {
    if (sheet.available === 'as needed') return [sheet];
    const less = taken.filter(
      ({ picture }) =>
        picture.sheet.inDrawer === sheet.inDrawer && isLike(entryOf(picture.sheet, ''), entryOf(sheet, '')),
    );
    const available = sheet.available - less.length;
    return available > 0 ? [{ ...sheet, available }] : [];
  });
  return [...own, ...others];
}

/** The job with what was cut kept as it was, and the new plan's sheets counted on behind it. */
export function resumed(job: Job, plan: JobPlan, asked: Batch): Job {
  const cut = sheetsOf(job).filter(({ isCut }) => isCut);
  const spoiled = spoiledIn(job);
  const names = [...new Set([...cut.map(({ material }) => material), ...plan.materials.map(nameOf)])];
  const materials = names.flatMap((name): readonly JobMaterial[] => {
    const next = plan.materials.find((it) => nameOf(it) === name);
    const before = job.plan.materials.find((it) => nameOf(it) === name);
    const demand = asked.materials.find((it) => it.material.name === name) ?? before?.demand;
    if (demand === undefined) return [];
    const own = ownLeftovers(job, name).map(({ kind }) => entryOf(kind, name));
    const planned = (next?.pictures ?? []).map(
      (it): JobPicture => ({ ...it, isOwn: isOnTheBench(it.sheet, own, name) }),
    );
    const kept = cut
      .filter(({ material }) => material === name)
      .map(({ picture, number }): JobPicture => {
        const pieces = picture.pieces.map((it) => judged(it, name, job, asked, spoiled));
        return { ...picture, first: number, times: 1, pieces };
      });
    return [
      {
        demand: { ...demand, sheets: next?.demand.sheets ?? demand.sheets },
        pictures: [...kept, ...planned],
        unplaced: next?.unplaced ?? [],
      },
    ];
  });
  const events = job.events.filter((it): it is Exclude<JobEvent, { kind: 'recut' }> => it.kind !== 'recut');
  return { ...job, plan: { ...plan, materials }, events };
}

/** True of what the sheets that are cut have left: it was never the drawer's, and does not come into it whole. */
function isOnTheBench(sheet: SheetKind, own: readonly DrawerEntry[], material: string): boolean {
  const { isOffcut, isUncut, inDrawer } = sheet;
  if (!isOffcut || isUncut || inDrawer) return false;
  return own.some((it) => isLike(it, entryOf(sheet, material)));
}

/** By material and label, what was cut again; the events that tell it end with the plan that they belong to. */
function spoiledIn({ events }: Job): Map<string, number> {
  const spoiled = new Map<string, number>();
  for (const event of events) {
    if (event.kind !== 'recut') continue;
    const key = JSON.stringify([event.material, event.label]);
    spoiled.set(key, (spoiled.get(key) ?? 0) + event.count);
  }
  return spoiled;
}

/**
 * Sizes and labels stand in what is asked for, which is another from now on: whether a piece was cut to them is kept
 * with it, and it goes by the label that its part has now.
 */
function judged(
  piece: JobPiece,
  material: string,
  job: Job,
  asked: Batch,
  spoiled: Map<string, number>,
): JobPiece {
  if (piece.ofNoUse) return piece;
  const labels = labelsOfUse(piece).flatMap((it) => labelNow(it, material, { job, asked, spoiled }) ?? []);
  const [label] = labels;
  if (label === undefined) return { ...piece, ofNoUse: true };
  return piece.parts === undefined ? { ...piece, label } : { ...piece, parts: labels };
}

interface Judging {
  readonly job: Job;
  readonly asked: Batch;
  /** Counts down. */
  readonly spoiled: Map<string, number>;
}

/** Undefined for what was spoiled, and where the part is another now. */
function labelNow(label: string, material: string, { job, asked, spoiled }: Judging): string | undefined {
  const key = JSON.stringify([material, label]);
  const left = spoiled.get(key) ?? 0;
  if (left > 0) spoiled.set(key, left - 1);
  const before = memberCalled(job, material, label);
  const now = asked.materials
    .filter((it) => it.material.name === material)
    .flatMap(({ parts, fillers = [] }) => [...parts, ...fillers])
    .flatMap((kind) => kind.members.map((member) => ({ kind, member })))
    .find(({ member }) => before && isSamePart(member, before.member));
  const isOther = before !== undefined && now !== undefined && !isStillTheSame(before, now);
  if (left > 0 || isOther) return undefined;
  return now === undefined ? label : now.member.label;
}

interface KindOf {
  readonly kind: PartKind;
  readonly member: PartMember;
}

function isStillTheSame(before: KindOf, now: KindOf): boolean {
  return isSameToTheKnife(before.kind, now.kind) && shapeOf(before.member) === shapeOf(now.member);
}

/** Its edges as the job's file would hold them; what is drawn on it and not cut makes no other part. */
function shapeOf({ drawn }: PartMember): string {
  const { rim, holes } = drawn?.outline ?? {};
  return JSON.stringify(frozen([rim, holes]));
}

function isSamePart(a: PartMember, b: PartMember): boolean {
  return a.tile === b.tile && a.part === b.part;
}

function nameOf({ demand }: JobMaterial): string {
  return demand.material.name;
}
