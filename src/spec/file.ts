import {
  atSpan,
  diagnose,
  didYouMean,
  type Expression,
  type Named,
  type Outcome,
  type Placed,
  refused,
  type SpecFile,
} from '../model/index.ts';
import { Faults } from './faults.ts';
import { checkedFields, type Fields, wrongSort } from './fields.ts';
import { readFittings, readFittingsAtHand, readTakes } from './fittings.ts';
import { readMasters } from './outlines.ts';
import {
  readCutting,
  readGrid,
  readMaterials,
  readMeasures,
  readPrint,
  readRacks,
  readStock,
} from './sections.ts';
import { readEvenings, readMake, readSets, readSpares } from './sessions.ts';
import { readParts, readTiles } from './tiles.ts';
import { optional, Values } from './values.ts';
import type { MapNode, Node } from './yaml/node.ts';

type Kind = SpecFile['kind'];

const everywhere: readonly Kind[] = ['kit', 'shelf', 'session', 'drawer'];
const describers: readonly Kind[] = ['kit', 'shelf', 'session'];
const keepers: readonly Kind[] = ['session', 'drawer'];
const makers: readonly Kind[] = ['kit', 'session'];
const session: readonly Kind[] = ['session'];

/** The keys of a file, and in which kinds of file each has its place. */
const places: Readonly<Record<string, readonly Kind[]>> = {
  cardwright: everywhere,
  title: everywhere,
  note: everywhere,
  units: everywhere,
  uses: describers,
  lengths: makers,
  numbers: makers,
  grid: makers,
  levels: makers,
  materials: describers,
  sheets: everywhere,
  offcuts: keepers,
  masters: makers,
  parts: makers,
  tiles: makers,
  racks: describers,
  fittings: everywhere,
  takes: session,
  loose: session,
  make: session,
  drawer: session,
  sets: session,
  evenings: session,
  spares: session,
  measured: session,
  cutting: makers,
  print: makers,
};
const later = ['table'];

/** Keys not built yet that say what is made: without them nothing may be asked for, which is no second fault. */
const asksOtherwise = ['table'];

/** A file as it stands, with the paths it `uses` still to be followed. */
export interface ReadFile {
  readonly file: Omit<SpecFile, 'uses'>;
  readonly uses: readonly Placed<string>[];
  readonly drawer: Placed<string> | undefined;
  /** Something is lost that others lean on, so that nothing more should be said of this file. */
  readonly isTorn: boolean;
}

/** Reads all of a file but the files that it uses. */
export function readFile(map: MapNode): Outcome<ReadFile> {
  const faults = new Faults();
  const kind = readKind(map, faults);
  if (kind === undefined) return refused(...faults.all);
  const fields = fieldsOfFile(map, kind, faults);
  const { reference, text, word } = new Values(faults);

  const measures = (key: string): readonly Named<Expression>[] =>
    optional(fields, key, (value) => readMeasures(value, `the ${key}`, 'measure', faults)) ?? [];
  const stock = (key: string): SpecFile['sheets'] =>
    optional(fields, key, (value) => readStock(value, key, faults)) ?? [];
  const units = optional(fields, 'units', word(['in', 'mm']));
  const sets = optional(fields, 'sets', (value) => readSets(value, faults));
  const evenings = optional(fields, 'evenings', (value) => readEvenings(value, faults));
  const spares = optional(fields, 'spares', (value) => readSpares(value, faults));
  const takes = optional(fields, 'takes', (value) => readTakes(value, faults));
  const file: ReadFile['file'] = {
    source: map.at.source,
    kind,
    title: optional(fields, 'title', text),
    note: optional(fields, 'note', text),
    units: units?.value,
    ...(units === undefined ? {} : { unitsAt: units.at }),
    lengths: measures('lengths'),
    numbers: measures('numbers'),
    levels: measures('levels'),
    grid: optional(fields, 'grid', (value) => readGrid(value, faults)),
    materials: optional(fields, 'materials', (value) => readMaterials(value, faults)) ?? [],
    sheets: stock('sheets'),
    offcuts: stock('offcuts'),
    masters: optional(fields, 'masters', (value) => readMasters(value, faults)) ?? [],
    parts: optional(fields, 'parts', (value) => readParts(value, 'the parts', 'thing', faults)) ?? [],
    racks: optional(fields, 'racks', (value) => readRacks(value, faults)) ?? [],
    tiles: optional(fields, 'tiles', (value) => readTiles(value, faults)) ?? [],
    ...optional(fields, 'fittings', (value) =>
      kind === 'drawer'
        ? { fittingsAtHand: readFittingsAtHand(value, faults) }
        : { fittings: readFittings(value, faults) },
    ),
    ...(takes === undefined ? {} : { takes }),
    loose: optional(fields, 'loose', (value) => readParts(value, 'the loose parts', 'free', faults)) ?? [],
    make: optional(fields, 'make', (value) => readMake(value, faults)),
    ...(sets === undefined ? {} : { sets }),
    ...(evenings === undefined ? {} : { evenings }),
    ...(spares === undefined ? {} : { spares }),
    measured:
      optional(fields, 'measured', (value) =>
        readMeasures(value, 'the readings by material', 'reference', faults),
      ) ?? [],
    cutting: optional(fields, 'cutting', (value) => readCutting(value, faults)),
    print: optional(fields, 'print', (value) => readPrint(value, faults)),
  };
  const uses = optional(fields, 'uses', (value) => readUses(value, reference, faults)) ?? [];
  const drawer = optional(fields, 'drawer', (value, key) => ownPath(reference(value, key), faults));
  if (asksOtherwise.some((key) => map.entries.some((it) => it.key.text === key))) faults.tear();
  return { value: { file, uses, drawer, isTorn: faults.isTorn }, diagnostics: faults.all };
}

