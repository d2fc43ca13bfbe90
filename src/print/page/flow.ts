import { footMmOf, footOf, headMm, headOf, type Surround } from './furniture.ts';
import type { Area, Mark, OpenPage, WordsRole } from './mark.ts';
import { leadingOf, type Typeface, words, wrapped } from './type.ts';

/** Pages being filled from top to bottom; full ones are handed on. */
export interface Flow {
  readonly face: Typeface;
  /** Left and right edge, and how far down a page can be filled. */
  readonly column: { readonly left: number; readonly right: number; readonly bottom: number };
  readonly width: number;
  /** Where the next thing may begin. */
  readonly y: () => number;
  readonly isAtTop: () => boolean;
  readonly room: () => number;
  /** Where a page begins, and what there is from its first line to the last. */
  readonly topMm: number;
  readonly fullMm: number;
  /** A new page; where nothing is drawn on it, its largest line is the heading. */
  readonly open: (heading?: string) => void;
  /** Tells the page of a drawing on it. */
  readonly drawnAt: (scale: number) => void;
  readonly bookmark: (name: string) => void;
  /** A further page, under the same heading where no other is given. */
  readonly carryOn: (heading?: string) => void;
  readonly add: (marks: readonly Mark[]) => void;
  readonly down: (mm: number) => void;
  /** Running text; goes over to the next page line by line. */
  readonly say: (role: WordsRole, text: string, indentMm?: number) => void;
  /** The pages that are full, each given once. */
  readonly full: () => readonly OpenPage[];
  /** Those and the one that is being filled: it is full now. */
  readonly rest: () => readonly OpenPage[];
  /** How many were opened. */
  readonly count: () => number;
}

export interface SheetOfPaper {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marginMm: number;
}

interface Draft {
  readonly number: number;
  readonly heading: string;
  readonly scales: Set<number>;
  readonly bookmarks: string[];
  readonly marks: Mark[];
}

export function startFlow(
  face: Typeface,
  { widthMm, heightMm, marginMm }: SheetOfPaper,
  around: Surround,
): Flow {
  const within: Area = {
    left: marginMm,
    top: marginMm,
    right: widthMm - marginMm,
    bottom: heightMm - marginMm,
  };
  const column = {
    left: within.left,
    right: within.right,
    bottom: within.bottom - footMmOf(within.right - within.left),
  };
  const top = within.top + headMm;
  const foot = footOf(face, within, around);
  const drafts: Draft[] = [];
  let count = 0;
  let y = top;
  const open = (heading = ''): void => {
    count++;
    drafts.push({ number: count, heading, scales: new Set(), bookmarks: [], marks: [] });
    y = top;
  };
  const pageOf = ({ number, heading, scales, bookmarks, marks }: Draft): OpenPage => {
    const statement = statementOf([...scales]) ?? heading;
    const head = (of: number) => headOf(face, within, { ...around, statement, number, of });
    return { number, widthMm, heightMm, bookmarks, head, own: marks, foot };
  };
  const carryOn = (heading = drafts[drafts.length - 1]?.heading): void => open(heading);
  const add = (marks: readonly Mark[]): void => {
    const draft = drafts[drafts.length - 1];
    for (const mark of marks) draft?.marks.push(mark);
  };
  return {
    face,
    column,
    width: column.right - column.left,
    y: () => y,
    isAtTop: () => y === top,
    room: () => column.bottom - y,
    topMm: top,
    fullMm: column.bottom - top,
    open,
    drawnAt: (scale) => drafts[drafts.length - 1]?.scales.add(scale),
    bookmark: (name) => drafts[drafts.length - 1]?.bookmarks.push(name),
    carryOn,
    add,
    down: (mm) => {
      y += mm;
    },
    say: (role, text, indentMm = 0) => {
      const leading = leadingOf(role);
      for (const row of wrapped(face, role, text, column.right - column.left - indentMm)) {
        if (y + leading > column.bottom) carryOn();
        add([words(face, role, row, { x: column.left + indentMm, y: y + leading * 0.76 })]);
        y += leading;
      }
    },
    full: () => drafts.splice(0, drafts.length - 1).map(pageOf),
    rest: () => drafts.splice(0).map(pageOf),
    count: () => count,
  };
}

/** So that nobody takes a measure off a drawing that is not as large as the thing. */
function statementOf(scales: readonly number[]): string | undefined {
  if (scales.length === 0) return undefined;
  if (scales.every((scale) => scale === 1)) return 'full size, trace it';
  const shown = [...scales].sort((a, b) => a - b).map((scale) => `1:${scale}`);
  return `drawn at ${shown.join(' and ')}, mark out with your rule`;
}
