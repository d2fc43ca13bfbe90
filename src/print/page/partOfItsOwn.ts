import { columnsOf, type Entry, inTwoColumns } from './entries.ts';
import type { Flow } from './flow.ts';
import { leadingOf } from './type.ts';

const gapMm = 7;

/**
 * A part of its own, in two columns: under what stands on the page, if all of it has room there; else on a new
 * page, whose largest line is its name.
 *
 * @param lead how to read it, a line or two
 */
export function partOfItsOwn(flow: Flow, name: string, lead: string, entries: readonly Entry[]): void {
  const headMm = gapMm + leadingOf('heading') + 2 * leadingOf('text') + 1;
  const statement = `${name.charAt(0).toLowerCase()}${name.slice(1)}`;
  if (flow.room() < headMm + columnsOf(entries).heightMm) flow.open(statement);
  else {
    flow.down(gapMm);
    flow.say('heading', name);
  }
  flow.bookmark(name);
  flow.say('text', `${lead.charAt(0).toUpperCase()}${lead.slice(1)}`);
  flow.down(1);
  inTwoColumns(flow, entries, statement);
}
