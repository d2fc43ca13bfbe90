/** So many sheets at least have to be bought, beside all the offcuts there are. */
export interface Bound {
  readonly sheets: number;
  /** The least that they cost, in the units of the sheets' costs. */
  readonly cost: number;
  /** A sentence without a full stop, for the number of sheets. */
  readonly argument: string;
}

/** The higher of two bounds; the first one's argument wins a tie. */
export function betterOf(simpler: Bound, other: Bound | undefined): Bound {
  if (other === undefined) return simpler;
  const cost = Math.max(simpler.cost, other.cost);
  return { ...(other.sheets > simpler.sheets ? other : simpler), cost };
}
