import type { Batch } from '../../model/index.ts';
import { type Pile, type PilePiece, pilesOf } from '../piles.ts';
import { eveningWords, pieceWords, slipLead, takenWords } from '../pileWords.ts';
import { drawAt, type Entry, heightOfAll } from './entries.ts';
import type { Flow } from './flow.ts';
import { line, type Mark, type Point, rectangle } from './mark.ts';
import type { Sizes } from './sizes.ts';
import { leadingOf, type Typeface, widthOf, words, wordsEndingAt, wrapped } from './type.ts';

/** What is left free around the words of a slip. */
const insetMm = 3.5;
/** A slip reads well from this width on. */
const leastSlipMm = 84;

/**
 * A slip for each pile of cut pieces, in rows over the page: first each row is cut off from edge to edge, then its
 * slips are parted.
 *
 *     ━━━━━━━━━━━━━━━━━━━━━━━━
 *      RW retaining  ┃ TE terrace
 *      ☐ 8 × board   ┃ ☐ 4 × turf
 *     ━━━━━━━━━━━━━━━━━━━━━━━━
 */
export function slipPages(flow: Flow, sizes: Sizes, batch: Batch): void {
  const piles = pilesOf(batch);
  if (piles.length === 0) return;
  flow.open('pile slips');
  flow.bookmark('Pile slips');
  flow.say('text', `${slipLead} Sizes are in ${sizes.unit}.`);
  flow.down(2);
  const abreast = Math.max(1, Math.floor(flow.width / leastSlipMm));
  const widthMm = flow.width / abreast;
  const mostMm = flow.column.bottom - flow.y() - 1;
  const slips = piles.flatMap((pile) => slipsOf(flow.face, sizes, pile, { widthMm, mostMm }));
  let isOpen = false;
  for (let next = 0; next < slips.length; next += abreast) {
    const row = slips.slice(next, next + abreast);
    const heightMm = Math.max(...row.map((it) => it.heightMm));
    if (flow.room() < heightMm) {
      flow.carryOn();
      isOpen = false;
    }
    if (!isOpen) across(flow);
    isOpen = true;
    const top = flow.y();
    for (const [index, { entries }] of row.entries()) {
      const left = flow.column.left + index * widthMm;
      drawAt(flow, entries, left + insetMm, top + insetMm);
      if (index > 0) flow.add([line('cut', { x: left, y: top }, { x: left, y: top + heightMm })]);
    }
    // The last of a row that is not full is parted as well.
    const end = flow.column.left + row.length * widthMm;
    if (row.length < abreast) flow.add([line('cut', { x: end, y: top }, { x: end, y: top + heightMm })]);
    flow.down(heightMm);
    across(flow);
  }
}

function across({ add, column, y }: Flow): void {
  add([line('cut', { x: column.left, y: y() }, { x: column.right, y: y() })]);
}

interface Slip {
  readonly entries: readonly Entry[];
  readonly heightMm: number;
}

interface Room {
  readonly widthMm: number;
  readonly mostMm: number;
}

/** One slip, or as many as a long pile needs. */
function slipsOf(face: Typeface, sizes: Sizes, pile: Pile, { widthMm, mostMm }: Room): readonly Slip[] {
  const inside = widthMm - 2 * insetMm;
  const rows = rowsOf(face, sizes, pile, inside);
  const parts: Entry[][] = [[]];
  const room = mostMm - 2 * insetMm - heightOfAll([headOf(face, pile, inside, 'slip 88 of 88')]);
  let filled = 0;
  for (const row of rows) {
    filled += row.heightMm;
    if (filled > room) {
      parts.push([]);
      filled = row.heightMm;
    }
    parts.at(-1)?.push(row);
  }
  return parts.map((own, index) => {
    const which = parts.length === 1 ? '' : `slip ${index + 1} of ${parts.length}`;
    const entries = [headOf(face, pile, inside, which), ...own];
    return { entries, heightMm: heightOfAll(entries) + 2 * insetMm };
  });
}

