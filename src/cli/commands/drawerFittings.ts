import { type Diagnostic, diagnose, type ListedFittings, type Outcome } from '../../model/index.ts';
import type { FittingsUsed, NewFittings, OpenDrawer } from '../../stock/index.ts';
import type { Request } from '../arguments.ts';

/** What `--add` and `--take` say of fittings. */
export interface FittingsTold {
  /** Counted from now on. */
  readonly listed: readonly NewFittings[];
  readonly used: readonly FittingsUsed[];
  /** One a change. */
  readonly words: readonly string[];
}

/** True for a fitting that the drawer counts, unless something else bears that label; with --fitting for any name. */
export function isFitting(text: string, open: OpenDrawer, { keeping }: Request): boolean {
  const isLabel = open.drawer.entries.some(({ label }) => label === text);
  return keeping.fitting || (!isLabel && fittingCalled(text, open) !== undefined);
}

/** @errors K01 fewer are there, C39 options that tell of pieces, K03 no name */
export function fittingsTold(
  open: OpenDrawer,
  request: Request,
  { many, path }: { readonly many: number; readonly path: string },
): Outcome<FittingsTold> {
  const { add, take } = request.keeping;
  const timesIn = (texts: readonly string[]): ReadonlyMap<string, number> => {
    const names = texts.filter((it) => isFitting(it, open, request)).map(nameOf);
    return new Map(names.map((name) => [name, many * names.filter((it) => it === name).length]));
  };
  const [out, into] = [timesIn(take), timesIn(add)];
  const names = [...new Set([...out.keys(), ...into.keys()])];
  const diagnostics = [
    ...[...out].flatMap(([name, count]) => tooFew({ name, count }, open, path)),
    ...(names.length === 0 ? [] : misfits(names, open, request)),
  ];
  if (diagnostics.length > 0) return { value: undefined, diagnostics };
  const isNew = (name: string): boolean => fittingCalled(name, open) === undefined;
  const { where } = request.keeping;
  return {
    value: {
      listed: names.filter(isNew).map((name) => ({ name, count: into.get(name) ?? 0, where })),
      used: names
        .filter((name) => !isNew(name))
        .map((name) => ({ name, count: (out.get(name) ?? 0) - (into.get(name) ?? 0), pack: 1 })),
      words: [
        ...[...out].map(([name, count]) => `took out ${count} x ${name}`),
        ...[...into].map(([name, count]) => `put in ${count} x ${name}`),
      ],
    },
    diagnostics,
  };
}

function fittingCalled(text: string, { drawer: { fittings = [] } }: OpenDrawer): ListedFittings | undefined {
  return fittings.find(({ name }) => name === nameOf(text));
}

/** As the names of a file are read. */
function nameOf(text: string): string {
  return text.trim().normalize('NFC');
}

function tooFew(
  { name, count }: { readonly name: string; readonly count: number },
  open: OpenDrawer,
  path: string,
): readonly Diagnostic[] {
  const there = fittingCalled(name, open)?.count ?? 0;
  if (there >= count) return [];
  const facts = { wanted: `${count} of "${name}"`, there: there === 0 ? 'none' : `${there}`, meant: '' };
  return [diagnose('K01', { kind: 'file', path }, facts)];
}

/** What tells of pieces tells nothing of a fitting; where it is kept is asked when it is counted first. */
function misfits(names: readonly string[], open: OpenDrawer, { keeping }: Request): readonly Diagnostic[] {
  const { label, grain, flutes, uncut, where } = keeping;
  const [first = ''] = names;
  const clash = (option: string, why: string, other = first): Diagnostic =>
    diagnose('C39', { kind: 'argument', argument: option }, { option, other, why });
  const ofPieces = Object.entries({ label, grain, flutes, uncut: uncut || undefined });
  const counted = names.find((it) => fittingCalled(it, open) !== undefined);
  return [
    ...ofPieces.flatMap(([name, value]) =>
      value === undefined ? [] : [clash(`--${name}`, 'it tells of pieces, and this is a fitting')],
    ),
    ...(where === undefined || counted === undefined
      ? []
      : [clash('--where', 'the drawer counts it already, and says where', counted)]),
    ...(names.includes('')
      ? [
          diagnose(
            'K03',
            { kind: 'argument', argument: "--add ''" },
            { found: '', why: 'it is no name', would: undefined },
          ),
        ]
      : []),
  ];
}
