import { describe, expect, it } from 'vitest';
import { brokenKit, type Happening, run, type Setting, soundKit } from './memoryWorld.ts';

const kit = 'kits/floor.yaml';
const shelf = 'kits/shelf.yaml';
const using = soundKit.replace('units: in', 'units: in\nuses: [shelf.yaml]');
const onShelf = 'cardwright: shelf\nunits: in\n';

/** Watches while files change, each happening far from the next; then Ctrl-C. */
async function watch(later: readonly Happening['files'][], setting: Setting = {}) {
  const happenings = later.map((files, index) => ({ atMs: 1000 * (index + 1), files }));
  return await run(['check', kit, '--watch'], {
    files: { [kit]: soundKit },
    later: happenings,
    ...setting,
  });
}

/** What stands behind each announcement. */
function runs(stdout: string): readonly string[] {
  return stdout.split(/^(?:\x1b\[2J\x1b\[H)?.* has changed$/m);
}

describe('check --watch', () => {
  it('checks once, and ends with 130 at Ctrl-C, silently', async () => {
    const ran = await watch([]);
    expect(ran.code).toBe(130);
    expect(ran.stderr).toBe('');
    expect(ran.stdout).toMatch(/^ok {2}floor/);
    expect(runs(ran.stdout)).toHaveLength(1);
  });

  it('checks again when the kit is saved, and says which file it was', async () => {
    const { stdout, stderr } = await watch([{ [kit]: brokenKit }, { [kit]: soundKit }]);
    expect(stdout.match(/^.* has changed$/gm)).toEqual([`${kit} has changed`, `${kit} has changed`]);
    expect(stderr.match(/error S/g)).toHaveLength(2);
    expect(runs(stdout)[2]).toContain('ok  floor');
  });

  it('looks at the files that the kit uses, also at one that is used from now on', async () => {
    const files = { [kit]: soundKit, [shelf]: onShelf };
    const { stdout, stderr } = await watch([{ [shelf]: brokenKit }, { [kit]: using }, { [shelf]: onShelf }], {
      files,
    });
    // Nobody used the shelf yet when it broke.
    expect(stdout.match(/^.* has changed$/gm)).toEqual([`${kit} has changed`, `${shelf} has changed`]);
    expect(stderr).toContain(`${shelf}:3:9`);
    expect(runs(stdout)[2]).toContain('ok  floor');
  });

  it('lets go of a file that is no longer used', async () => {
    const files = { [kit]: using, [shelf]: onShelf };
    const { stdout } = await watch([{ [kit]: soundKit }, { [shelf]: brokenKit }], { files });
    expect(runs(stdout)).toHaveLength(2);
  });

  it('waits for a file that is missing, or taken away', async () => {
    const { stdout, stderr } = await watch([{ [kit]: soundKit }, { [kit]: undefined }, { [kit]: soundKit }], {
      files: {},
    });
    expect(runs(stdout)).toHaveLength(4);
    expect(stderr.match(/error C40/g)).toHaveLength(2);
  });

  it('goes on through YAML that is none', async () => {
    const { stdout, stderr } = await watch([{ [kit]: 'cardwright: [\n' }, { [kit]: soundKit }]);
    expect(stderr).toContain('error S12');
    expect(runs(stdout)[2]).toContain('ok  floor');
  });

  it('takes a burst of changes for one', async () => {
    const later = [0, 4, 8, 12].map((atMs) => ({
      atMs: 1000 + atMs,
      files: { [kit]: `${soundKit}# ${atMs}\n` },
    }));
    expect(runs((await watch([], { later })).stdout)).toHaveLength(2);
  });

  it('does not wait for ever for one who writes on and on', async () => {
    const later = Array.from({ length: 100 }, (_, i) => ({
      atMs: 10 * i,
      files: { [kit]: `${soundKit}# ${i}\n` },
    }));
    const count = runs((await watch([], { later })).stdout).length;
    expect(count).toBeGreaterThan(2);
    expect(count).toBeLessThan(60);
  });

  it('waits a little longer for a file that is put aside before it is written anew', async () => {
    const later = [
      { atMs: 1000, files: { [kit]: undefined } },
      { atMs: 1040, files: { [kit]: brokenKit } },
    ];
    const { stdout, stderr } = await watch([], { later });
    expect(runs(stdout)).toHaveLength(2);
    expect(stderr).not.toContain('C40');
  });

  it('does nothing where a file is saved as it was', async () => {
    expect(runs((await watch([{ [kit]: soundKit }])).stdout)).toHaveLength(1);
  });

  it('begins anew on a terminal, and says there that it watches', async () => {
    const terminal = { stdout: true, stderr: true, columns: 80 };
    const { stdout, stderr } = await watch([{ [kit]: `${soundKit}#\n` }], { terminal });
    expect(stdout).toContain(`\x1b[2J\x1b[H${kit} has changed\nok  floor`);
    expect(stderr).toBe(`${`watching ${kit}; Ctrl-C ends\n`.repeat(2)}\n`);
    expect((await watch([], { terminal: { stderr: true }, files: {} })).stderr).toContain(`watching ${kit}`);
    expect(
      (await run(['check', kit, '--watch', '-q'], { files: { [kit]: soundKit }, terminal })).stderr,
    ).toBe('');
  });

  it('writes no signs of a terminal where there is none', async () => {
    const { stdout, stderr } = await watch([{ [kit]: brokenKit }]);
    expect(stdout + stderr).not.toContain('\x1b');
  });

  it.each([[['--json']], [['--fix']], [['--fix', '--json']]])('does not go with %j', async (others) => {
    const { code, stdout, stderr } = await run(['check', kit, '--watch', ...others], {
      files: { [kit]: soundKit },
    });
    expect(code).toBe(2);
    const told = others.includes('--json') ? stdout : stderr;
    for (const it of others) expect(told).toContain(it);
    if (others.includes('--json')) expect(JSON.parse(stdout).diagnostics).toHaveLength(others.length);
  });

  it('does not go with standard input, nor with what is not understood', async () => {
    const ended = await run(['check', '-', '--watch'], { stdin: soundKit });
    expect([ended.code, ended.stderr]).toEqual([2, expect.stringContaining('error C28')]);
    const wrong = await run(['check', kit, '--watch', '--with', 'card'], { files: { [kit]: soundKit } });
    expect([wrong.code, wrong.stderr]).toEqual([2, expect.stringContaining('error C26')]);
  });
});
