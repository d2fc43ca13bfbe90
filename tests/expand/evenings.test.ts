import { describe, expect, it } from 'vitest';
import { run } from '../cli/memoryWorld.ts';

const session = (made: string, evenings: string): string => `cardwright: session
units: mm
materials: { card: { thickness: 1 } }
sheets: { card: [{ size: [100, 100], count: 1 }] }
tiles:
  wall: { footprint: none, parts: { face: { of: card, size: [40, 20] } } }
  floor: { footprint: none, parts: { top: { of: card, size: [20, 20] } } }
${made}
evenings: ${evenings}
`;
const counted = (made: string, evenings: string) =>
  run(['count', 'evening.yaml'], { files: { 'evening.yaml': session(made, evenings) } });

describe('evenings', () => {
  it('may make several of what is asked for as often as what is at hand allows', async () => {
    // Source: by hand: a wall takes 800 of the 10 000 square millimetres, so that no more
    // than 12 do; two columns of 5 leave a strip of 20 x 100 for 2 more.
    const two = await counted('make: { wall: most, floor: 0 }', '[{ make: { wall: 4 } }, { make: rest }]');
    expect([two.code, two.stderr]).toEqual([0, '']);
    expect(two.stdout).toContain('12 x wall');
    const sets = await counted(
      'sets: { count: most, of: { wall: 1, floor: 1 } }',
      '[{ make: { wall: 3, floor: 2 } }, { make: rest }]',
    );
    expect([sets.code, sets.stderr]).toEqual([0, '']);
    const more = await counted('make: { wall: most }', '[{ make: { wall: 13 } }, { make: rest }]');
    expect(more.code).toBe(1);
    expect(more.stderr).toContain('evening.yaml:9:22: error E82: 13 of "wall" are made here; 12 are left');
  });

  it('are held against all that is asked for', async () => {
    const evenings = '[{ make: { wall: 1 } }, { title: last, make: { wall: 1, floor: 2 } }]';
    const forgotten = await counted('make: { wall: 4, floor: 3 }', evenings);
    expect(forgotten.code).toBe(0);
    expect(forgotten.stderr).toContain(
      'evening.yaml:9:35: warning S81: 2 of "wall", 1 of "floor": asked for, but made on no evening',
    );
    expect((await counted('make: { wall: 2, floor: 2 }', evenings)).stderr).toBe('');
  });

  it('are told where two have one title, as the title means the first', async () => {
    const evenings = '[{ title: walls, make: { wall: 1 } }, { title: walls, make: rest }]';
    const { code, stderr } = await counted('make: { wall: 4 }', evenings);
    expect(code).toBe(0);
    expect(stderr).toContain('warning S82: evenings 1 and 2 are both called "walls"');
  });
});
