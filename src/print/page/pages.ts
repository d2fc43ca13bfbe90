import { paperSize } from '../../expand/index.ts';
import { toDrawnMm } from '../../measure/index.ts';
import {
  type Diagnostic,
  fine,
  isError,
  type Made,
  type MaterialPlan,
  type Outcome,
  refused,
} from '../../model/index.ts';
import { digestOf } from './digest.ts';
import { faultsOfTexts } from './faultsOfTexts.ts';
import { startFlow } from './flow.ts';
import { frontPage } from './frontPage.ts';
import type { Surround } from './furniture.ts';
import { gluingPage } from './gluing.ts';
import type { Pages } from './mark.ts';
import { paperFault } from './paper.ts';
import { shapePages } from './shapePages.ts';
import { sizesOf } from './sizes.ts';
import { slipPages } from './slipPages.ts';
import { stickPages } from './stickPages.ts';
import type { Typeface } from './type.ts';
import { whyPage } from './whyPage.ts';
import { workPages } from './workPages.ts';

/**
 * The sheets of a session, composed in millimetres: what is made, the cutting list, each distinct layout. Nothing
 * is composed before its pages are asked for.
 *
 * @param version of the program, printed in the foot
 */
export function sheetsOf(
  made: Made,
  diagnostics: readonly Diagnostic[],
  version: string,
  face: Typeface,
  { sticks }: SheetWishes = {},
): Outcome<() => Pages> {
  const { batch, plans } = made;
  const { width, height } = paperSize(batch.settings.paper.value);
  const fault = paperFault(batch.settings, least);
  if (fault !== undefined) return refused(fault);
  const paper = {
    widthMm: toDrawnMm(width),
    heightMm: toDrawnMm(height),
    marginMm: toDrawnMm(batch.settings.margin.value),
  };
  const sizes = sizesOf(batch.settings);
  const faults = diagnostics.filter(isError).length;
  const around: Surround = {
    title: batch.title,
    made: `cardwright ${version} · ${digestOf(made)}`,
    alarm: faults === 0 ? undefined : alarmOf(faults, plans),
  };
  function* pages(): Pages {
    const flow = startFlow(face, paper, around);
    frontPage(flow, sizes, batch, plans, diagnostics);
    for (const pause of workPages(flow, sizes, plans)) {
      yield* flow.full();
      yield pause;
    }
    for (const pause of shapePages(flow, sizes, plans)) {
      yield* flow.full();
      yield pause;
    }
    gluingPage(flow, made);
    whyPage(flow, sizes, plans, made.savings);
    if (sticks) stickPages(flow, sizes, plans);
    const before = flow.count();
    if (batch.settings.slips?.value) slipPages(flow, sizes, batch);
    for (const page of flow.rest()) yield page.number > before ? { ...page, part: 'slips' } : page;
    return flow.count();
  }
  return fine(pages, faultsOfTexts(made, face));
}

/** What may be wanted beside the sheets. */
export interface SheetWishes {
  /** The marks of each datum edge on strips of paper. */
  readonly sticks?: boolean;
}

/** On each page, so that no sheet passes for the whole: that it is not, and what it lacks. */
function alarmOf(faults: number, plans: readonly MaterialPlan[]): string {
  const missing = plans.flatMap(({ unplaced }) =>
    unplaced.map(({ member, count }) => (count === 1 ? member.label : `${count} × ${member.label}`)),
  );
  const lacking = missing.length === 0 ? '' : `; on no sheet: ${missing.join(', ')}`;
  return `NOT COMPLETE: ${faults} ${faults === 1 ? 'fault' : 'faults'}, told on page 1${lacking}`;
}

/** The scale bars with their words beside them; the head, the foot and half a dozen steps. */
const least = { widthMm: 118, heightMm: 120 } as const;
