import { describe, expect, it } from 'vitest';
import { run, type Setting } from './memoryWorld.ts';

const head = `cardwright: kit   # ours
units: in
grid: { square: 3 }
materials: { greyboard: { thickness: 1/16 }, foam: { thickness: 1/2 } }
sheets: { greyboard: [{ size: [16, 12] }], foam: [{ size: [24, 12] }] }
tiles:
`;
/** Two boards and what stands between them: right at 2 7/8. */
const wall = (name: string, core: string, end = '\n') =>
  `  ${name}:\n    parts:\n      face: { of: greyboard, size: [3, 1] }\n` +
  `      core: { of: foam, size: [3, ${core}], lies: yes }   # the hill${end}    build: { along: [face, core, face] }\n`;

const kit = (...walls: readonly string[]) => head + walls.join('');

async function fix(text: string, argv: readonly string[] = [], setting: Setting = {}) {
  return await run(['check', '--fix', 'kit.yaml', ...argv], { files: { 'kit.yaml': text }, ...setting });
}

describe('check --fix', () => {
  it('mends several sizes of one file, comments and layout untouched, and says which file it wrote', async () => {
    const ran = await fix(kit(wall('one', '2 15/16'), wall('two', '3'), wall('three', '2 7/8')));
    expect(ran.text('kit.yaml')).toBe(
      kit(wall('one', '2 7/8'), wall('two', '2 7/8'), wall('three', '2 7/8')),
    );
    expect(ran.stdout.match(/^ {2}[-+] .*$/gm)).toHaveLength(4);
    expect(ran.stdout).toContain('\nwrote kit.yaml\n');
    expect(ran.code).toBe(0);
  });

  it('shows a line with two changes once', async () => {
    const parts = '{ face: { of: greyboard, size: [3, 1] }, core: { of: foam, size: [3, 3], lies: yes } }';
    const one = `parts: ${parts}, build: { along: [face, core, face] }`;
    const ran = await fix(`${head.replace('tiles:\n', '')}tiles: { one: { ${one} }, two: { ${one} } }\n`);
    expect(ran.stdout.match(/^kit\.yaml:\d+$/gm)).toHaveLength(1);
    expect(ran.stdout.match(/2 7\/8/g)).toHaveLength(2);
    expect(ran.text('kit.yaml')).toContain(
      'size: [3, 2 7/8], lies: yes } }, build: { along: [face, core, face] } }, two',
    );
    expect(ran.code).toBe(0);
  });

  it('changes nothing when it is run again', async () => {
    const once = (await fix(kit(wall('one', '3')))).text('kit.yaml');
    const again = await fix(once);
    expect(again.text('kit.yaml')).toBe(once);
    expect(again.stdout).not.toContain('wrote');
    expect(again.stderr).toContain('note N01');
    expect(again.code).toBe(0);
  });

  it('writes nothing in a dry run, but ends as the real one would', async () => {
    for (const [text, code] of [
      [kit(wall('one', '3')), 0],
      [
        kit(
          wall('one', '3'),
          wall('two', '2 7/8').replace('[face, core, face]', '[face, core, gap 1, face]'),
        ),
        1,
      ],
    ] as const) {
      const dry = await fix(text, ['--dry-run']);
      const real = await fix(text);
      expect(dry.text('kit.yaml')).toBe(text);
      expect(dry.stdout).toBe(
        real.stdout.replace('wrote kit.yaml\n\n', 'would write kit.yaml\n\nas it would stand then:\n'),
      );
      expect([dry.code, dry.stderr]).toEqual([real.code, real.stderr]);
      expect(real.code).toBe(code);
    }
  });

  it('mends a size, also one that tiles share, though another tile has a fault of its own', async () => {
    const shared = kit(wall('one', 'core'), wall('two', 'core')).replace(
      'tiles:',
      'lengths: { core: 3 }\ntiles:',
    );
    const other = '  three:\n    parts: { card: { of: greyboard, size: [depth, 1] } }\n';
    const ran = await fix(shared + other);
    expect(ran.stderr).toContain('"depth"');
    expect(ran.text('kit.yaml')).toBe((shared + other).replace('core: 3 }', 'core: 2 7/8 }'));
    expect(ran.code).toBe(1);
  });

  it('says why it writes a mark next to the size that is right', async () => {
    const slack = kit(wall('one', '3')).replace('grid: { square: 3 }', 'grid: { square: 3, slack: 1/32 }');
    const text = slack.replace('1/16 }', '0.055 }');
    const files = { 'kit.yaml': text };
    const { stderr } = await run(['check', 'kit.yaml'], { files });
    // Computed: 3 - 2 × 0.055 = 2.89, and the mark below it on a rule of 1/16 in is 2 7/8, 0.015 short.
    expect(stderr).toMatch(/try {3}width of core: 2 7\/8 in full \(\+0\.015\)[^\n]* closes it/);
    expect(stderr).toContain(
      '2 7/8 in is the mark of your rule next to that, and within the slack of 1/32 in',
    );
    expect((await fix(text)).text('kit.yaml')).toContain('2 7/8');
  });

  it('leaves a file alone that is only used, and says how to have it written', async () => {
    const sizes = 'cardwright: kit\nunits: in\nlengths: { depth: 3 }\n';
    const using = kit(wall('one', 'depth')).replace('units: in', 'units: in\nuses: [sizes.yaml]');
    const files = { 'kit.yaml': using, 'sizes.yaml': sizes };
    const ran = await run(['check', 'kit.yaml', '--fix'], { files });
    expect(ran.text('sizes.yaml')).toBe(sizes);
    expect(ran.text('kit.yaml')).toBe(using);
    expect(ran.code).toBe(1);
    const command = /cardwright (check --fix kit\.yaml sizes\.yaml) /.exec(ran.stderr)?.[1] ?? '';
    const both = await run(command.split(' '), { files });
    expect(both.text('sizes.yaml')).toBe(sizes.replace('depth: 3', 'depth: 2 7/8'));
    expect(both.stdout).toContain('wrote sizes.yaml');
    expect(both.code).toBe(0);
  });

  it('leaves the old file where the disk refuses, with exit code 3', async () => {
    const text = kit(wall('one', '3'));
    for (const more of [[], ['--dry-run']]) {
      const ran = await fix(text, more, {
        files: { 'kit.yaml': text },
        unwritable: { 'kit.yaml': 'the disk is read-only' },
      });
      expect(ran.text('kit.yaml')).toBe(text);
      expect(ran.stderr).toContain('the disk is read-only');
      expect(ran.code).toBe(3);
    }
  });

  it('gives one document with --json, of the files as they are then', async () => {
    const ran = await fix(kit(wall('one', '3')), ['--json']);
    expect(JSON.parse(ran.stdout)).toMatchObject({ schema: 'cardwright/check', diagnostics: [] });
    expect(ran.text('kit.yaml')).toContain('2 7/8');
  });

  it('is offered where it would do something', async () => {
    const files = { 'my kit.yaml': kit(wall('one', '3')) };
    const { stderr } = await run(['check', 'my kit.yaml'], { files });
    expect(stderr).toContain(
      '\ncardwright check --fix \'my kit.yaml\'   writes what stands behind "write"\n',
    );
    expect((await run(['check', 'my kit.yaml', '-q'], { files })).stderr).not.toContain('--fix');
    expect((await run(['check', '-'], { stdin: files['my kit.yaml'] })).stderr).not.toContain('--fix');
  });
});
