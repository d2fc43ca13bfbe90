import { equal, exactDecimal, finestInch, isMultiple, showExact } from '../../measure/index.ts';
import {
  type Diagnostic,
  type DrawerEntry,
  diagnose,
  didYouMean,
  type FileUnits,
  isError,
  type Length,
  type ListedEntry,
  type Outcome,
} from '../../model/index.ts';
import { type Change, isLike, type OpenDrawer, withChanges, withListed } from '../../stock/index.ts';
import type { Request } from '../arguments.ts';
import type { HeldDrawer } from '../keeping.ts';
import { fittingsTold, isFitting } from './drawerFittings.ts';
import { isPiece, type NoPiece, readPiece, type TypedPiece } from './typedPiece.ts';

/** What becomes of a drawer's text. */
export interface Made {
  readonly text: string;
  /** In words, one a change. */
  readonly changes: readonly string[];
  readonly about: { readonly job: HeldDrawer['journal'][number]['job']; readonly undoes: number | undefined };
}

/** What `--add` and `--take` make of a drawer: what goes out goes first. */
export function changed({ open, path }: HeldDrawer, request: Request): Outcome<Made> {
  const { add, take, count } = request.keeping;
  const many = Number(count ?? '1');
  const units =
    open.drawer.units ?? (request.units === 'in' || request.units === 'mm' ? request.units : undefined);
  const isOfCard = (text: string): boolean => !isFitting(text, open, request);
  const read = [
    ...take.filter(isOfCard).map((text) => takeCalled(text, request, open, { units, path, many })),
    ...add.filter(isOfCard).map((text) => addedBy(text, request, open, units)),
  ];
  const fittings = fittingsTold(open, request, { many, path });
  const diagnostics = [...read, fittings].flatMap((it) => it.diagnostics);
  const changes = read.flatMap(({ value }) => value ?? []);
  if (fittings.value === undefined || diagnostics.some(isError)) return { value: undefined, diagnostics };
  const { listed, used, words } = fittings.value;
  const place = { kind: 'file', path } as const;
  const unmade = (it: Diagnostic): Outcome<Made> => ({ value: undefined, diagnostics: [...diagnostics, it] });
  let now = open;
  for (const it of listed) {
    const next = withListed(now, it);
    if (next === undefined) return unmade(diagnose('K04', place, { what: `"${it.name}"` }));
    now = next;
  }
  const made = withChanges(now, changes, used);
  if ('why' in made) {
    const what = 'listed' in made.change ? made.change.listed.name : wordsFor(made.change, units);
    return unmade(
      made.why === 'not in place'
        ? diagnose('K04', place, { what })
        : diagnose('K01', place, { wanted: wantedWords(take, many), there: 'fewer', meant: '' }),
    );
  }
  return {
    value: {
      text: made.text,
      changes: [...changes.map((it) => wordsFor(it, units)), ...words],
      about: { job: undefined, undoes: undefined },
    },
    diagnostics,
  };
}

/** What is taken by two names at once, and is there for one of them alone. */
function wantedWords(take: readonly string[], many: number): string {
  return take.map((it) => `${many} of "${it}"`).join(' and ');
}

/**
 * What has this label; what has none, by its material and size.
 *
 * @errors K01 not there, K02 a label of several, K08 a size of several
 */
function takeCalled(
  text: string,
  { keeping }: Request,
  { drawer: { entries } }: OpenDrawer,
  {
    units,
    path,
    many,
  }: { readonly units: FileUnits | undefined; readonly path: string; readonly many: number },
): Outcome<Change> {
  const place = { kind: 'file', path } as const;
  const labelled = entries.filter((it) => it.label === text);
  const read = labelled.length > 0 ? undefined : readPiece(text, units);
  const piece = read !== undefined && isPiece(read) ? read : undefined;
  const found = piece === undefined ? labelled : ofSize(piece, entries, keeping);
  const [entry] = found;
  if (entry === undefined) {
    const labels = entries.flatMap((it) => it.label ?? []);
    const facts = {
      wanted: `"${text}"`,
      there: piece === undefined ? 'no such label' : 'none of that size',
      meant: piece === undefined ? didYouMean(text, labels).replace(/^; /, '') : '',
    };
    return { value: undefined, diagnostics: [diagnose('K01', place, facts)] };
  }
  if (found.some((it) => !isLike(it, entry))) {
    const several =
      piece === undefined
        ? diagnose('K02', place, {
            label: text,
            what: found.map((it) => pieceWords(it, units)).join(' and on '),
            would: `--take '${sizesOf(entry, units)}'`,
          })
        : diagnose('K08', place, { found: text, known: tellingWords(found, units) });
    return { value: undefined, diagnostics: [several] };
  }
  const there = found.reduce((all, it) => (it.count === 'as needed' ? many : all + it.count), 0);
  if (there >= many) return { value: { kind: 'take', entry, count: many }, diagnostics: [] };
  const facts = { wanted: `${many} of "${text}"`, there: `${there}`, meant: '' };
  return { value: undefined, diagnostics: [diagnose('K01', place, facts)] };
}

/**
 * Whichever of its two sizes is typed first; as it is listed where both are. Those without a label where there are
 * any, since the others can be told by it.
 */
