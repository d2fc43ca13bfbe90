import {
  type Diagnostic,
  diagnose,
  type Job,
  type JobPicture,
  type JobSheet,
  type Outcome,
} from '../../model/index.ts';
import { picturesOf } from './making.ts';

/** A sheet of a job, and what has become of it. */
export interface SheetState extends JobSheet {
  readonly picture: JobPicture;
  readonly isCut: boolean;
  readonly isPutAway: boolean;
}

/** Every sheet of a job, by material, in the order of their numbers. */
export function sheetsOf(job: Job): readonly SheetState[] {
  const done = (kind: 'cut' | 'put away') =>
    new Set(job.events.flatMap((it) => (it.kind === kind ? it.sheets.map(keyOf) : [])));
  const [cut, away] = [done('cut'), done('put away')];
  return job.plan.materials.flatMap(({ demand }) => {
    const material = demand.material.name;
    return picturesOf(job, material).flatMap((picture) =>
      Array.from({ length: picture.times }, (_, i): SheetState => {
        const sheet = { material, number: picture.first + i };
        return { ...sheet, picture, isCut: cut.has(keyOf(sheet)), isPutAway: away.has(keyOf(sheet)) };
      }),
    );
  });
}

export function keyOf({ material, number }: JobSheet): string {
  return `${number} ${material}`;
}

/**
 * The sheets that are meant: `all`, `3`, `1-2`, `greyboard`, `greyboard 3`, or several of these with commas. A number
 * alone is enough where only one material has it, or behind a comma, where it is of the material named before.
 *
 * @errors K24 no such sheet, K25 cut already
 */
export function sheetsMeant(job: Job, texts: readonly string[]): Outcome<readonly JobSheet[]> {
  const all = sheetsOf(job);
  const diagnostics: Diagnostic[] = [];
  const meant = new Map<string, SheetState>();
  for (const text of texts.flatMap(partedByCommas)) {
    const found = foundBy(text, all);
    const place = { kind: 'argument', argument: `--cut '${text}'` } as const;
    if (found.length === 0 || isAmbiguous(text, found)) {
      const why =
        found.length === 0 ? 'there is no such sheet' : `${materialsIn(found).join(' and ')} have one`;
      diagnostics.push(diagnose('K24', place, { found: text, why, known: knownIn(all) }));
    }
    const open = found.filter(({ isCut }) => !isCut);
    if (found.length > 0 && open.length === 0) diagnostics.push(diagnose('K25', place, { found: text }));
    for (const it of open) meant.set(keyOf(it), it);
  }
  const value = [...meant.values()].map(({ material, number }) => ({ material, number }));
  return { value: diagnostics.length > 0 ? undefined : value, diagnostics };
}

/** `greyboard 1, 2-3` is `greyboard 1` and `greyboard 2-3`; names of materials have no comma. */
function partedByCommas(text: string): readonly string[] {
  let material = '';
  return text.split(',').map((part) => {
    const isBare = /^[\s\d–-]+$/u.test(part);
    if (isBare && material !== '') return `${material} ${part.trim()}`;
    const { name = '' } = /^(?<name>.*\S)\s+\d+(?:\s*[-–]\s*\d+)?\s*$/u.exec(part)?.groups ?? {};
    material = name.trim();
    return part.trim();
  });
}

function foundBy(text: string, all: readonly SheetState[]): readonly SheetState[] {
  const wanted = text.trim();
  if (wanted === 'all') return all;
  const { name, from, to } =
    /^(?<name>.*?)\s*(?:\b(?<from>\d{1,6})(?:\s*[-–]\s*(?<to>\d{1,6}))?)?$/u.exec(wanted)?.groups ?? {};
  // A material may be called by what looks like a number behind a name.
  const ofMaterial = all.filter(({ material }) => material === wanted);
  if (ofMaterial.length > 0) return ofMaterial;
  if (from === undefined) return [];
  const [low, high] = [Number(from), Number(to ?? from)];
  const named = all.filter(
    ({ material, number }) => (name === '' || material === name) && number >= low && number <= high,
  );
  // Each number of a row has to be there.
  const numbers = new Set(named.map(({ number }) => number));
  return high >= low && numbers.size === high - low + 1 ? named : [];
}

function isAmbiguous(text: string, found: readonly SheetState[]): boolean {
  return /^[\d\s–-]+$/u.test(text) && materialsIn(found).length > 1;
}

function materialsIn(sheets: readonly SheetState[]): readonly string[] {
  return [...new Set(sheets.map(({ material }) => material))];
}

function knownIn(all: readonly SheetState[]): string {
  return materialsIn(all)
    .map((material) => {
      const numbers = all.filter((it) => it.material === material).map(({ number }) => number);
      const [low, high] = [Math.min(...numbers), Math.max(...numbers)];
      return `${material} ${low === high ? low : `${low}-${high}`}`;
    })
    .join(', ');
}