function readKind(map: MapNode, faults: Faults): Kind | undefined {
  const [first] = map.entries;
  const entry = map.entries.find(({ key }) => key.text === 'cardwright');
  if (entry === undefined) {
    const at = first?.key.at ?? { ...map.at, end: map.at.start + 1 };
    return faults.report(diagnose('S30', atSpan(at), {}));
  }
  if (first !== undefined && first !== entry) {
    faults.report(diagnose('S32', atSpan(entry.key.at), { first: first.key.text }));
  }
  const { value } = entry;
  if (value.kind !== 'text') return wrongSort(value, 'the kind of the file', 'cardwright: kit', faults);
  const kind = everywhere.find((it) => it === value.text);
  if (kind !== undefined) return kind;
  const meant = didYouMean(value.text, everywhere);
  return faults.report(diagnose('S31', atSpan(value.at), { found: value.text, meant }));
}

function fieldsOfFile(map: MapNode, kind: Kind, faults: Faults): Fields {
  const isMisplaced = (key: string): boolean => Object.hasOwn(places, key) && !places[key]?.includes(kind);
  for (const { key } of map.entries) {
    if (!isMisplaced(key.text)) continue;
    faults.report(diagnose('S35', atSpan(key.at), { key: key.text, kind, kinds: places[key.text] ?? [] }));
  }
  const keys = Object.keys(places).filter((key) => !isMisplaced(key));
  const entries = map.entries.filter(({ key }) => !isMisplaced(key.text));
  return checkedFields({ ...map, entries }, { where: `a ${kind}`, keys, later }, faults);
}

function readUses(
  node: Node,
  reference: (node: Node, key: string) => Placed<string> | undefined,
  faults: Faults,
): readonly Placed<string>[] {
  const example = node.kind === 'text' ? `uses: [${node.text}]` : 'uses: [../shared/cards.yaml]';
  const paths = new Values(faults).list(node, 'paths', example, (item) => reference(item, 'uses'));
  return paths.flatMap((path) => ownPath(path, faults) ?? []);
}

/** A path that goes from the folder of the file that names it; told, where it is none. */
function ownPath(path: Placed<string> | undefined, faults: Faults): Placed<string> | undefined {
  if (path === undefined) return undefined;
  const { value, at } = path;
  const isOwn =
    value !== '' && !/^(?:[\\/~]|[A-Za-z]:|[a-z][a-z+.-]+:)/u.test(value) && !value.includes('\\');
  return isOwn ? path : faults.report(diagnose('S08', atSpan(at), { path: value }));
}
