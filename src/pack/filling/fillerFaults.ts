import type { Diagnostic, MaterialDemand, PartKind } from '../../model/index.ts';
import { tooFine } from '../faults.ts';
import { gridOf } from '../grid.ts';
import { pose } from '../pose.ts';
import { isNonEmpty, setAside } from '../setAside.ts';

/** What no sheet could give even if it were asked for alone: told as of any other part. */
export function fillerFaults(demand: MaterialDemand): {
  readonly faults: readonly Diagnostic[];
  readonly sound: readonly PartKind[];
} {
  const { sheets, fillers = [] } = demand;
  const faults: Diagnostic[] = [];
  const sound = fillers.filter((filler) => {
    if (!isNonEmpty(sheets)) return false;
    const alone: MaterialDemand = { ...demand, parts: [...demand.parts, filler] };
    const measured = gridOf(alone);
    if (measured.kind === 'too fine') {
      faults.push(tooFine(alone, measured.odd, measured.longest));
      return false;
    }
    const own: MaterialDemand = { ...demand, parts: [{ ...filler, count: 1 }] };
    const { diagnostics } = setAside(own, sheets, pose(own, measured.grid));
    faults.push(...diagnostics);
    return diagnostics.length === 0;
  });
  return { faults, sound };
}
