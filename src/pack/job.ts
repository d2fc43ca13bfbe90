/**
 * One material's problem in whole cells, as the search sees it. Each part and each sheet is one kerf larger
 * each way than in life, and then kerf may be forgotten: pieces simply lie side by side.
 *
 *   in life        ├── a ──┤▒├─── b ───┤▒├ c ┤      a + k + b + k + c ≤ S
 *   in cells       ├── a + k ──┤─── b + k ───┤─ c + k ─┤   the same, with k added on both sides
 *                  └─────────────── S + k ─────────────┘
 */
export interface Job {
  readonly kinds: readonly JobPart[];
  readonly sheets: readonly JobSheet[];
  readonly rules: JobRules;
  /** How kind `p` may lie on sheet kind `s`: bits of `Lie` at `p × sheets.length + s`; 0 where it can't. */
  readonly lies: Uint8Array;
}

/** Ways of lying, as bits: with the part's length along the sheet's length, or turned by a quarter. */
export const Lie = { straight: 1, turned: 2 } as const;

export interface JobPart {
  readonly length: number;
  readonly width: number;
  readonly count: number;
}

export interface JobSheet {
  readonly length: number;
  readonly width: number;
  /** Infinity for as many as needed. */
  readonly available: number;
  /** What one costs beside the others of this job; 0 for an offcut. */
  readonly cost: number;
  /** Sold together, so many for so many times the cost; the search knows nothing of packs, bounds may. */
  readonly pack?: number;
}

export interface JobRules {
  readonly kerf: number;
  /** In life, without the kerf; 0 for none. */
  readonly leastStrip: number;
  /** In life; Infinity for none. */
  readonly longestCut: number;
  /** Infinity for as many as it takes. */
  readonly rounds: number;
}

/** True where more than sizes has to be looked at before a part is placed. */
export function isStrict(rules: JobRules): boolean {
  return rules.leastStrip > 0 || Number.isFinite(rules.longestCut) || Number.isFinite(rules.rounds);
}

/** The ways in which a part kind may lie on a sheet kind. */
export function liesOf(job: Job, kind: number, sheet: number): number {
  return job.lies[kind * job.sheets.length + sheet]!;
}

export function areaOf(it: { readonly length: number; readonly width: number }): number {
  return it.length * it.width;
}
