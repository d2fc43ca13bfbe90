import { compare } from '../measure/index.ts';
import {
  atSpan,
  type Batch,
  diagnose,
  type Length,
  type Master,
  type MaterialDemand,
  type MaterialSpec,
  type Outcome,
  type Overrides,
  type PartMember,
  type Spec,
  type SpecFile,
  type TileCount,
} from '../model/index.ts';
import { countsOf } from './counts.ts';
import { masterDrawn } from './drawing.ts';
import { lengthOf } from './evaluate.ts';
import { Faults } from './faults.ts';
import { fillerKinds, isFiller } from './fillers.ts';
import { fittingsOf, lookAtFittings, workedTakes } from './fittings.ts';
import { type AskedPart, kindsOf } from './kinds.ts';
import { labelsOf, tileLetters } from './labels.ts';
import { Likes } from './like.ts';
import { unknown } from './meaning.ts';
import { amount, materialCalled } from './names.ts';
import { type WorkedPart, workedParts } from './parts.ts';
import { Rules } from './rules.ts';
import { settingsOf } from './settings.ts';
import { type Definition, Sights } from './sight.ts';
import { type SparePart, type Spares, sparesOf } from './spares.ts';
import { stockOf, workedMaterial } from './stock.ts';
import { takenByParts, type WorkedTile, workedTile } from './tiles.ts';
import { fileScope, placeOf, Workings } from './workings.ts';

/**
 * Works every sum out and counts what has to be cut, by material.
 *
 *   Spec ─→ names ─→ tiles and loose parts ─→ counts ─→ labels ─→ kinds by material ─→ Batch
 *                                                                   ↑
 *                        sheets, offcuts, rules of cutting ─────────┘
 *
 * Whatever is written is worked out, also what is not made tonight, so that one run tells all faults. A part
 * with a fault is left out of the batch, and so are all sheets of a material where one has a fault; the rest
 * stands.
 */
