import { add, divide, floor, isPositive, minus, showExact, times } from '../measure/index.ts';
import {
  atSpan,
  diagnose,
  type Length,
  type MaterialSpec,
  type SheetSpec,
  type SlicedBlock,
} from '../model/index.ts';
import { lengthOf } from './evaluate.ts';
import { thicknessOfMaterial } from './names.ts';
import type { Rules } from './rules.ts';
import type { Definition } from './sight.ts';
import { fileScope, type Workings } from './workings.ts';

/**
 * How many layers a block gives, and what is left of it.
 *
 *      ├─ t ─┤k├─ t ─┤k├─ t ─┤k├ left ┤        a cut between two layers takes a kerf, and one more
 *      └──────────── thick ───────────┘        where something is left behind the last
 *
 * @source computed: n layers and n − 1 cuts between them go in where n · t + (n − 1) · k ≤ thick
 */
export function slicesOf(thick: Length, thickness: Length, kerf: Length): Omit<SlicedBlock, 'thick'> {
  const layers = Number(floor(divide(add(thick, kerf), add(thickness, kerf))));
  const cut = times(kerf, layers);
  const left = minus(minus(thick, times(thickness, layers)), cut);
  return { layers, left: isPositive(left) ? left : times(left, 0) };
}

/**
 * The layers of a sheet that is a block; undefined where it is none, `faulty` where it gives no layer.
 *
 * @errors P11
 */
export function blockOf(
  { thick: written }: SheetSpec,
  material: Definition<MaterialSpec>,
  rules: Rules,
  workings: Workings,
): SlicedBlock | undefined | 'faulty' {
  if (written === undefined) return undefined;
  const thick = lengthOf(written, 'above zero', fileScope, workings);
  const thickness = thicknessOfMaterial(material, workings);
  if (thick === undefined || thickness === undefined) return 'faulty';
  const slices = slicesOf(thick, thickness, rules.of(material).kerf);
  if (slices.layers > 0) return { thick, ...slices };
  const units = workings.sights.fileOf(written.at).units ?? 'mm';
  const facts = {
    material: material.name,
    thick: showExact(thick, units),
    thickness: showExact(thickness, units),
  };
  workings.faults.report(diagnose('P11', atSpan(written.at), facts));
  return 'faulty';
}
