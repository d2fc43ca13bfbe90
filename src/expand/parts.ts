import {
  atSpan,
  diagnose,
  type Length,
  type MaterialSpec,
  type Named,
  type PartSpec,
  type Side,
} from '../model/index.ts';
import { lengthOf, wholeOf } from './evaluate.ts';
import type { TileView } from './like.ts';
import { materialCalled } from './names.ts';
import type { Definition } from './sight.ts';
import type { Workings } from './workings.ts';

/** A part of one tile, or a loose one, with every sum worked out. */
export interface WorkedPart {
  readonly name: string;
  readonly at: Named<PartSpec>['at'];
  /** What is printed in place of the name. */
  readonly label: string;
  readonly note: string | undefined;
  readonly material: Definition<MaterialSpec>;
  readonly length: Length;
  readonly width: Length;
  readonly grain: Side | 'any';
  readonly flutes: Side | 'any';
  readonly goodSide: boolean;
  /** In one tile. */
  readonly count: number;
}

/**
 * Works a part out; undefined where it can't be cut as it is written.
 *
 * @errors E25 no material, E26 no size, E27 minds the grain or flutes of a material without, and what its
 *         sums and its `like` say
 */
export function workedPart(
  asked: Named<PartSpec>,
  tile: TileView | undefined,
  workings: Workings,
): WorkedPart | undefined {
  const { name, at, value: spec, isWhole } = workings.likes.part(tile, asked);
  const scope = { tile };
  const { faults } = workings;
  if (isWhole && spec.of === undefined) faults.report(diagnose('E25', atSpan(at), { part: name }));
  if (isWhole && spec.size === undefined) faults.report(diagnose('E26', atSpan(at), { part: name }));

  const material = spec.of === undefined ? undefined : materialCalled(spec.of.value, spec.of.at, workings);
  const length = spec.size && lengthOf(spec.size.length, 'above zero', scope, workings);
  const width = spec.size && lengthOf(spec.size.width, 'above zero', scope, workings);
  const count =
    spec.count === undefined ? 1 : wholeOf(spec.count, { least: 1, what: 'parts' }, scope, workings);
  if (material === undefined) return undefined;
  const heedsWhatIsThere = (['grain', 'flutes'] as const).map((what) =>
    heeds(what, name, spec, material, workings),
  );
  if (
    length === undefined ||
    width === undefined ||
    count === undefined ||
    heedsWhatIsThere.includes(false)
  ) {
    return undefined;
  }
  return {
    name,
    at,
    label: spec.label?.value ?? name,
    note: spec.note?.value,
    material,
    length,
    width,
    grain: spec.grain?.value ?? 'any',
    flutes: spec.flutes?.value ?? 'any',
    goodSide: spec.goodSide?.value ?? material.value.goodSide?.value ?? false,
    count,
  };
}

/** False where a part is bound to the grain or flutes of a material that has none. */
function heeds(
  what: 'grain' | 'flutes',
  part: string,
  spec: PartSpec,
  material: Definition<MaterialSpec>,
  { faults }: Workings,
): boolean {
  const rule = spec[what];
  if (rule === undefined || rule.value === 'any' || material.value[what]?.value === true) return true;
  faults.report(
    diagnose(
      'E27',
      atSpan(rule.at),
      { part, material: material.name, what },
      { related: [{ place: atSpan(material.at), message: `the material "${material.name}"` }] },
    ),
  );
  return false;
}
