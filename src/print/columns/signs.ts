import { clean, widthOf } from './width.ts';

/** How the text is set: how wide, and whether more than ASCII may be used. Files are 80 wide, not ASCII. */
export interface Look {
  readonly width: number;
  readonly ascii: boolean;
}

/** Our own signs. The user's words are never changed by `ascii`; only what we add is. */
export interface Signs {
  readonly times: string;
  readonly dash: string;
  readonly range: string;
  readonly arrow: string;
  readonly box: string;
  readonly dot: string;
  readonly onAndOn: string;
  readonly alongLength: string;
  readonly alongWidth: string;
  readonly rule: string;
  readonly heavyRule: string;
  readonly datum: string;
  readonly hatch: string;
  readonly divider: string;
  readonly dividerAlong: string;
}

const full: Signs = {
  times: '×',
  dash: '–',
  range: '–',
  arrow: '→',
  box: '☐',
  dot: '·',
  onAndOn: '…',
  alongLength: '↔',
  alongWidth: '↕',
  rule: '─',
  heavyRule: '━',
  datum: '●',
  hatch: '╱',
  divider: '┊',
  dividerAlong: '┄',
};

const plain: Signs = {
  times: 'x',
  dash: '-',
  range: '-',
  arrow: '->',
  box: '[ ]',
  dot: '-',
  onAndOn: '...',
  alongLength: '<->',
  alongWidth: '^v',
  rule: '-',
  heavyRule: '=',
  datum: 'O',
  hatch: '/',
  divider: ':',
  dividerAlong: '.',
};

export function signsOf({ ascii }: Look): Signs {
  return ascii ? plain : full;
}

/** `3 × RW face`, and the name alone for one. A short name is kept on one line. */
export function counted(count: number, name: string, signs: Signs): string {
  const shown = clean(name);
  const held = widthOf(shown) <= longestHeld ? shown.replaceAll(' ', '\u00a0') : shown;
  return count === 1 ? held : `${count}\u00a0${signs.times}\u00a0${held}`;
}

/** ` (STE)`: what the labels of a tile's parts begin with; nothing where the tile is called so itself. */
export function keyOf(label: string, letters: string): string {
  return label === letters ? '' : `\u00a0(${clean(letters)})`;
}

const longestHeld = 18;
