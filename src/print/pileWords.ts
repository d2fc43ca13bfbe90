import type { Pile } from './piles.ts';

/** How slips are used, a line or two. */
export const slipLead =
  'Cut the slips apart along the lines, each line from edge to edge. Lay each where its pile is to be, and tick what lies on it.';

/** `for 4 tiles`; nothing for what belongs to no tile. */
export function takenWords({ count }: Pick<Pile, 'count'>): readonly string[] {
  return count === undefined ? [] : [`for ${count} ${count === 1 ? 'tile' : 'tiles'}`];
}

/** `evening 1 of 2: walls` */
export function eveningWords({ evening }: Pick<Pile, 'evening'>): readonly string[] {
  if (evening === undefined) return [];
  const { number, of, title } = evening;
  const own = `evening ${number} of ${of}`;
  return [title === `evening ${number}` ? own : `${own}: ${title}`];
}

/** `5 × RW face, 1 spare` */
export function pieceWords(
  { count, label, spares }: { readonly count: number; readonly label: string; readonly spares: number },
  times = '×',
): string {
  const counted = `${count}\u00a0${times}\u00a0${label}`;
  return spares === 0 ? counted : `${counted}, ${spares} spare`;
}
