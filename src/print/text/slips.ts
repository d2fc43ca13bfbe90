import type { Batch } from '../../model/index.ts';
import {
  type Column,
  clean,
  keyOf,
  type Lines,
  type Look,
  paragraph,
  signsOf,
  table,
} from '../columns/index.ts';
import { type Pile, pilesOf } from '../piles.ts';
import { eveningWords, pieceWords, takenWords } from '../pileWords.ts';
import type { Showing } from './lengths.ts';

/** A slip for each pile of cut pieces: what lies on it, with boxes to tick. */
export function writeSlips(batch: Batch, showing: Showing, look: Look): Lines {
  const { rule } = signsOf(look);
  return pilesOf(batch).flatMap((pile) => [rule.repeat(look.width), ...slip(pile, showing, look)]);
}

function slip(pile: Pile, showing: Showing, look: Look): Lines {
  const { letters, name, note, groups, fittings } = pile;
  const { box, times } = signsOf(look);
  const head = [
    `${clean(name)}${letters === undefined ? '' : keyOf(name, letters)}`,
    ...takenWords(pile),
    ...eveningWords(pile).map(clean),
  ].join(', ');
  const columns: Column[] = [
    { heading: '', align: 'left', wraps: false },
    { heading: 'pieces', align: 'left', wraps: true },
    { heading: `size, ${showing.unit}`, align: 'right', wraps: true },
    { heading: 'of', align: 'left', wraps: true },
  ];
  const rows = [
    ...groups.flatMap(({ material, pieces }) =>
      pieces.map((it) => [
        box,
        clean(pieceWords(it, times)),
        showing.pair(it.length, it.width),
        clean(material),
      ]),
    ),
    ...fittings.map((it) => [box, clean(pieceWords(it, times)), '', 'fitting']),
  ];
  return [
    ...paragraph(head, look.width, 'Pile     '),
    ...(note === undefined ? [] : paragraph(clean(note), look.width, '         ')),
    ...table(columns, rows, { columns: look.width, rule: signsOf(look).rule }),
  ];
}
