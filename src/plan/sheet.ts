import { toFraction } from '../measure/index.ts';
import type {
  Box,
  Leftover,
  Length,
  MaterialDemand,
  NonEmpty,
  PartMember,
  PlannedPiece,
  SheetKind,
  SheetPlan,
  Step,
} from '../model/index.ts';
import { isWorthKeeping } from '../pack/index.ts';
import type { Piece } from './pieces.ts';
import { diagonalOf, squaredSheet } from './squareUp.ts';
import { leastStripOf, stepsOf } from './steps.ts';

/** Gives each leftover worth keeping its name; equal ones share it. Numbers go on from those on offcuts at hand. */
export type KeepNames = (key: string) => string;

export function keepNames(labelsAtHand: readonly string[] = []): KeepNames {
  const taken = labelsAtHand.map((it) => Number(/^keep (\d{1,9})$/.exec(it)?.[1] ?? 0));
  const last = taken.reduce((most, it) => Math.max(most, it), 0);
  const names = new Map<string, string>();
  return (key) => {
    const name = names.get(key) ?? `keep ${last + names.size + 1}`;
    names.set(key, name);
    return name;
  };
}

export interface SheetWork {
  readonly demand: MaterialDemand;
  readonly sheet: SheetKind;
  readonly root: Piece;
  /** By place. */
  readonly members: readonly PartMember[];
  readonly first: number;
  readonly times: number;
  /** Graduation of the first rule. */
  readonly step: Length;
  readonly keeps: KeepNames;
}

export function planSheet(work: SheetWork): SheetPlan {
  const { sheet, root, members, first, times, step } = work;
  const inside = squaredSheet(sheet);
  const squareUp: Step = {
    kind: 'square up',
    number: 1,
    length: inside.length,
    width: inside.width,
    trims: sheet.trim,
    diagonal: diagonalOf(inside, step),
  };
  const keepOf = (box: Box) => nameLeftover(box, work);
  const leastStrip = leastStripOf(work.demand.material.thickness, step);
  const { steps, freedBy, strips } = stepsOf(root, members, keepOf, leastStrip);

  const pieces: PlannedPiece[] = [];
  const leftovers: Leftover[] = [];
  for (const [piece, freeing] of freedBy) {
    if (piece.kind === 'part') {
      const member = members[piece.place];
      if (member === undefined) throw new Error(`place ${piece.place} was dealt no label`);
      pieces.push({ member, box: piece.box, turned: piece.turned, steps: freeing });
    } else if (piece.kind === 'left over') {
      leftovers.push({ box: piece.box, keep: keepOf(piece.box) });
    }
  }
  const all: NonEmpty<Step> = [squareUp, ...steps];
  return { sheet, first, times, inside, pieces, leftovers, strips, steps: all };
}

function nameLeftover(box: Box, { demand, sheet, keeps }: SheetWork): string | undefined {
  if (!isWorthKeeping(box, demand.rules)) return undefined;
  const { grain, flutes } = sheet;
  return keeps(
    [demand.material.name, toFraction(box.length), toFraction(box.width), grain, flutes].join('\n'),
  );
}
