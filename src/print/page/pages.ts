import { inches, millimetres, toDrawnMm, whole } from '../../measure/index.ts';
import { type Diagnostic, fine, isError, type Made, type Outcome, type Paper } from '../../model/index.ts';
import { cuttingList } from './cuttingList.ts';
import { digestOf } from './digest.ts';
import { startFlow } from './flow.ts';
import { frontPage } from './frontPage.ts';
import type { Page } from './mark.ts';
import { sheetPages } from './sheetPages.ts';
import { sizesOf } from './sizes.ts';
import type { Typeface } from './type.ts';

/**
 * The sheets of a session, composed in millimetres: a front page, each distinct layout, the cutting list.
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
  const { width, height } = sizeOf(batch.settings.paper.value);
  const margin = toDrawnMm(batch.settings.margin.value);
  const flow = startFlow(face, toDrawnMm(width), toDrawnMm(height), margin);
  const sizes = sizesOf(batch.settings);
  frontPage(flow, sizes, batch, plans, diagnostics);
  sheetPages(flow, sizes, plans);
  cuttingList(flow, sizes, plans);
  const faults = diagnostics.filter(isError).length;
  return fine(
    flow.pages({
      title: batch.title,
      made: `cardwright ${version} · ${digestOf(made)}`,
      alarm:
        faults === 0
          ? undefined
          : `NOT COMPLETE: ${faults} ${faults === 1 ? 'fault' : 'faults'}, told on page 1`,
    }),
  );
}

/**
 * What A4 and Letter have in common is as wide as the one and as high as the other.
 * Source: ISO 216 (A4 210 × 297 mm), ANSI/ASME Y14.1 (A 8 1/2 × 11 in).
 */
function sizeOf(paper: Paper): {
  readonly width: ReturnType<typeof inches>;
  readonly height: ReturnType<typeof inches>;
} {
  if (paper !== 'shared') return paper;
  return { width: millimetres(whole(210)), height: inches(whole(11)) };
}