export function expand(spec: Spec, overrides: Overrides): Outcome<Batch> {
  const faults = new Faults();
  const sights = new Sights(spec);
  // A file that is named twice is still one file.
  const named = [...new Set(spec.files)];
  const sessions = named.filter(({ kind }) => kind === 'session');
  const kits = sights.files.filter(({ kind }) => kind === 'kit');
  const workings = new Workings(sights, new Likes(sights, faults), faults);
  for (const session of sessions) takeReadings(session, workings);
  tryThicknesses(overrides, workings);
  for (const { at, value } of overrides.instead ?? []) workings.instead.set(placeOf(at), value);

  workOutNames(sights.files, workings);
  const materials = new Map(
    sights.files
      .flatMap((file) => file.materials.map((it) => ({ ...it, file })))
      .map((it) => [it.value, workedMaterial(it, workings)] as const),
  );
  const rules = new Rules(sessions, kits, workings);
  const stock = stockOf(sights.files, rules, workings);
  const { only } = overrides;
  const tiles = sights.files.flatMap((file) =>
    file.tiles.flatMap((it) => (only?.has(it.name) === false ? [] : [workedTile({ ...it, file }, workings)])),
  );
  lookAtSharedParts(sights.files, workings);
  const looseNames = named.flatMap((file) => file.loose.map(({ name }) => name));
  const loose = named.flatMap((file) =>
    file.loose.flatMap((it) => workedParts(it, undefined, looseNames, workings)),
  );
  const masters = sights.files.flatMap((file) =>
    file.masters.flatMap((it): readonly Master[] => {
      const outline = masterDrawn({ ...it, file }, workings);
      return outline === undefined ? [] : [{ name: it.name, at: it.at, outline }];
    }),
  );
  const { counts, evenings, evening, most } = countsOf(named, overrides, workings);
  const settings = settingsOf(sessions, kits, overrides, workings);

  const bySpec = new Map(tiles.map((worked) => [worked.spec, worked]));
  const made = [...counts].flatMap(([tile, count]) => {
    const worked = bySpec.get(tile);
    return worked === undefined ? [] : [{ worked, count }];
  });
  // Letters are given to all tiles at hand, so that a label means the same whatever is made tonight.
  const letters = tileLetters(tiles);
  const known = [
    ...tiles.flatMap(({ name, parts }) => parts.map((it) => sparePart(it, name))),
    ...loose.map((it) => sparePart(it, undefined)),
  ];
  const earlier = evenings.slice(0, evening ?? 0);
  const spares: PartSpares = {
    more: sparesOf(sessions, known, new Set(sights.together.fittings.keys()), workings),
    isFirst: (tile) => tile === undefined || !earlier.some((it) => (it.counts.get(tile.spec) ?? 0) > 0),
  };
  // Loose parts are made on the first evening; what each evening leaves can be filled.
  const isFirstEvening = (evening ?? 0) === 0;
  const looseNow = loose.filter(({ fits }) => isFirstEvening || fits !== undefined);
  const asked = askedParts(made, looseNow, letters, spares);
  const takenOnce = [
    ...takenByParts(loose),
    ...sessions.flatMap(({ takes = [] }) => workedTakes(takes, undefined, fileScope, workings)),
  ];
  const takenBefore = earlier.flatMap(({ counts: of }) =>
    tiles.filter(({ spec }) => (of.get(spec) ?? 0) > 0).flatMap(({ takes }) => takes),
  );
  lookAtFittings(sights.files, workings);
  const fittings = fittingsOf(
    {
      tiles: made.map(({ worked, count }) => ({ tile: worked.name, count, takes: worked.takes })),
      once: isFirstEvening ? takenOnce : [],
      before: isFirstEvening ? [] : [...takenBefore, ...takenOnce],
    },
    spares.more.ofFitting,
    workings,
  );
  const alone: NonNullable<Batch['fillersAlone']>[number][] = [];
  const demands = byMaterial(asked).flatMap(([definition, parts]): readonly MaterialDemand[] => {
    const material = materials.get(definition.value);
    const [first, ...others] = kindsOf(parts.filter((it) => !isFiller(it)));
    const fillers = fillerKinds(parts.filter(isFiller));
    // Without sheets, its parts are still told of: as missing.
    const sheets = stock.of(definition.value) ?? [];
    if (material === undefined) return [];
    if (first === undefined) {
      alone.push(...fillers.map((kind) => ({ material: material.name, kind })));
      return [];
    }
    const demand = { material, parts: [first, ...others] as const, sheets, rules: rules.of(definition) };
    return [fillers.length === 0 ? demand : { ...demand, fillers }];
  });
  const batch: Batch = {
    title: titleOf(sessions, spec.files),
    notes: named.flatMap(({ note }) => (note === undefined ? [] : [note.value])),
    tiles: made.map(({ worked, count }) => tileCount(worked, letters.get(worked.name) ?? worked.name, count)),
    materials: demands,
    atHand: [...materials].flatMap(([spec, material]) =>
      material === undefined || (stock.of(spec) ?? []).length === 0 ? [] : [material],
    ),
    ...(fittings.length === 0 ? {} : { fittings }),
    ...(alone.length === 0 ? {} : { fillersAlone: alone }),
    ...(most === undefined ? {} : { most }),
    ...(evenings.length === 0
      ? {}
      : {
          evenings: {
            all: evenings.map(({ title, counts: of }) => ({
              title,
              tiles: [...of].flatMap(([tile, count]) => {
                const worked = bySpec.get(tile);
                if (worked === undefined || count === 0) return [];
                const {
                  name,
                  label,
                  letters: short,
                } = tileCount(worked, letters.get(worked.name) ?? worked.name, count);
                return [{ name, label, letters: short, count }];
              }),
            })),
            now: evening,
          },
        }),
    labelsAtHand: sights.files
      .flatMap(({ sheets, offcuts }) => [...sheets, ...offcuts])
      .flatMap(({ value }) => value.flatMap(({ label }) => label?.value ?? [])),
    builds: made.flatMap(({ worked, count }) =>
      worked.build === undefined || count === 0 ? [] : [worked.build],
    ),
    masters,
    wander: wanderOf([...sessions, ...kits], workings),
    settings,
  };
  return { value: batch, diagnostics: faults.all };
}

/** Thicknesses of the command line go over all readings. */
function tryThicknesses({ thicknesses = [] }: Overrides, workings: Workings): void {
  const { materials } = workings.sights.together;
  for (const { material, thickness, argument } of thicknesses) {
    const place = { kind: 'argument', argument } as const;
    const found = materials.get(material);
    if (found === undefined) {
      const { facts, beside } = unknown(material, place, [...materials.keys()]);
      workings.faults.report(diagnose('E05', place, facts, beside));
    }
    for (const { at, value } of found ?? []) {
      workings.measured.set(value, { kind: 'measure', at, amount: thickness, unit: 'length' });
    }
  }
}

/** How far the knife may wander: the first that says so, a session before its kits. */
function wanderOf(files: readonly SpecFile[], workings: Workings): Length | undefined {
  const said = files.map(({ cutting }) => cutting?.wander).find((it) => it !== undefined);
  return said && lengthOf(said, 'zero', fileScope, workings);
}

/** Tonight's calipers go over the shelf's, in every sum. */
function takeReadings(session: SpecFile, workings: Workings): void {
  for (const { name, at, value } of session.measured) {
    const material = materialCalled(name, at, workings);
    if (material === undefined) continue;
    const known = workings.measured.get(material.value);
    if (known === undefined) {
      workings.measured.set(material.value, value);
      continue;
    }
    const [reading, other] = [value, known].map((it) => lengthOf(it, 'above zero', fileScope, workings));
    if (reading === undefined || other === undefined || compare(reading, other) === 0) continue;
    const related = [{ place: atSpan(known.at), message: 'the other' }];
    workings.faults.report(
      diagnose('E36', atSpan(value.at), { what: `the thickness of "${name}"` }, { related }),
    );
  }
}

