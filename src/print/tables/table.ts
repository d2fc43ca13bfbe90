/** A print that is words and tables alone: for a wall, or beside a screen. */
export interface TableSheet {
  readonly title: string;
  /** What of it this is, in a few words. */
  readonly heading: string;
  /** What is to be known before it is read, a paragraph each. */
  readonly notes: readonly string[];
  readonly tables: readonly PlainTable[];
}

export interface PlainTable {
  /** Undefined where there is only one. */
  readonly title: string | undefined;
  readonly notes: readonly string[];
  readonly columns: readonly TableColumn[];
  readonly rows: readonly (readonly string[])[];
  /** What is said below it, a paragraph each. */
  readonly below?: readonly string[];
}

export interface TableColumn {
  readonly heading: string;
  readonly align: 'left' | 'right';
  /** True for words, which may go over several lines of a narrow terminal. */
  readonly wraps: boolean;
}

export function numbers(heading: string): TableColumn {
  return { heading, align: 'right', wraps: false };
}

export function wordy(heading: string): TableColumn {
  return { heading, align: 'left', wraps: true };
}
