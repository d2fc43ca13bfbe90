import type { SheetKind } from './batch.ts';
import type { ListedFittings } from './fitting.ts';
import type { Length } from './rational.ts';
import type { Span } from './source.ts';
import type { FileUnits, Price, Side } from './spec.ts';

/** What lies in a drawer, as its file lists it. */
export interface DrawerEntry {
  readonly kind: 'sheet' | 'offcut';
  readonly material: string;
  readonly length: Length;
  readonly width: Length;
  /** Undefined where the file says nothing of it: the material may have none. */
  readonly grain: Side | 'unknown' | undefined;
  readonly flutes: Side | 'unknown' | undefined;
  readonly count: number | 'as needed';
  readonly label: string | undefined;
  readonly where: string | undefined;
  readonly note: string | undefined;
  readonly price: Price | undefined;
  /** That it was sold in a pack of so many; absent: alone. */
  readonly pack?: number;
  /** How thick it is, where it is a block to be sliced. */
  readonly thick?: Length;
  /** Undefined: what the files say that the drawer is used with; an offcut has none. */
  readonly trim: SheetKind['trim'] | undefined;
  readonly trueEdges: boolean;
}

/** An entry, and where it is written. */
export interface ListedEntry extends DrawerEntry {
  readonly at: Span;
  /** Where its count is written; undefined where that is left to go without saying. */
  readonly countAt: Span | undefined;
}

/** A drawer's file, worked out. */
export interface Drawer {
  readonly title: string | undefined;
  readonly units: FileUnits | undefined;
  readonly entries: readonly ListedEntry[];
  /** Absent where it counts none. */
  readonly fittings?: readonly ListedFittings[];
}
