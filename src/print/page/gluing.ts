import type { Made } from '../../model/index.ts';
import { gluingLead, gluingOf } from '../gluingWords.ts';
import { type Entry, entriesOf, halfOf } from './entries.ts';
import type { Flow } from './flow.ts';
import { rectangle } from './mark.ts';
import { partOfItsOwn } from './partOfItsOwn.ts';
import { leadingOf, type Typeface, words, wrapped } from './type.ts';

/** In which order each tile is put together: to tick off when it is glued up. */
export function gluingPage(flow: Flow, made: Pick<Made, 'batch' | 'fits'>): void {
  const tiles = gluingOf(made, {
    clean: (text) => text,
    counted: (count, name) => (count === 1 ? name : `${count}\u00a0×\u00a0${name}`),
  });
  if (tiles.length === 0) return;
  const entries = tiles.flatMap(({ tile, steps }) =>
    ofTile(flow.face, tile, `${steps.join(', then ')}.`, halfOf(flow)),
  );
  partOfItsOwn(flow, 'Order of gluing', gluingLead, entries);
}

const indentMm = 7;

/** Its label with a box, and below it what is set onto what. */
function ofTile(face: Typeface, tile: string, steps: string, widthMm: number): readonly Entry[] {
  const lines = wrapped(face, 'text', steps, widthMm - indentMm).map((text) => ({ text, indentMm }));
  const names = wrapped(face, 'part label', tile, widthMm - indentMm);
  return entriesOf(
    face,
    [...names.map(() => ({ text: '', indentMm })), ...lines],
    ({ x, y }) => [
      rectangle('tick box', { left: x + 0.4, right: x + 3.9, top: y + 0.7, bottom: y + 4.2 }),
      ...names.map((text, row) =>
        words(face, 'part label', text, { x: x + indentMm, y: y + 3.9 + row * leadingOf('text') }),
      ),
    ],
    1.6,
  );
}
