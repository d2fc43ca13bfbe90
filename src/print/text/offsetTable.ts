import { type Column, type Lines, type Look, paragraph, signsOf, table } from '../columns/index.ts';
import { type Ordinate, standsOnItsBase } from '../offsets.ts';
import { near, type Showing } from './lengths.ts';

/** A table of offsets to mark an edge out by; where all begin on the base, that is not said in each row. */
export function offsetTable(offsets: readonly Ordinate[], lead: string, showing: Showing, look: Look): Lines {
  const isPlain = standsOnItsBase(offsets);
  const headings = (isPlain ? ['along', 'up'] : ['along', 'from', 'up to']).map(
    (heading): Column => ({ heading, align: 'right', wraps: false }),
  );
  const rows = offsets.map(({ along, bottom, top, isCorner }) => {
    const here = `${isCorner ? '* ' : ''}${showing.brief(along)}`;
    return isPlain ? [here, near(top, showing)] : [here, near(bottom, showing), near(top, showing)];
  });
  return [
    ...paragraph(`${lead}, and at each point it is drawn by (*):`, look.width),
    ...table(headings, rows, { columns: look.width, rule: signsOf(look).rule }),
  ];
}
