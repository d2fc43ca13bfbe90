import { unitWrittenIn } from '../../measure/index.ts';
import type { FileUnits } from '../../model/index.ts';
import type { Literal } from '../../spec/index.ts';

/**
 * What a measure is about. A size of the design may be rounded and scaled. A thing is as it is: a board, a sheet, a
 * tool, a rack, a page; and so is a tolerance, which is no size at all.
 */
export type Sort = 'size' | 'board' | 'measured' | 'rule' | 'thing';

const sections: Readonly<Record<string, Sort>> = {
  lengths: 'size',
  levels: 'size',
  masters: 'size',
  parts: 'size',
  tiles: 'size',
  loose: 'size',
  measured: 'measured',
};
const tolerances = new Set(['slack', 'lip', 'glueLine']);

export function sortOf({ keys, isAlone }: Literal): Sort {
  const [section = '', key = ''] = keys;
  if (section === 'grid') return tolerances.has(key) ? 'thing' : 'size';
  if (section === 'materials')
    return key === 'thickness' ? 'board' : key === 'measured' ? 'measured' : 'thing';
  // A graduation is read by its own unit.
  if (section === 'print') return key === 'ruler' && isAlone ? 'rule' : 'thing';
  return sections[section] ?? 'thing';
}

/** The unit that a measure names for itself; undefined where its file has to say it. */
export function ownUnitOf({ span }: Literal): FileUnits | undefined {
  return unitWrittenIn(span.source.text.slice(span.start, span.end));
}
