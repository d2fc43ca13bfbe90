import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { type Ran, run } from './memoryWorld.ts';

const written = `cardwright: drawer
units: in
# what is left
sheets:
  foam:
    - { size: [24, 12] }  # a layer
offcuts:
  card: [{ size: [8, 5], label: G1, count: 3 }]
`;

/** Runs one command on a drawer after the other. */
async function inTurn(text: string, ...changes: readonly (readonly string[])[]): Promise<readonly Ran[]> {
  const done: Ran[] = [];
  let files: Readonly<Record<string, string | Uint8Array>> = { 'drawer.yaml': text };
  for (const options of changes) {
    const ran = await run(['drawer', 'drawer.yaml', ...options], { files });
    done.push(ran);
    files = Object.fromEntries(ran.files);
  }
  return done;
}

describe('a block in the drawer', () => {
  it('is added by a third size, listed, taken out by it, and each of that can be undone', async () => {
    const [added, listed, other, undone, out] = await inTurn(
      written,
      ['--add', 'foam: 24 x 12 x 2', '--uncut', '--where', 'under the bed', '--count', '2'],
      [],
      ['--add', 'foam: 200 x 100 x 50 mm', '--label', 'F1'],
      ['--undo'],
      ['--take', 'foam: 12 x 24 x 2'],
    );
    expect(added?.stdout).toBe('put in 2 x foam 24 x 12 in, 2 in thick\n');
    expect(added?.text('drawer.yaml')).toBe(
      written.replace(
        '  # a layer\n',
        '  # a layer\n    - { size: [24, 12], thick: 2, count: 2, where: under the bed }\n',
      ),
    );
    expect(listed?.stdout).toMatch(/block 2 in thick/u);
    expect(parse(other?.text('drawer.yaml') ?? '').offcuts.foam).toEqual([
      { size: ['200 mm', '100 mm'], thick: '50 mm', label: 'F1' },
    ]);
    expect(undone?.text('drawer.yaml')).toBe(added?.text('drawer.yaml'));
    expect(out?.stdout).toBe('took out 1 x foam 24 x 12 in, 2 in thick\n');
    expect(parse(out?.text('drawer.yaml') ?? '').sheets.foam).toEqual([
      { size: [24, 12] },
      { size: [24, 12], thick: 2, count: 1, where: 'under the bed' },
    ]);
  });

  it('is not taken for a sheet of its length and width, nor for a block of another thickness', async () => {
    const both = written.replace(
      '  # a layer\n',
      '\n    - { size: [24, 12], thick: 2 }\n    - { size: [24, 12], thick: 3 }\n',
    );
    const [flat, none, unclear, three] = await inTurn(
      both,
      ['--take', 'foam: 24 x 12'],
      ['--take', 'foam: 24 x 12 x 4'],
      ['--take', 'foam: 24 x 12'],
      ['--take', 'foam: 24 x 12 x 3'],
    );
    expect(flat?.stdout).toBe('took out 1 x foam 24 x 12 in\n');
    expect([none?.code, none?.stderr]).toEqual([1, expect.stringContaining('error K01')]);
    expect([unclear?.code, unclear?.stderr]).toEqual([1, expect.stringContaining('error K08')]);
    expect(unclear?.stderr).toContain('a third size of 2 in --uncut, or a third size of 3 in --uncut');
    expect(three?.stdout).toBe('took out 1 x foam 24 x 12 in, 3 in thick\n');
  });

  it('is sliced by what is cut next', async () => {
    const session = `cardwright: session
units: in
materials: { foam: { thickness: 1/2, kerf: 1/32 } }
sheets: { foam: [{ size: [30, 20] }] }
loose: { slab: { of: foam, size: [23, 11], count: 3 } }
drawer: drawer.yaml
`;
    const [added] = await inTurn('cardwright: drawer\nunits: in\n', [
      '--add',
      'foam: 24 x 12 x 2',
      '--uncut',
    ]);
    const files = { ...Object.fromEntries(added?.files ?? []), 'evening.yaml': session };
    const { stdout } = await run(['cut', 'evening.yaml', '--json'], { files });
    const [foam] = JSON.parse(stdout).result.materials;
    // Worked out by hand: 3 × 1/2 and two cuts of 1/32 go into 2; a fourth layer would want 2 3/32.
    expect([foam.sheets, foam.layouts.map(({ times }: { readonly times: number }) => times)]).toEqual([
      3,
      [3],
    ]);
  });

  it.each(['foam: 24 x 12 x 2 x 1', 'foam: 24 x 12 x 0', 'foam: 24 x 12 x thick'])(
    'is not: %s',
    async (told) => {
      const [ran] = await inTurn(written, ['--add', told]);
      expect([ran?.code, ran?.stderr, ran?.text('drawer.yaml')]).toEqual([
        1,
        expect.stringContaining('error K03'),
        written,
      ]);
    },
  );
});

