import type { MaterialDemand, SheetKind, TileCount } from './batch.ts';
import type { Box } from './plan.ts';
import type { Settings } from './settings.ts';

/** A plan that is kept as it was printed, and what has been done of it since. */
export interface Job {
  /** The same as long as it lives, also when it is planned anew. */
  readonly id: string;
  readonly plan: JobPlan;
  /** In the order in which they happened; undone ones are gone. */
  readonly events: readonly JobEvent[];
}

export interface JobPlan {
  readonly title: string;
  /** The version of the program that made it. */
  readonly madeBy: string;
  /** What it was made from; paths go from the job's own folder. */
  readonly inputs: readonly { readonly path: string; readonly digest: string }[];
  readonly asked: JobWishes;
  readonly drawer: string | undefined;
  readonly settings: Settings;
  readonly tiles: readonly TileCount[];
  readonly materials: readonly JobMaterial[];
  /** What it takes that is not cut from a sheet; absent: nothing. */
  readonly fittings?: readonly { readonly name: string; readonly count: number; readonly pack: number }[];
  /** What stands at the foot of each page that was printed of it, so that paper and file can be told to go together. */
  readonly mark: string;
}

/** What the command line said beside the files. */
export interface JobWishes {
  /** The files that were named; paths go from the job's own folder. */
  readonly files: readonly string[];
  /** As they were typed: `retaining wall=6`. */
  readonly make: readonly string[];
  readonly evening: string | undefined;
}

export interface JobMaterial {
  readonly demand: MaterialDemand;
  readonly pictures: readonly JobPicture[];
  readonly unplaced: readonly { readonly label: string; readonly count: number }[];
}

/** Sheets that are cut alike and carry the same labels. */
export interface JobPicture {
  /** Number of the first of them, as printed; then `times` in a row. */
  readonly first: number;
  readonly times: number;
  readonly sheet: SheetKind;
  /** It is a leftover of this job. */
  readonly isOwn: boolean;
  /** The squared-up sheet within the sheet. */
  readonly inside: Box;
  readonly pieces: readonly JobPiece[];
  readonly leftovers: readonly { readonly box: Box; readonly keep: string | undefined }[];
}

export interface JobPiece {
  readonly label: string;
  /** Of a blank that several parts share, their labels; those that are spoiled, or others by now, are left out. */
  readonly parts?: readonly string[];
  readonly box: Box;
  readonly turned: boolean;
  /** It was cut, but was spoiled, or its part has become another since. */
  readonly ofNoUse?: true;
}

/** One sheet of a job. */
export interface JobSheet {
  readonly material: string;
  readonly number: number;
}

export type JobEvent =
  | { readonly kind: 'cut'; readonly sheets: readonly JobSheet[] }
  | {
      readonly kind: 'put away';
      /** Number of the entry in the journal of the drawer. */
      readonly entry: number;
      readonly sheets: readonly JobSheet[];
    }
  | {
      readonly kind: 'recut';
      readonly label: string;
      readonly count: number;
      readonly material: string;
      readonly pictures: readonly JobPicture[];
    };