/** Every name of `lengths`, `numbers`, `levels` and the grid, whether anything uses it or not. */
function workOutNames(files: readonly SpecFile[], workings: Workings): void {
  for (const file of files) {
    for (const section of ['lengths', 'numbers', 'levels'] as const) {
      for (const { name, at, value } of file[section]) {
        amount({ name, at, value: { section, expression: value }, file }, fileScope, workings);
      }
    }
    const { square, slack, lip, tallest, glueLine } = file.grid ?? {};
    for (const size of [square?.across, square?.along, tallest]) {
      if (size !== undefined) lengthOf(size, 'above zero', fileScope, workings);
    }
    for (const size of [slack, lip, glueLine]) {
      if (size !== undefined) lengthOf(size, 'zero', fileScope, workings);
    }
  }
}

/**
 * What can be told of a shared part that no tile takes up: its sums may lean on the tile that is still to come,
 * but what it is like and cut from has to be there.
 */
function lookAtSharedParts(files: readonly SpecFile[], workings: Workings): void {
  for (const part of files.flatMap(({ parts }) => parts)) {
    const { of } = workings.likes.part(undefined, part).value;
    if (of !== undefined) materialCalled(of.value, of.at, workings);
  }
}

/** How many spares a part has, and whether no evening before has made its tile. */
interface PartSpares {
  readonly more: Spares;
  readonly isFirst: (tile: WorkedTile | undefined) => boolean;
}

/** What is made, part by part, with its label and its count over the whole batch. */
function askedParts(
  made: readonly { readonly worked: WorkedTile; readonly count: number }[],
  loose: readonly WorkedPart[],
  letters: ReadonlyMap<string, string>,
  { more, isFirst }: PartSpares,
): readonly AskedPart[] {
  const wanted = [
    ...made.flatMap(({ worked: tile, count }) => tile.parts.map((worked) => ({ worked, tile, count }))),
    ...loose.map((worked) => ({ worked, tile: undefined, count: 1 })),
  ];
  const labels = labelsOf(
    wanted.map(({ worked, tile }) => ({ tile, part: worked.name, label: worked.label })),
    letters,
  );
  return wanted.map(({ worked, tile, count }, index) => {
    const cut = worked.count * count;
    const { fits } = worked;
    const spares = fits === undefined ? more.ofPart(sparePart(worked, tile?.name), cut, isFirst(tile)) : 0;
    const times = tile === undefined ? 1 : count;
    const most = fits?.most === undefined ? undefined : fits.most * times;
    const member: PartMember = {
      label: labels[index] ?? worked.name,
      tile: tile?.name,
      part: worked.name,
      ...(worked.standsAs === undefined ? {} : { standsAs: worked.standsAs }),
      note: worked.note,
      count: cut + spares,
      ...(spares === 0 ? {} : { spares }),
      ...(fits === undefined ? {} : { asFits: { most, share: times } }),
      each: worked.count,
      at: worked.at,
    };
    const over = (worked.turnedOver ?? 0) * count;
    const { drawn, length, width } = worked;
    return {
      worked,
      member: {
        ...member,
        ...(over === 0 ? {} : { turnedOver: over }),
        ...(drawn === undefined ? {} : { drawn: { ...drawn, net: { length, width } } }),
      },
    };
  });
}

function sparePart({ name, fits }: WorkedPart, tile: string | undefined): SparePart {
  return { tile, part: name, isFiller: fits !== undefined };
}

/** In the order in which the batch first needs them. */
function byMaterial(
  asked: readonly AskedPart[],
): readonly (readonly [Definition<MaterialSpec>, readonly AskedPart[]])[] {
  const groups = new Map<MaterialSpec, { definition: Definition<MaterialSpec>; parts: AskedPart[] }>();
  for (const part of asked) {
    const definition = part.worked.material;
    const group = groups.get(definition.value);
    if (group === undefined) groups.set(definition.value, { definition, parts: [part] });
    else group.parts.push(part);
  }
  return [...groups.values()].map(({ definition, parts }) => [definition, parts] as const);
}

function tileCount({ name, label, note, footprint }: WorkedTile, letters: string, count: number): TileCount {
  return { name, label: label ?? name, letters, note, count, footprint };
}

/** The session's title, else the first one there is, else the name of the first file. */
function titleOf(sessions: readonly SpecFile[], files: Spec['files']): string {
  const titled = [...sessions, ...files].find(({ title }) => title !== undefined);
  if (titled?.title !== undefined) return titled.title.value;
  const { path } = (sessions[0] ?? files[0]).source;
  const name = path.split(/[/\\]/).at(-1) ?? path;
  return name.replace(/\.ya?ml$/i, '');
}
