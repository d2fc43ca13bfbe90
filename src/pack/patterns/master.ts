/**
 * The master of the column generation: the cheapest mix of patterns that covers all demands, fractions of
 * patterns allowed, by the revised simplex method on doubles.
 *
 *     least  Σ cost × x     where  Σ column × x ≥ demand (covering rows),  Σ column × x ≤ supply (supply rows)
 *
 * Doubles are enough here: what they give are patterns and prices. Nothing is claimed from them; a bound is
 * worked out anew in whole numbers (`columns.ts`). Only + − × ÷ are used, so the result is the same anywhere.
 *
 * @source  G. Dantzig's simplex method in its revised form with an explicit inverse; from memory
 */
export class Master {
  private readonly rows: number;
  private readonly demand: Float64Array;
  private readonly costs: number[] = [];
  private readonly columns: SparseColumn[] = [];
  /** Column in each row's place of the basis. */
  private readonly basis: Int32Array;
  private readonly isBasic: boolean[] = [];
  /** Inverse of the basis, row by row. */
  private readonly inverse: Float64Array;
  private level: Float64Array;
  private pivots = 0;

  /**
   * @param covering  demands of the covering rows
   * @param supply    limits of the rows after them
   * @param dear      by covering row, what a unit costs that stays uncovered
   */
  constructor(covering: readonly number[], supply: readonly number[], dear: readonly number[]) {
    this.rows = covering.length + supply.length;
    this.demand = Float64Array.from([...covering, ...supply]);
    this.basis = new Int32Array(this.rows);
    this.inverse = new Float64Array(this.rows * this.rows);
    this.level = Float64Array.from(this.demand);
    for (let row = 0; row < this.rows; row++) {
      const isCovering = row < covering.length;
      const start = this.add(isCovering ? dear[row]! : 0, this.unit(row, 1));
      this.basis[row] = start;
      this.isBasic[start] = true;
      this.inverse[row * this.rows + row] = 1;
      if (isCovering) this.add(0, this.unit(row, -1)); // more than is asked may be covered
    }
  }

  /** @returns  the new column's number */
  add(cost: number, column: Float64Array): number {
    this.costs.push(cost);
    this.columns.push(sparse(column));
    this.isBasic.push(false);
    return this.columns.length - 1;
  }

  /** What one more unit of each row is worth, by the columns known so far. */
  prices(): Float64Array {
    const { rows, inverse } = this;
    const prices = new Float64Array(rows);
    for (let i = 0; i < rows; i++) {
      const cost = this.costs[this.basis[i]!]!;
      if (cost === 0) continue;
      for (let j = 0; j < rows; j++) prices[j] = prices[j]! + cost * inverse[i * rows + j]!;
    }
    return prices;
  }

  /** Pivots until no known column betters the mix. Yields after every few milliseconds of work. */
  *solve(): Generator<void, void> {
    const most = this.pivots + 50 * this.rows + 1000;
    let work = 0;
    while (this.pivots < most) {
      const entering = this.bestEntering();
      if (entering < 0 || !this.pivot(entering)) return;
      work += this.rows * (this.columns.length + 2 * this.rows);
      if (work > workBetweenYields) {
        work = 0;
        yield;
      }
    }
  }

  /** How often each column is used; columns that are not in the mix are left out. */
  mix(): { readonly column: number; readonly level: number }[] {
    return Array.from(this.basis, (column, row) => ({ column, level: this.level[row]! })).filter(
      ({ level }) => level > tolerance,
    );
  }

  cost(): number {
    return this.mix().reduce((sum, { column, level }) => sum + this.costs[column]! * level, 0);
  }

  private unit(row: number, value: number): Float64Array {
    const column = new Float64Array(this.rows);
    column[row] = value;
    return column;
  }

  private bestEntering(): number {
    const prices = this.prices();
    let best = -1e-7;
    let entering = -1;
    for (let c = 0; c < this.columns.length; c++) {
      if (this.isBasic[c]) continue;
      const { at, by } = this.columns[c]!;
      let reduced = this.costs[c]!;
      for (let k = 0; k < at.length; k++) reduced -= prices[at[k]!]! * by[k]!;
      if (reduced < best) {
        best = reduced;
        entering = c;
      }
    }
    return entering;
  }

  /** Brings a column into the basis. @returns  false if nothing limits it, which no real column does */
  private pivot(entering: number): boolean {
    const { rows, inverse, level } = this;
    const { at, by } = this.columns[entering]!;
    const step = new Float64Array(rows);
    for (let i = 0; i < rows; i++) {
      let sum = 0;
      for (let k = 0; k < at.length; k++) sum += inverse[i * rows + at[k]!]! * by[k]!;
      step[i] = sum;
    }
    let leaving = -1;
    let least = Number.POSITIVE_INFINITY;
    for (let i = 0; i < rows; i++) {
      if (step[i]! <= tolerance) continue;
      const ratio = level[i]! / step[i]!;
      // Among ties the largest divisor, for the sake of accuracy.
      if (ratio < least - 1e-12 || (ratio <= least + 1e-12 && step[i]! > step[leaving]!)) {
        least = Math.min(least, ratio);
        leaving = i;
      }
    }
    if (leaving < 0) return false;
    const divisor = step[leaving]!;
    for (let j = 0; j < rows; j++) inverse[leaving * rows + j] = inverse[leaving * rows + j]! / divisor;
    level[leaving] = Math.max(0, level[leaving]! / divisor);
    for (let i = 0; i < rows; i++) {
      const factor = step[i]!;
      if (i === leaving || factor === 0) continue;
      for (let j = 0; j < rows; j++) {
        inverse[i * rows + j] = inverse[i * rows + j]! - factor * inverse[leaving * rows + j]!;
      }
      level[i] = Math.max(0, level[i]! - factor * level[leaving]!);
    }
    this.isBasic[this.basis[leaving]!] = false;
    this.isBasic[entering] = true;
    this.basis[leaving] = entering;
    this.pivots++;
    return true;
  }
}

/** A pattern holds few of the kinds there are: only those are kept, in the order of the rows. */
interface SparseColumn {
  readonly at: Int32Array;
  readonly by: Float64Array;
}

function sparse(column: Float64Array): SparseColumn {
  const at = Int32Array.from(column.keys()).filter((row) => column[row] !== 0);
  return { at, by: Float64Array.from(at, (row) => column[row]!) };
}

const tolerance = 1e-9;
const workBetweenYields = 200_000;
