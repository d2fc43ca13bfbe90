import type { Made } from '../../model/index.ts';
import { clean, counted, type Lines, type Look, paragraph, signsOf } from '../columns/index.ts';
import { gluingLead, gluingOf } from '../gluingWords.ts';

/** In which order each tile is put together, one paragraph a tile. */
export function writeGluing(made: Pick<Made, 'batch' | 'fits'>, look: Look): Lines {
  const signs = signsOf(look);
  const tiles = gluingOf(made, { clean, counted: (count, name) => counted(count, name, signs) });
  if (tiles.length === 0) return [];
  return [
    signs.rule.repeat(look.width),
    ...paragraph(gluingLead, look.width, 'Gluing   '),
    ...tiles.flatMap(({ tile, steps }) => paragraph(`${steps.join(', then ')}.`, look.width, `${tile}: `)),
    '',
  ];
}
