import { paperSize } from '../../expand/index.ts';
import { toDrawnMm } from '../../measure/index.ts';
import {
  type Diagnostic,
  diagnose,
  fine,
  isError,
  type Made,
  type MaterialPlan,
  nowhere,
  type Outcome,
  refused,
} from '../../model/index.ts';
import { digestOf } from './digest.ts';
import { faultsOfTexts } from './faultsOfTexts.ts';
import { startFlow } from './flow.ts';
import { frontPage } from './frontPage.ts';
import type { Page } from './mark.ts';
import { sizesOf } from './sizes.ts';
import type { Typeface } from './type.ts';
import { whyPage } from './whyPage.ts';
import { workPages } from './workPages.ts';

/**
 * The sheets of a session, composed in millimetres: what is made, the cutting list, each distinct layout.
 *
 * @param version of the program, printed in the foot
 */
export function sheetsOf(
  made: Made,
  diagnostics: readonly Diagnostic[],
  version: string,
  face: Typeface,
): Outcome<readonly Page[]> {
  const { batch, plans } = made;
  const { width, height } = paperSize(batch.settings.paper.value);
  const margin = toDrawnMm(batch.settings.margin.value);
  const [widthMm, heightMm] = [toDrawnMm(width), toDrawnMm(height)];
  if (Math.max(widthMm, heightMm) > mostMm) {
    const paper = `${shown(widthMm)} × ${shown(heightMm)} mm`;
    return refused(diagnose('O23', nowhere, { paper, most: `${shown(mostMm)} mm` }));
  }
  if (widthMm - 2 * margin < least.widthMm || heightMm - 2 * margin < least.heightMm) {
    const room = `${shown(widthMm - 2 * margin)} × ${shown(heightMm - 2 * margin)} mm`;
    return refused(diagnose('O21', nowhere, { room, needed: `${least.widthMm} × ${least.heightMm} mm` }));
  }
  const flow = startFlow(face, widthMm, heightMm, margin);
  const sizes = sizesOf(batch.settings);
  frontPage(flow, sizes, batch, plans, diagnostics);
  workPages(flow, sizes, plans);
  whyPage(flow, sizes, plans, made.savings);
  const faults = diagnostics.filter(isError).length;
  return fine(
    flow.pages({
      title: batch.title,
      made: `cardwright ${version} · ${digestOf(made)}`,
      alarm: faults === 0 ? undefined : alarmOf(faults, plans),
    }),
    faultsOfTexts(made, face),
  );
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

/** The customary limit of readers: 14 400 units of 1/72 in. */
const mostMm = 200 * 25.4;

function shown(mm: number): string {
  return `${Math.floor(mm * 10) / 10}`;
}