function ofSize(
  piece: TypedPiece,
  entries: readonly ListedEntry[],
  { uncut, grain, flutes }: Request['keeping'],
): readonly ListedEntry[] {
  const lying = ({ length, width, thick }: TypedPiece, isTurned: boolean): readonly ListedEntry[] => {
    const runs = (asked: string | undefined, side: DrawerEntry['grain']): boolean =>
      asked === undefined || side === (isTurned ? turnedSide(asked) : asked);
    return entries.filter(
      (it) =>
        it.material === piece.material &&
        it.count !== 0 &&
        equal(it.length, length) &&
        equal(it.width, width) &&
        (thick === undefined || (it.thick !== undefined && equal(it.thick, thick))) &&
        (!uncut || it.kind === 'sheet') &&
        runs(grain, it.grain) &&
        runs(flutes, it.flutes),
    );
  };
  const asListed = lying(piece, false);
  const found =
    asListed.length > 0 ? asListed : lying({ ...piece, length: piece.width, width: piece.length }, true);
  // A block is told from a sheet by its third size, and meant without it where there is nothing else.
  const flat = found.filter(({ thick: of }) => of === undefined);
  const some = piece.thick === undefined && flat.length > 0 ? flat : found;
  const bare = some.filter(({ label }) => label === undefined);
  return bare.length > 0 ? bare : some;
}

/** What is typed of a side goes by the sizes as they are typed. */
function turnedSide(side: string): string {
  return side === 'length' ? 'width' : side === 'width' ? 'length' : side;
}

function tellingWords(found: readonly DrawerEntry[], units: FileUnits | undefined): string {
  const run = (what: string, side: string | undefined): readonly string[] =>
    side === undefined ? [] : [`--${what} ${side}`];
  const one = ({ kind, grain, flutes, label, thick }: DrawerEntry): string => {
    if (label !== undefined) return `"${label}"`;
    const words = [
      ...(thick === undefined ? [] : [`a third size of ${sizeWords(thick, units)}`]),
      ...(kind === 'sheet' ? ['--uncut'] : []),
      ...run('grain', grain),
      ...run('flutes', flutes),
    ];
    return words.length === 0 ? 'an offcut of which no more is said' : words.join(' ');
  };
  return found.map(one).join(', or ');
}

/** @errors K03 no piece, K02 another's label; warnings: K09 a strange material, K10 a side that all others say */
function addedBy(
  text: string,
  { keeping }: Request,
  { drawer: { entries } }: OpenDrawer,
  units: FileUnits | undefined,
): Outcome<Change> {
  const place = { kind: 'argument', argument: `--add '${text}'` } as const;
  const wrong = ({ why, would }: NoPiece): Outcome<Change> => ({
    value: undefined,
    diagnostics: [diagnose('K03', place, { found: text, why, would })],
  });
  const piece = readPiece(text, units);
  if (!isPiece(piece)) return wrong(piece);
  const entry: DrawerEntry = {
    kind: keeping.uncut ? 'sheet' : 'offcut',
    ...piece,
    // The choices of --grain and --flutes were held against the table of options.
    grain: keeping.grain as DrawerEntry['grain'],
    flutes: keeping.flutes as DrawerEntry['flutes'],
    count: Number(keeping.count ?? '1'),
    label: keeping.label,
    where: keeping.where,
    note: undefined,
    price: undefined,
    trim: undefined,
    trueEdges: true,
  };
  const other = entries.find(
    (it) => it.label !== undefined && it.label === entry.label && !isLike(it, entry),
  );
  if (other === undefined) {
    return { value: { kind: 'put', entry }, diagnostics: doubtsOf(entry, entries, place) };
  }
  const facts = { label: entry.label ?? '', what: pieceWords(other, units), would: undefined };
  return { value: undefined, diagnostics: [diagnose('K02', place, facts)] };
}

/** What is taken as it is told, but is likely to be meant otherwise. */
function doubtsOf(
  entry: DrawerEntry,
  entries: readonly DrawerEntry[],
  place: Diagnostic['place'],
): readonly Diagnostic[] {
  const { material } = entry;
  const others = entries.filter((it) => it.material === material);
  if (others.length === 0) {
    const known = entries.map((it) => it.material);
    const meant = didYouMean(material, known);
    return meant === '' ? [] : [diagnose('K09', place, { material, meant })];
  }
  return (['grain', 'flutes'] as const).flatMap((what) => {
    const isMissing = entry[what] === undefined && others.every((it) => it[what] !== undefined);
    return isMissing ? [diagnose('K10', place, { material, what })] : [];
  });
}

function wordsFor(change: Change, units: FileUnits | undefined): string {
  const { entry } = change;
  const count = change.kind === 'take' ? change.count : entry.count;
  const label = entry.label === undefined ? '' : ` (${entry.label})`;
  return `${change.kind === 'take' ? 'took out' : 'put in'} ${count} x ${pieceWords(entry, units)}${label}`;
}

function sizeWords(size: Length, units: FileUnits | undefined): string {
  const isInches = units !== 'mm' && isMultiple(size, finestInch);
  return showExact(size, isInches ? 'in' : exactDecimal(size) === undefined ? (units ?? 'mm') : 'mm');
}

/** As it is typed. */
function sizesOf({ thick: _, ...flat }: DrawerEntry, units: FileUnits | undefined): string {
  const { material } = flat;
  return pieceWords(flat, units).replace(material, `${material}:`);
}

function pieceWords({ material, length, width, thick }: DrawerEntry, units: FileUnits | undefined): string {
  const areInches = [length, width].every((it) => isMultiple(it, finestInch));
  const unit =
    areInches && units !== 'mm' ? 'in' : exactDecimal(length) === undefined ? (units ?? 'mm') : 'mm';
  const block = thick === undefined ? '' : `, ${showExact(thick, unit)} thick`;
  return `${material} ${showExact(length, unit).replace(/ \S+$/, '')} x ${showExact(width, unit)}${block}`;
}