/** Its letters as they stand on the pieces, which tile, how many, which evening. */
function headOf(face: Typeface, pile: Pile, widthMm: number, which: string): Entry {
  const { letters, name, note } = pile;
  const lettersMm = letters === undefined ? 0 : widthOf(face, 'statement', letters) + 3;
  const isBeside = lettersMm < widthMm / 2;
  const names = name === letters ? [] : wrapped(face, 'heading', name, widthMm - (isBeside ? lettersMm : 0));
  const said = [...takenWords(pile), ...eveningWords(pile), which, ...(note === undefined ? [] : [note])]
    .filter((it) => it !== '')
    .flatMap((it) => wrapped(face, 'text', it, widthMm));
  const lettersRows = letters === undefined ? 0 : 1;
  const nameRows = isBeside ? Math.max(lettersRows, names.length) : lettersRows + names.length;
  const nameMm = nameRows * leadingOf('heading') + 1.6;
  const heightMm = nameMm + said.length * leadingOf('text') + 2.2;
  return {
    heightMm,
    draw: ({ x, y }) => [
      ...(letters === undefined ? [] : [words(face, 'statement', letters, { x, y: y + 5.2 })]),
      ...names.map((text, row) => {
        const at = isBeside
          ? { x: x + lettersMm, y: y + 5.2 + row * leadingOf('heading') }
          : { x, y: y + 5.2 + (row + lettersRows) * leadingOf('heading') };
        return words(face, 'heading', text, at);
      }),
      ...said.map((text, row) =>
        words(face, 'text', text, { x, y: y + nameMm + 3.9 + row * leadingOf('text') }),
      ),
      line('table rule', { x, y: y + heightMm - 1 }, { x: x + widthMm, y: y + heightMm - 1 }),
    ],
  };
}

function rowsOf(face: Typeface, sizes: Sizes, { groups, fittings }: Pile, widthMm: number): readonly Entry[] {
  return [
    ...groups.flatMap(({ material, pieces }) => [
      ...named(face, material, widthMm),
      ...pieces.map((it) => pieceRow(face, sizes, it, widthMm)),
    ]),
    ...(fittings.length === 0 ? [] : named(face, 'fittings', widthMm)),
    ...fittings.map((it) => tickRow(face, pieceWords(it), '', widthMm)),
  ];
}

/** What the rows below it are cut from. */
function named(face: Typeface, text: string, widthMm: number): readonly Entry[] {
  return wrapped(face, 'key', text, widthMm).map((row) => ({
    heightMm: leadingOf('text'),
    draw: ({ x, y }) => [words(face, 'key', row, { x, y: y + 3.7 })],
  }));
}

function pieceRow(face: Typeface, sizes: Sizes, piece: PilePiece, widthMm: number): Entry {
  return tickRow(face, pieceWords(piece), sizes.pair(piece.length, piece.width), widthMm);
}

const tickMm = 5.6;

/** A box to tick, what and how many, and how large at the right; below it where both have no room on a line. */
function tickRow(face: Typeface, text: string, size: string, widthMm: number): Entry {
  const leading = leadingOf('text');
  const sizeMm = widthOf(face, 'text', size);
  const besideMm = widthMm - tickMm - (size === '' ? 0 : sizeMm + 3);
  const isBeside = besideMm > widthMm * 0.4;
  const rows = wrapped(face, 'part label', text, isBeside ? besideMm : widthMm - tickMm);
  const isBelow = size !== '' && !isBeside;
  const below = isBelow ? wrapped(face, 'text', size, widthMm - tickMm) : [];
  return {
    heightMm: (rows.length + below.length) * leading + 0.6,
    draw: ({ x, y }): readonly Mark[] => {
      const base = (row: number): Point => ({ x: x + tickMm, y: y + 3.9 + row * leading });
      return [
        rectangle('tick box', { left: x + 0.2, right: x + 3.7, top: y + 0.7, bottom: y + 4.2 }),
        ...rows.map((row, index) => words(face, 'part label', row, base(index))),
        ...(isBelow || size === ''
          ? []
          : [wordsEndingAt(face, 'text', size, { x: x + widthMm, y: y + 3.9 })]),
        ...below.map((row, index) => words(face, 'text', row, base(rows.length + index))),
      ];
    },
  };
}
