import { describe, expect, it } from 'vitest';
import { run } from '../cli/memoryWorld.ts';

/** A stack of 5 + 1.5 + 0.5 = 7 mm that has a height to fill. */
function kit(height: string, more = '', slack = '0'): string {
  return `cardwright: kit
units: mm
grid: { square: 60, slack: ${slack} }
materials: { foam: { thickness: 5 }, board: { thickness: 1.5 }, card: { thickness: 0.5 }${more} }
sheets: { foam: [{ size: A3 }], board: [{ size: A3 }], card: [{ size: A3 }], paper: [{ size: A3 }] }
tiles:
  tile:
    height: ${height}
    parts:
      bed: { of: foam, size: [60, 60] }
      deck: { of: board, size: [60, 60] }
      skin: { of: card, size: [60, 60] }
    build: { up: [bed, deck, skin] }
`;
}
const withPaper = (text: string) => text.replace('0.5 } }', '0.5 }, paper: { thickness: 0.1 } }');
const ran = (text: string, ...more: readonly string[]) =>
  run(['check', 'it.yaml', ...more], { files: { 'it.yaml': withPaper(text) } });

// Sums of thicknesses: computed by hand.
describe('a stack that only thicknesses make', () => {
  it('closes when they add up', async () => {
    expect((await ran(kit('7'))).stderr).toBe('');
  });

  it('names the fewest shims that fill what is missing', async () => {
    // 1.5 are one board and not three cards.
    expect((await ran(kit('8.5'))).stderr).toContain('shims close it: 1 of board, 1.5 mm each');
    expect((await ran(kit('9'))).stderr).toContain(
      'shims close it: 1 of board, 1.5 mm each and 1 of card, 0.5 mm each',
    );
    // Paper is at hand, though nothing is cut from it.
    expect((await ran(kit('7.2'))).stderr).toContain('shims close it: 2 of paper, 0.1 mm each');
    expect((await ran(kit('7.25'))).stderr).not.toContain('shims close it');
    // Of as many pieces, those that fill the most.
    expect((await ran(kit('8.6', '', '0.2'))).stderr).toContain('shims close it: 1 of board, 1.5 mm each');
  });

  it('names the layer that could be cut from another material', async () => {
    const { stderr } = await ran(kit('8'));
    expect(stderr).toContain('skin of board, 1.5 mm thick, closes it');
    expect((await ran(kit('6'))).stderr).toContain('deck of card, 0.5 mm thick, closes it');
  });

  it('says that no size will do it', async () => {
    const { stderr, code } = await ran(kit('7.25'));
    expect(stderr).toContain('no size alone makes it right: thicknesses add up to it');
    expect(code).toBe(1);
    expect((await ran(kit('7.25'), '--fix')).stderr).toContain('note N01');
  });

  it('follows one caliper reading', async () => {
    expect((await ran(kit('7'), '--with', 'board=1.45 mm')).stderr).toContain('error F01');
    expect((await ran(kit('7', '', '0.05'), '--with', 'board=1.45 mm')).stderr).toBe('');
  });

  it('counts the glue between layers', async () => {
    const glued = (height: string) => kit(height).replace('slack: 0 }', 'slack: 0, glue line: 0.1 }');
    expect((await ran(glued('7.2'))).stderr).toBe('');
    expect((await ran(glued('7'))).stderr).toContain('0.2 glue = 7.2 mm');
  });
});

describe('a tile of several squares', () => {
  const text = `cardwright: kit
units: mm
grid: { square: 60 }
racks: { case: { inside: [125, 200, 40], clearance: 4 } }
materials: { foam: { thickness: 5 } }
sheets: { foam: [{ size: A3 }] }
tiles:
  long:
    squares: [1, 2]
    parts: { bed: { of: foam, size: [tile across, tile along] } }
    build: { up: [2 x bed] }
    edges: { front: 10, back: 10, left: [10, 10, 10], right: 10 }
    store: case
`;
  // 121 x 196 x 36 hold 2 x 1 of 60 x 120 as it lies, 1 x 3 turned a quarter; 36 / 10 = 3 high: computed.
  it('fills its footprint, turns about and stacks', async () => {
    const { stdout, stderr } = await ran(text);
    expect(stderr).toBe('');
    expect(stdout.replace(/\s+/g, ' ')).toContain(
      'closes 60 × 120, 10 mm high; also turned about; 3 high and 3 side by side in case',
    );
  });

  it('has a level for each corner and joint', async () => {
    const { stderr } = await ran(text.replace('[10, 10, 10]', '[10, 10]'));
    expect(stderr).toContain('error E65: the left has 3 corners and joints, but 2 levels');
  });
});
