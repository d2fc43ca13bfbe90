/** So many sheets at least have to be bought, beside all the offcuts there are. */
export interface Bound {
  readonly sheets: number;
  /** A sentence without a full stop. */
  readonly argument: string;
}

/** The higher of two bounds; the first one's argument wins a tie. */
export function betterOf(simpler: Bound, other: Bound | undefined): Bound {
  return other !== undefined && other.sheets > simpler.sheets ? other : simpler;
}