describe('a fitting that the drawer does not count yet', () => {
  it.each([
    [
      'in a list of its own',
      'fittings:\n  disc magnet: 20  # in May\n',
      'fittings:\n  disc magnet: 20  # in May\n  skewer: 40\n',
    ],
    [
      'on one line',
      'fittings: { disc magnet: { count: 20 } }\n',
      'fittings: { disc magnet: { count: 20 }, skewer: 40 }\n',
    ],
    ['where none is counted', '', 'fittings:\n  skewer: 40\n'],
    ['in an empty map', 'fittings: {}  # none\n', 'fittings: { skewer: 40 }  # none\n'],
    ['with the line ends of the file', 'note: x\r\n', 'note: x\r\nfittings:\r\n  skewer: 40\r\n'],
  ])('is counted from then on: %s', async (_, before, after) => {
    const head = before.includes('\r') ? 'cardwright: drawer\r\n' : 'cardwright: drawer\n';
    const [added, more, out, , , undone] = await inTurn(
      head + before,
      ['--add', 'skewer', '--fitting', '--count', '40'],
      ['--add', 'skewer', '--count', '2'],
      ['--take', 'skewer', '--count', '42'],
      ['--undo'],
      ['--undo'],
      ['--undo'],
    );
    expect(added?.stdout).toBe('put in 40 x skewer\n');
    expect(added?.text('drawer.yaml')).toBe(head + after);
    expect(more?.text('drawer.yaml')).toBe(head + after.replace('40', '42'));
    expect(out?.text('drawer.yaml')).toBe(head + after.replace('40', '0'));
    expect(undone?.text('drawer.yaml')).toBe(head + before);
  });

  it('says where it is kept, and takes any name that can be read', async () => {
    const [added, listed] = await inTurn(
      written,
      ['--add', '1/2 "odd": name', '--fitting', '--where', 'tin #2'],
      ['--json'],
    );
    expect(added?.code).toBe(0);
    expect(JSON.parse(listed?.stdout ?? '').result.fittings).toEqual([
      { name: '1/2 "odd": name', count: 1, where: 'tin #2', note: null },
    ]);
  });

  it('is no fitting without the word, and one has no grain, no label and no second place', async () => {
    const [bare, grain, place, none, unnamed, alone] = await inTurn(
      `${written}fittings: { skewer: 8 }\n`,
      ['--add', 'disc magnet'],
      ['--add', 'skewer', '--grain', 'length'],
      ['--add', 'skewer', '--where', 'tin box'],
      ['--take', 'disc magnet', '--fitting'],
      ['--add', ' ', '--fitting'],
      ['--fitting'],
    );
    expect(bare?.stderr).toMatch(/error K03[\s\S]*--fitting/u);
    expect(grain?.stderr).toContain('error C39: "--grain" does not go so with "skewer"');
    expect(place?.stderr).toContain('error C39: "--where" does not go so with "skewer"');
    expect(none?.stderr).toContain('error K01');
    expect(unnamed?.stderr).toContain('error K03');
    expect(alone?.stderr).toContain('error C39');
    expect(alone?.text('drawer.yaml')).toBe(`${written}fittings: { skewer: 8 }\n`);
    expect(alone?.files.has('drawer.yaml.journal')).toBe(false);
  });
});

describe('what is taken out by two names at once', () => {
  it('is never more than there is', async () => {
    const counted = `${written}fittings: { skewer: 8 }\n`;
    const [fittings, pieces, both] = await inTurn(
      counted,
      ['--take', 'skewer', '--take', 'skewer', '--count', '5'],
      ['--take', 'G1', '--take', 'G1', '--count', '2'],
      ['--take', 'skewer', '--take', 'skewer', '--count', '4'],
    );
    expect([fittings?.code, fittings?.stderr]).toEqual([
      1,
      expect.stringContaining('error K01: 10 of "skewer"'),
    ]);
    expect([pieces?.code, pieces?.stderr]).toEqual([1, expect.stringContaining('error K01')]);
    expect(pieces?.text('drawer.yaml')).toBe(counted);
    expect(both?.text('drawer.yaml')).toBe(counted.replace('skewer: 8', 'skewer: 0'));
  });
});
