import type {
  Expression,
  FittingSpec,
  GridSpec,
  MaterialSpec,
  Named,
  OutlineSpec,
  PartSpec,
  RackSpec,
  Source,
  Span,
  Spec,
  SpecFile,
  TileSpec,
} from '../model/index.ts';

/** A thing that a file gives a name to, and the file that does. */
export interface Definition<T> {
  readonly name: string;
  readonly at: Span;
  readonly value: T;
  readonly file: SpecFile;
}

/** What one file sees: its own names, those of the files it uses, and of the files these use. */
export interface Sight {
  readonly files: readonly SpecFile[];
  readonly amounts: Names<Amount>;
  readonly materials: Names<MaterialSpec>;
  readonly masters: Names<OutlineSpec>;
  readonly parts: Names<PartSpec>;
  readonly tiles: Names<TileSpec>;
  readonly racks: Names<RackSpec>;
  readonly fittings: Names<FittingSpec>;
  readonly grids: readonly { readonly grid: GridSpec; readonly file: SpecFile }[];
}

/** A name of `lengths`, `numbers` or `levels`. */
export interface Amount {
  readonly section: 'lengths' | 'numbers' | 'levels';
  readonly expression: Expression;
}

/** All meanings of each name; more than one is a fault where the name is used. */
export type Names<T> = ReadonlyMap<string, readonly Definition<T>[]>;

/** Every file that the named ones lead to, the named ones first, each once. */
export function filesReached(from: readonly SpecFile[]): readonly SpecFile[] {
  const reached = new Set(from);
  for (const file of reached) {
    for (const used of file.uses) reached.add(used);
    if (file.drawer !== undefined) reached.add(file.drawer);
  }
  return [...reached];
}

/** Looks up, for any file of a spec, what it sees; each file's view is put together once. */
export class Sights {
  readonly files: readonly SpecFile[];
  /** What the files named on the command line see together. */
  readonly together: Sight;
  readonly #bySource: ReadonlyMap<Source, SpecFile>;
  readonly #views = new Map<SpecFile, Sight>();
  readonly #first: SpecFile;

  constructor(spec: Spec) {
    this.#first = spec.files[0];
    this.files = filesReached(spec.files);
    this.together = viewOf(this.files);
    this.#bySource = new Map(this.files.map((file) => [file.source, file]));
  }

  from(file: SpecFile): Sight {
    const known = this.#views.get(file);
    if (known !== undefined) return known;
    // A drawer uses nothing: what its materials are is said by the files that it is used with.
    const view = file.kind === 'drawer' ? this.together : viewOf(filesReached([file]));
    this.#views.set(file, view);
    return view;
  }

  /** The file in which something was written. */
  fileOf(span: Span): SpecFile {
    return this.#bySource.get(span.source) ?? this.#first;
  }
}

function viewOf(files: readonly SpecFile[]): Sight {
  const amounts = (file: SpecFile): readonly Named<Amount>[] =>
    (['lengths', 'numbers', 'levels'] as const).flatMap((section) =>
      file[section].map(({ name, at, value }) => ({ name, at, value: { section, expression: value } })),
    );
  return {
    files,
    amounts: gather(files, amounts),
    materials: gather(files, ({ materials }) => materials),
    masters: gather(files, ({ masters }) => masters),
    parts: gather(files, ({ parts }) => parts),
    tiles: gather(files, ({ tiles }) => tiles),
    racks: gather(files, ({ racks }) => racks),
    fittings: gather(files, ({ fittings = [] }) => fittings),
    grids: files.flatMap((file) => (file.grid === undefined ? [] : [{ grid: file.grid, file }])),
  };
}

function gather<T>(
  files: readonly SpecFile[],
  pick: (file: SpecFile) => readonly Named<T>[],
): Map<string, Definition<T>[]> {
  const names = new Map<string, Definition<T>[]>();
  for (const file of files) {
    for (const { name, at, value } of pick(file)) {
      const meanings = names.get(name);
      if (meanings === undefined) names.set(name, [{ name, at, value, file }]);
      else meanings.push({ name, at, value, file });
    }
  }
  return names;
}
