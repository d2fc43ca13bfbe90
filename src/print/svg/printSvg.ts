import type { Mark, OpenPage } from '../page/index.ts';
import { type Composed, eachDrawn, type Printing } from '../paged/index.ts';
import { type Drawn, drawn, svgOf } from './document.ts';

/** One drawing, with the name of the file for it. */
export interface SvgFile {
  readonly name: string;
  readonly text: string;
}

/**
 * The pages as SVG files and, where all pages are wanted, each drawing full size in one of its own. The
 * same bytes for the same input, on every machine.
 */
export function* printSvg(composed: Composed): Printing<readonly SvgFile[]> {
  const { title, fonts, drawings } = composed;
  const waiting: Waiting[] = [];
  const feet = new Map<readonly Mark[], Drawn>();
  const counted = yield* eachDrawn(composed.pages(), (page) => {
    const foot = feet.get(page.foot) ?? drawn(page.foot);
    feet.set(page.foot, foot);
    waiting.push(waitingOf(page, foot));
  });
  const files: SvgFile[] = [];
  for (const { number, parts, about, head, ...size } of waiting) {
    const called = `${title}, page ${number} of ${counted.of}`;
    const all = [drawn(head(counted.of)), ...parts];
    files.push({
      name: nameOf('page', number, counted.of),
      text: svgOf(size, all, { title: called, about }, fonts),
    });
    yield;
  }
  if (!composed.isWhole) return { ...counted, content: files };
  const layouts: string[] = [];
  for (const layout of composed.layouts()) {
    layouts.push(svgOf(layout, [drawn(layout.marks)], layout, fonts));
    yield;
  }
  const ofLayouts = layouts.map((text, index) => ({
    name: nameOf(drawings, index + 1, layouts.length),
    text,
  }));
  return { ...counted, content: [...files, ...ofLayouts] };
}

/** A page that is drawn, but for its head. */
interface Waiting extends Pick<OpenPage, 'number' | 'widthMm' | 'heightMm' | 'head'> {
  readonly parts: readonly Drawn[];
  readonly about: string;
}

function waitingOf({ number, widthMm, heightMm, head, own, bookmarks }: OpenPage, foot: Drawn): Waiting {
  return {
    number,
    widthMm,
    heightMm,
    head,
    parts: [drawn(own), foot],
    about: aboutPage(head(number), bookmarks),
  };
}

/** Padded, so that a list of files by name is in their order. */
function nameOf(kind: string, number: number, of: number): string {
  return `${kind}-${String(number).padStart(String(of).length, '0')}.svg`;
}

/** What its largest line says, and what begins on it. */
function aboutPage(head: readonly Mark[], bookmarks: readonly string[]): string {
  const statement = head.flatMap((mark) =>
    mark.kind === 'words' && mark.role === 'statement' ? [mark.text] : [],
  );
  return [...new Set([...statement, ...bookmarks])].join('; ') || 'a page of cutting sheets';
}
