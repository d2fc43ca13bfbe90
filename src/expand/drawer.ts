import {
  type Drawer,
  diagnose,
  type ListedEntry,
  type Named,
  type Outcome,
  type SheetSpec,
  type Spec,
} from '../model/index.ts';
import { lengthOf, wholeOf } from './evaluate.ts';
import { Faults } from './faults.ts';
import { fittingsIn } from './fittings.ts';
import { Likes } from './like.ts';
import { namedSize } from './paper.ts';
import { workedTrim } from './rules.ts';
import { Sights } from './sight.ts';
import { fileScope, Workings } from './workings.ts';

/**
 * What a drawer's file lists, by itself: what the materials are is not known here, so grain and flutes are
 * taken as they are written.
 */
export function drawerIn(spec: Spec): Outcome<Drawer> {
  const faults = new Faults();
  const sights = new Sights(spec);
  const workings = new Workings(sights, new Likes(sights, faults), faults);
  const [file] = spec.files;
  const entries = (['sheets', 'offcuts'] as const).flatMap((section) =>
    file[section].flatMap(({ name, value }) =>
      value.flatMap((it) => entryOf(section === 'sheets' ? 'sheet' : 'offcut', name, it, workings) ?? []),
    ),
  );
  const fittings = fittingsIn(file, workings);
  const isFaulty = faults.all.length > 0;
  return {
    value: isFaulty
      ? undefined
      : {
          title: file.title?.value,
          units: file.units,
          entries,
          ...(fittings.length === 0 ? {} : { fittings }),
        },
    diagnostics: faults.all,
  };
}

function entryOf(
  kind: ListedEntry['kind'],
  material: Named<unknown>['name'],
  spec: SheetSpec,
  workings: Workings,
): ListedEntry | undefined {
  const size = sizeOf(material, spec, workings);
  const count = countOf(spec, workings);
  const pack = packOf(kind, spec, workings);
  const trim = spec.trim === undefined ? undefined : workedTrim(spec.trim, workings);
  const thick = spec.thick && lengthOf(spec.thick, 'above zero', fileScope, workings);
  const isFaulty = spec.thick !== undefined && thick === undefined;
  if (size === undefined || count === undefined || pack === undefined || isFaulty) return undefined;
  return {
    kind,
    material,
    ...size,
    grain: spec.grain?.value,
    flutes: spec.flutes?.value,
    count,
    label: spec.label?.value,
    where: spec.where?.value,
    note: spec.note?.value,
    price: spec.price?.value,
    ...(pack === 1 ? {} : { pack }),
    ...(thick === undefined ? {} : { thick }),
    trim,
    trueEdges: spec.trueEdges?.value ?? true,
    at: spec.at,
    countAt: spec.count?.at,
  };
}

function sizeOf(material: string, { at, size }: SheetSpec, workings: Workings) {
  if (size === undefined) {
    workings.faults.report(diagnose('E29', { kind: 'span', span: at }, { material }));
    return undefined;
  }
  if (size.kind === 'named') return namedSize(size.name);
  const length = lengthOf(size.length, 'above zero', fileScope, workings);
  const width = lengthOf(size.width, 'above zero', fileScope, workings);
  return length === undefined || width === undefined ? undefined : { length, width };
}

function countOf({ count }: SheetSpec, workings: Workings): ListedEntry['count'] | undefined {
  if (count === undefined) return 1;
  if (count.value === 'as needed') return 'as needed';
  return wholeOf(count.value, { least: 0, what: 'sheets' }, fileScope, workings);
}

/** How many were sold together. */
function packOf(kind: ListedEntry['kind'], { pack }: SheetSpec, workings: Workings): number | undefined {
  if (pack === undefined) return 1;
  if (kind === 'sheet') return wholeOf(pack, { least: 1, what: 'sheets in a pack' }, fileScope, workings);
  workings.faults.report(diagnose('E90', { kind: 'span', span: pack.at }, {}));
  return undefined;
}
