import { describe, expect, it } from 'vitest';
import { expandText } from './check.ts';

function told(part: string, build = ''): readonly string[] {
  const { diagnostics } = expandText(`cardwright: kit
units: mm
materials: { board: { thickness: 1.5 } }
tiles:
  tile:
    footprint: ${build === '' ? 'none' : '[80, 40]'}
    parts: { part: { of: board, ${part} } }
    ${build}
`);
  return diagnostics.map(({ code, message }) => `${code} ${message}`);
}

const panels = 'folds: { panels: [30, 30], angles: [90], width: 20, by: groove }';
const strip = (cuts: string, folds = panels) => told(`${folds}, cuts: [${cuts}]`);

// Expected: computed by hand. A grooved blank is as long as its panels: its fold lies at 30.
describe('a cut over a fold', () => {
  it('is told with what it leaves, for each cut', () => {
    expect(strip('{ hole: { circle: 10 }, centre: [27, 10] }')).toEqual([
      'T44 the hole goes over fold 1, 30 mm from the left: of its 20 mm there is left 0 mm to 6 mm and 14 mm to 20 mm',
    ]);
    expect(
      strip('{ hole: { rectangle: [4, 5] }, left: 28, bottom: 2 }, { notch: { size: [6, 3] }, edge: top }'),
    ).toEqual([
      'T44 the hole goes over fold 1, 30 mm from the left: of its 20 mm there is left 0 mm to 2 mm and 7 mm to 17 mm',
      'T44 the notch goes over fold 1, 30 mm from the left: of its 20 mm there is left 0 mm to 2 mm and 7 mm to 17 mm',
    ]);
  });

  it('is wrong where less than a thickness is left in one place, and where nothing is', () => {
    const high = (size: string, place: string) =>
      strip(`{ hole: { rectangle: [4, ${size}] }, left: 28, ${place} }`);
    expect(high('17', 'bottom: 1.5')).toEqual([
      expect.stringMatching(/^T44 .* 0 mm to 1.5 mm and 18.5 mm to 20 mm$/),
    ]);
    expect(high('17.1', 'bottom: 1.5')).toEqual([
      expect.stringMatching(/^T45 .*; 1.4 mm in one place is less than the material is thick, 1.5 mm$/),
    ]);
    const scored = 'folds: { panels: [30, 30], angles: [90], width: 20 }';
    expect(strip('{ hole: { rectangle: [2, 19.9] }, left: 27, bottom: 0.05 }', scored)).toEqual([
      'T45 the hole goes over fold 1, 28.5 mm from the left: of its 20 mm there is left 0 mm to 0.05 mm and 19.95 mm to ' +
        '20 mm; 0.05 mm in one place is less than the material is thick, 1.5 mm',
    ]);
  });

  it('passes beside it, and up to it', () => {
    expect(strip('{ hole: { circle: 8 }, centre: [26, 10] }')).toEqual([]);
    expect(strip('{ hole: { rectangle: [4, 8] }, left: 26, bottom: 6 }')).toEqual([]);
    expect(strip('{ hole: { rectangle: [4, 8] }, left: 30, bottom: 6 }')).toEqual([]);
    expect(strip('{ hole: { rectangle: [4, 8] }, left: 26.1, bottom: 6 }')).toEqual([
      expect.stringMatching(/^T44 .* 0 mm to 6 mm and 14 mm to 20 mm$/),
    ]);
  });

  it('passes where its part lets it pass, but not where it leaves too little', () => {
    const meant = (cuts: string) =>
      told(`${panels}, cuts: [${cuts}], accepted: { folds cut: a window goes round it }`);
    expect(meant('{ hole: { circle: 10 }, centre: [27, 10] }')).toEqual([]);
    expect(meant('{ hole: { rectangle: [4, 17.1] }, left: 28, bottom: 1.5 }')).toEqual([
      expect.stringMatching(/^T45 /),
    ]);
  });

  it('is wrong where it takes all of a fold', () => {
    // The tab at the left bottom of a tray, cut off with its fold, which lies 1.5 further in than that of the base.
    const tray = 'folds: { tray: [60, 40], high: 12, tab: 8 }';
    expect(strip('{ notch: { size: [20, 12] }, edge: bottom, left: 0 }', tray)).toContainEqual(
      expect.stringMatching(
        /^T45 the notch takes all 10.5 mm of fold \d, 12 mm from the left, so nothing is left/,
      ),
    );
  });

  it('is told of a tray both ways', () => {
    // Scored, its walls are 12 - 1.5 high in the flat; its base begins there, and its tabs fold 1.5 further in.
    const tray = 'folds: { tray: [60, 40], high: 12, tab: 8 }';
    expect(strip('{ hole: { circle: 6 }, centre: [39, 10.5] }', tray)).toEqual([
      expect.stringMatching(
        /^T44 the hole goes over fold 3, 10.5 mm from the bottom: of its 54 mm there is left/,
      ),
    ]);
    expect(strip('{ hole: { circle: 6 }, centre: [10.5, 29] }', tray)).toEqual([
      expect.stringMatching(
        /^T44 the hole goes over fold 1, 10.5 mm from the left: of its 37 mm there is left/,
      ),
    ]);
    expect(strip('{ hole: { circle: 6 }, centre: [39, 29] }', tray)).toEqual([]);
  });

  it('is told once of walls that are folded round a room', () => {
    const build =
      'build: { frame: { front: part, right: part, back: part, left: part }, corners: { fold: groove, tab: 8 } }';
    const walls = (cut: string) => told(`size: [rest, 30], cuts: [${cut}]`, build);
    expect(walls('{ hole: { circle: 10 }, centre: [77, 15] }')).toEqual([
      'T44 the hole goes over the fold between the front and the right: of its 30 mm there is left 0 mm to 11 mm and 19 mm to 30 mm',
    ]);
    // 80 + 40 + 80 + (40 - 1.5) is where the tab begins.
    expect(walls('{ hole: { circle: 6 }, centre: [238.5, 15] }')).toEqual([
      'T44 the hole goes over the fold between the left and the tab: of its 30 mm there is left 0 mm to 12 mm and 18 mm to 30 mm',
    ]);
    expect(walls('{ hole: { circle: 10 }, centre: [74, 15] }')).toEqual([]);
  });
});
