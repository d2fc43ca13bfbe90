import { toFraction } from '../../measure/index.ts';
import type {
  Box,
  CostProof,
  CutLine,
  MaterialPlan,
  Price,
  Savings,
  SheetKind,
  SheetPlan,
  Step,
} from '../../model/index.ts';
import { differentWidths } from '../../plan/index.ts';
import { describeDemand } from './demand.ts';
import { describeLength, lengthOrNull } from './length.ts';
import type { Document } from './schema.ts';
import { describeWhy } from './why.ts';

type DescribedMaterial = NonNullable<Document<'cut'>['result']>['materials'][number];
type DescribedStep = DescribedMaterial['layouts'][number]['steps'][number];

/** @param savings undefined where nobody asked why */
export function describeMaterialPlan(plan: MaterialPlan, savings: Savings | undefined): DescribedMaterial {
  const { demand, sheets, unplaced, bound, proof, steps, order } = plan;
  return {
    ...describeDemand(demand),
    sheets: sheets.reduce((sum, { times }) => sum + times, 0),
    bound: {
      sheets: bound.sheets,
      argument: bound.argument,
      cost: describePrice(bound.cost),
      isForBlanks: bound.isForBlanks ?? false,
    },
    proof: {
      kind: proof.kind,
      within: proof.kind === 'within' ? proof.sheets : null,
      cost: proof.kind === 'none' ? null : describeCostProof(proof.cost),
    },
    searchSteps: steps,
    widthsSetOut: differentWidths(order),
    settings: order.length,
    settingsByPicture: plan.settingsByPicture,
    order: order.map(({ size, uses }) => ({
      size: describeLength(size),
      uses: uses.map(({ sheet, step, piece, cuts }) => ({ sheet, step, piece, cuts })),
    })),
    layouts: sheets.map(describeSheetPlan),
    unplaced: unplaced.map(({ member, count }) => ({ label: member.label, count })),
    fillers: (plan.fitted ?? []).map(({ kind, most, isEnough, stoppedAt }) => ({
      labels: kind.members.map(({ label }) => label),
      count: kind.count,
      most,
      isEnough,
      stoppedAt: stoppedAt ?? null,
    })),
    why: savings === undefined ? null : describeWhy(plan, savings),
  };
}

export function describePrice(price: Price | undefined) {
  return price === undefined ? null : { amount: toFraction(price.amount), currency: price.currency };
}

function describeCostProof(cost: CostProof | undefined) {
  if (cost === undefined) return null;
  return { kind: cost.kind, by: cost.kind === 'dearer' ? describePrice(cost.by) : null };
}

function describeSheetPlan({ first, times, sheet, inside, pieces, leftovers, strips, steps }: SheetPlan) {
  return {
    first,
    times,
    sheet: describeSheet(sheet),
    inside: describeBox(inside),
    pieces: pieces.map((piece) => ({
      label: piece.member.label,
      box: describeBox(piece.box),
      turned: piece.turned,
      steps: [...piece.steps],
    })),
    leftovers: leftovers.map(({ box, keep }) => ({ box: describeBox(box), keep: keep ?? null })),
    strips: strips.map(({ name, box }) => ({ name, box: describeBox(box) })),
    steps: steps.map(describeStep),
  };
}

function describeSheet(sheet: SheetKind) {
  return {
    length: describeLength(sheet.length),
    width: describeLength(sheet.width),
    trim: describeTrim(sheet.trim),
    grain: sheet.grain,
    flutes: sheet.flutes,
    available: sheet.available,
    price: describePrice(sheet.price),
    pack: sheet.pack ?? 1,
    block:
      sheet.block === undefined
        ? null
        : {
            thick: describeLength(sheet.block.thick),
            layers: sheet.block.layers,
            left: describeLength(sheet.block.left),
          },
    isOffcut: sheet.isOffcut && sheet.isUncut !== true,
    inDrawer: sheet.inDrawer ?? false,
    trueEdges: sheet.trueEdges,
    label: sheet.label ?? null,
    where: sheet.where ?? null,
    note: sheet.note ?? null,
  };
}

function describeTrim({ left, right, bottom, top }: SheetKind['trim']) {
  return {
    left: describeLength(left),
    right: describeLength(right),
    bottom: describeLength(bottom),
    top: describeLength(top),
  };
}

function describeBox({ left, bottom, length, width }: Box) {
  return {
    left: describeLength(left),
    bottom: describeLength(bottom),
    length: describeLength(length),
    width: describeLength(width),
  };
}

function describeStep(step: Step): DescribedStep {
  switch (step.kind) {
    case 'square up':
      return {
        kind: step.kind,
        number: step.number,
        length: describeLength(step.length),
        width: describeLength(step.width),
        trims: describeTrim(step.trims),
        diagonal: {
          length: describeLength(step.diagonal.length),
          isExact: step.diagonal.isExact,
          error: describeLength(step.diagonal.error),
        },
      };
    case 'label':
      return {
        kind: step.kind,
        number: step.number,
        labels: step.labels.map(({ label, count, on }) => ({ label, count, on })),
      };
    case 'rip':
    case 'crosscut':
      return {
        kind: step.kind,
        number: step.number,
        piece: { name: step.piece.name, box: describeBox(step.piece.box), count: step.piece.count },
        marks: step.marks.map(describeLength),
        runs: step.runs.map(({ size, count, cuts, endsAt, gives }) => ({
          size: describeLength(size),
          count,
          cuts,
          endsAt: describeLength(endsAt),
          gives: gives.map((it) => ({ what: it.what, name: it.name, count: it.count })),
        })),
        remains: lengthOrNull(step.remains),
        lines: step.lines.map(describeLine),
      };
  }
}

function describeLine({ from, to }: CutLine) {
  const point = ({ left, bottom }: CutLine['from']) => ({
    left: describeLength(left),
    bottom: describeLength(bottom),
  });
  return { from: point(from), to: point(to) };
}
