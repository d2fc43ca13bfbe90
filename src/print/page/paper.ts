import { paperSize } from '../../expand/index.ts';
import { toDrawnMm } from '../../measure/index.ts';
import { type Diagnostic, diagnose, nowhere, type Settings } from '../../model/index.ts';

/**
 * What speaks against printing on this paper.
 *
 * @param least room within the margins that the pages need
 */
export function paperFault(
  { paper, margin }: Settings,
  least: { readonly widthMm: number; readonly heightMm: number },
): Diagnostic | undefined {
  const { width, height } = paperSize(paper.value);
  const [widthMm, heightMm] = [toDrawnMm(width), toDrawnMm(height)];
  if (Math.max(widthMm, heightMm) > mostMm) {
    const facts = { paper: `${shown(widthMm)} × ${shown(heightMm)} mm`, most: `${shown(mostMm)} mm` };
    return diagnose('O23', nowhere, facts);
  }
  const marginMm = toDrawnMm(margin.value);
  const [acrossMm, upMm] = [widthMm - 2 * marginMm, heightMm - 2 * marginMm];
  if (acrossMm >= least.widthMm && upMm >= least.heightMm) return undefined;
  const room = acrossMm > 0 && upMm > 0 ? `${shown(acrossMm)} × ${shown(upMm)} mm` : 'nothing';
  return diagnose('O21', nowhere, { room, needed: `${least.widthMm} × ${least.heightMm} mm` });
}

/** The customary limit of readers: 14 400 units of 1/72 in. */
const mostMm = 200 * 25.4;

function shown(mm: number): string {
  return `${Math.floor(mm * 10) / 10}`;
}
