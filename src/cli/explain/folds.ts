import type { foldCodes } from '../../model/catalogue/folds.ts';
import { type Example, type ExplainPage, kit } from '../explainPage.ts';

/** A kit with one part that is folded, of card 1.5 mm thick. */
function folded(folds: string, more = ''): Example {
  return kit(`cardwright: kit
units: mm
materials: { board: { thickness: 1.5, grain: yes } }
sheets: { board: [{ size: A3, grain: length }] }
tiles:
  bridge:
    footprint: [60, 60]
    parts:
      deck: { of: board, folds: ${folds}${more} }
`);
}

/** A kit with walls of card 1.5 mm thick, folded round a room out of one strip. */
function foldedRound(walls: string, more = ''): Example {
  return kit(`cardwright: kit
units: mm
materials: { board: { thickness: 1.5, grain: yes } }
sheets: { board: [{ size: A3, grain: length }] }
tiles:
  kiosk:
    footprint: [60, 40]
    parts:
      wall: { of: board, size: [rest, 30]${more} }${walls.includes('end') ? '\n      end:  { of: board, size: [rest, 30] }' : ''}
    build: { frame: { ${walls} }, corners: fold }
`);
}

function doorOn(side: string, place = 'left: 10'): string {
  return `, cuts: [{ notch: { size: [12, 20] }, edge: bottom, ${place}, on: ${side} }]`;
}

/** A page for each code of parts that are folded; the type holds it complete. */
export const foldPages: Readonly<Record<keyof typeof foldCodes, ExplainPage>> = {
  T30: {
    why:
      'The sizes of panels are outer ones. On the inside of a fold each of its two panels is shorter, by a thickness where ' +
      'the fold is square, and a scored blank is shorter still. A panel has to be longer than what the folds at its ends take.',
    failing: folded('{ panels: [12, 3, 12], angles: [90, 90], width: 40 }'),
    mended: folded('{ panels: [12, 6, 12], angles: [90, 90], width: 40 }'),
  },
  T31: {
    why:
      'Once all is folded, two panels would be in one place. A tube closes where its last panel is a thickness shorter, so ' +
      'that the tab lies inside against the first.',
    failing: folded('{ panels: [20, 10, 20, 10], angles: [90, 90, 90], width: 40, tab: 6 }'),
    mended: folded('{ panels: [20, 10, 20, 8.5], angles: [90, 90, 90], width: 40, tab: 6 }'),
  },
  T32: {
    why:
      'There is one angle for each fold, so one less than there are panels. A tab folds by 90, the way of the fold beside ' +
      'it, unless the list goes on to name its angle as well.',
    failing: folded('{ panels: [12, 30, 12], angles: [90], width: 40 }'),
    mended: folded('{ panels: [12, 30, 12], angles: [90, 90], width: 40 }'),
  },
  T33: {
    why:
      'An angle is how far a panel is turned out of the plane of the one before it: 90 makes a square corner. Folded flat ' +
      'on itself, by 180, it would need a hem that is as round as it is thick, which nobody can score.',
    failing: folded('{ panels: [12, 30], angles: [180], width: 40 }'),
    mended: folded('{ panels: [12, 30], angles: [120], width: 40 }'),
  },
  T34: {
    why: 'base is the number of the panel that lies level in the build, counted from 1 without tabs.',
    failing: folded('{ panels: [12, 30], angles: [90], width: 40, base: 3 }'),
    mended: folded('{ panels: [12, 30], angles: [90], width: 40, base: 2 }'),
  },
  T35: {
    why:
      'A folded part is as long as its panels and its folds make it, and its width stands in folds. A size or an outline ' +
      'beside it would say the same twice, and a strip that is bent has no side that could be clad. Cuts and marks are ' +
      'made in the flat blank.',
    failing: folded('{ panels: [12, 30], angles: [90], width: 40 }', ', size: [42, 40]'),
    mended: folded('{ panels: [12, 30], angles: [90], width: 40 }'),
  },
  T36: {
    why:
      'Fibres and flutes run along the folds where nothing is said: board bends easily that way. Across them it resists, and ' +
      'its outer paper cracks. Where the sheet leaves no choice, accept it with a reason, and score deeper.',
    failing: folded('{ panels: [12, 30], angles: [90], width: 40 }', ', grain: length'),
    mended: folded(
      '{ panels: [12, 30], angles: [90], width: 40 }',
      ', grain: length, accepted: { folds across: only strip left }',
    ),
  },
  T37: {
    why:
      'With laps: yes its row counts one panel alone, the one that lies level on what is below; the others hang down past ' +
      'it. A ridge that is the same to both sides has no such panel unless base names one.',
    failing: folded('{ panels: [25, 25], angles: [60], width: 40, laps: yes }'),
    mended: folded('{ panels: [25, 25], angles: [60], width: 40, laps: yes, base: 1 }'),
  },
  T38: {
    why:
      'The tabs of a tray are glued behind its short walls: they are no longer than half of these, and less than the walls ' +
      'are high. Sizes are outer ones, so a wall has to be higher than the material is thick.',
    failing: folded('{ tray: [60, 40], high: 12, tab: 14 }'),
    mended: folded('{ tray: [60, 40], high: 12, tab: 8 }'),
  },
  T39: {
    why:
      'Walls with corners: fold are one strip, scored on the outside and folded round the room, so they are one part, ' +
      'whose length follows. What goes round two rooms of different sizes is two strips.',
    failing: foldedRound('front: wall, back: wall, left: end, right: end'),
    mended: foldedRound('front: wall, back: wall, left: wall, right: wall'),
  },
  T42: {
    why:
      'A cut or a mark with on: has its place on one of the walls that are folded round a room, from the corners of that wall as it ' +
      'stands. So there has to be such a wall, and its part has to be folded.',
    failing: foldedRound('front: wall, right: wall, back: wall', doorOn('left')),
    mended: foldedRound('front: wall, right: wall, back: wall', doorOn('right')),
  },
  T43: {
    why:
      'A scored fold opens as wide as the material is thick, so the last of a wall, beside its corner, is no part of the flat ' +
      'blank. A cut that goes round a corner is two cuts, one on each wall.',
    failing: foldedRound('front: wall, right: wall', doorOn('front', 'right: 1')),
    mended: foldedRound('front: wall, right: wall', doorOn('front', 'right: 2')),
  },
  T44: {
    why:
      'A fold that is cut into is shorter, and folds where it is left. Where that is meant, as for a window that goes round a ' +
      'corner, accepted: { folds cut: WHY } beside the cuts lets it pass; a place that is measured from the left of the flat ' +
      'blank may have come on a fold by mistake.',
    failing: folded(
      '{ panels: [30, 30], angles: [90], width: 20 }',
      ', cuts: [{ hole: { circle: 8 }, left: 24, bottom: 6 }]',
    ),
    mended: folded(
      '{ panels: [30, 30], angles: [90], width: 20 }',
      ', cuts: [{ hole: { circle: 8 }, left: 12, bottom: 6 }]',
    ),
  },
  T45: {
    why:
      'What is left of a fold holds its panels together. Where nothing is, or a strip that is less wide than the material is ' +
      'thick, it tears as it is folded.',
    failing: folded(
      '{ panels: [30, 30], angles: [90], width: 20 }',
      ', cuts: [{ hole: { rectangle: [8, 19] }, left: 24 }]',
    ),
    mended: folded(
      '{ panels: [30, 30], angles: [90], width: 20 }',
      ', cuts: [{ hole: { rectangle: [8, 12] }, left: 12 }]',
    ),
  },
};
