import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

/**
 * Whole runs on a real disk, killed by the system at each of their steps on files, one after the other: whatever
 * is left has to be whole, and the next run has to go on from it.
 *
 * Source: rename(2) and link(2), POSIX.1-2017: each is done whole or not at all, for whoever looks.
 */

const bin = fileURLToPath(new URL('../../bin/cardwright.js', import.meta.url));
const scratch = mkdtempSync(join(tmpdir(), 'cardwright-killed-'));
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

/** Kills its own process right before the step on files that is counted down to; else says how many there were. */
const killer = join(scratch, 'killer.mjs');
writeFileSync(
  killer,
  `import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
let left = Number(process.env.KILL_AT ?? 0);
let steps = 0;
for (const name of ['openSync', 'writeSync', 'fsyncSync', 'renameSync', 'linkSync', 'unlinkSync', 'rmSync']) {
  const real = fs[name];
  fs[name] = (...args) => {
    const isOurs = name !== 'openSync' || (args[1] !== undefined && args[1] !== 'r');
    if (isOurs) steps++;
    if (isOurs && left > 0 && --left === 0) process.kill(process.pid, 'SIGKILL');
    return real(...args);
  };
}
syncBuiltinESMExports();
process.on('exit', () => { if (process.env.COUNT) fs.writeFileSync(process.env.COUNT, String(steps)); });
`,
);

const session = `cardwright: session
units: in
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [16, 12] }] }
loose: { floor: { of: card, size: [3, 3], count: 9, takes: { disc magnet: 2 } } }
fittings: { disc magnet: { pack: 10 } }
drawer: drawer.yaml
cutting: { worth keeping: [3, 2] }
`;
const drawer = `cardwright: drawer
units: in
fittings: { disc magnet: 11 }
sheets:
  card:
    - { size: [16, 12], count: 2 }  # behind the door
offcuts:
  card: [{ size: [8, 2], label: G1 }]
`;

function run(folder: string, argv: readonly string[], environment: Readonly<Record<string, string>> = {}) {
  return spawnSync(process.execPath, ['--import', killer, bin, ...argv], {
    cwd: folder,
    encoding: 'utf8',
    env: { ...process.env, ...environment },
  });
}

/** A folder like this one, for a run of its own. */
function copied(from: string, name: string): string {
  const folder = join(scratch, name);
  mkdirSync(folder);
  for (const it of readdirSync(from)) copyFileSync(join(from, it), join(folder, it));
  return folder;
}

const textIn = (folder: string, file: string): string => readFileSync(join(folder, file), 'utf8');
const start = join(scratch, 'start');
let cut = '';

beforeAll(() => {
  mkdirSync(start);
  writeFileSync(join(start, 'evening.yaml'), session);
  writeFileSync(join(start, 'drawer.yaml'), drawer);
  expect(run(start, ['cut', 'evening.yaml', '--job', 'evening.json']).status).toBe(0);
  cut = copied(start, 'cut');
  expect(run(cut, ['job', 'evening.json', '--cut', 'all']).status).toBe(0);
});

/** How many steps on files a run takes. */
function stepsOf(folder: string, argv: readonly string[]): number {
  const counter = join(scratch, 'count');
  const ran = run(folder, argv, { COUNT: counter });
  expect(ran.status, ran.stderr).toBe(0);
  return Number(readFileSync(counter, 'utf8'));
}

describe('a run that is killed at any step', () => {
  it('of putting away leaves drawer, job and journal whole, and the next run goes on from there', () => {
    const argv = ['job', 'evening.json', '--put-away'];
    const whole = copied(cut, 'whole');
    const steps = stepsOf(whole, argv);
    expect(steps).toBeGreaterThan(15);
    const [before, after] = [textIn(cut, 'drawer.yaml'), textIn(whole, 'drawer.yaml')];
    expect(after).toContain('label: keep 1');
    // Source: computed: 18 magnets are taken, of 11 and a pack of 10.
    expect(after).toContain('disc magnet: 3');
    let seen = { before: 0, after: 0 };
    for (let at = 1; at <= steps; at++) {
      const folder = copied(cut, `put-${at}`);
      expect(run(folder, argv, { KILL_AT: `${at}` }).signal).toBe('SIGKILL');
      const now = textIn(folder, 'drawer.yaml');
      expect([before, after]).toContain(now);
      seen = now === before ? { ...seen, before: seen.before + 1 } : { ...seen, after: seen.after + 1 };
      JSON.parse(textIn(folder, 'evening.json'));

      // Nothing is done twice, and nothing is lost: the next run finishes it, or finds it done.
      const next = run(folder, argv);
      const isFound = next.stdout === 'put away: the run that was interrupted had done it\n';
      if (next.status === 1)
        expect(run(folder, ['job', 'evening.json']).stdout).toContain('cut and put away');
      else if (isFound) expect([at, next.status]).toEqual([at, 0]);
      else expect([at, next.status, next.stderr]).toEqual([at, 0, '']);
      expect(textIn(folder, 'drawer.yaml')).toBe(after);
      expect(run(folder, ['job', 'evening.json', '--undo']).status).toBe(0);
      expect(textIn(folder, 'drawer.yaml')).toBe(before);
      expect(existsSync(join(folder, 'drawer.yaml.lock'))).toBe(false);
      rmSync(folder, { recursive: true });
    }
    expect(seen.before).toBeGreaterThan(5);
    expect(seen.after).toBeGreaterThan(3);
  }, 300_000);

  it('of cutting and putting away at once does neither of them twice, nor one without the other', () => {
    const argv = ['job', 'evening.json', '--cut', 'all', '--put-away'];
    const whole = copied(start, 'at once');
    const steps = stepsOf(whole, argv);
    const [before, after] = [textIn(start, 'drawer.yaml'), textIn(whole, 'drawer.yaml')];
    // Every second step is enough: each step alone is gone through above.
    for (let at = 1; at <= steps; at += 2) {
      const folder = copied(start, `once-${at}`);
      expect(run(folder, argv, { KILL_AT: `${at}` }).signal).toBe('SIGKILL');
      const isAway = textIn(folder, 'drawer.yaml') === after;
      if (!isAway) expect(textIn(folder, 'drawer.yaml')).toBe(before);
      // What is put away is cut, for whoever looks first.
      const state = run(copied(folder, `look-${at}`), ['job', 'evening.json']).stdout;
      expect([at, state.includes('cut and put away'), state.includes('to cut')]).toEqual([
        at,
        isAway,
        !isAway,
      ]);
      const again = run(folder, argv);
      const wasWritten = again.stderr.includes('K25');
      expect([at, again.status]).toEqual([at, wasWritten ? 1 : 0]);
      expect(textIn(folder, 'drawer.yaml')).toBe(after);
      expect(run(folder, ['job', 'evening.json', '--undo']).status).toBe(0);
      expect(textIn(folder, 'drawer.yaml')).toBe(before);
      rmSync(folder, { recursive: true });
    }
  }, 600_000);

  it('of changing the drawer leaves the old one or the new one, and the next clears away what lies beside it', () => {
    const argv = ['drawer', 'drawer.yaml', '--take', 'G1'];
    const whole = copied(start, 'taken');
    const steps = stepsOf(whole, argv);
    const texts = [drawer, textIn(whole, 'drawer.yaml')];
    const beside = (folder: string): readonly string[] =>
      readdirSync(folder).filter((it) => it.endsWith('.part') || it.includes('.lock'));
    const left = new Set<string>();
    for (let at = 1; at <= steps; at++) {
      const folder = copied(start, `take-${at}`);
      expect(run(folder, argv, { KILL_AT: `${at}` }).signal).toBe('SIGKILL');
      expect(texts).toContain(textIn(folder, 'drawer.yaml'));
      for (const it of beside(folder)) left.add(it.replace(/\d+\.part$/u, ''));
      const next = run(folder, argv);
      expect([0, 1]).toContain(next.status);
      expect(beside(folder), `killed at step ${at}`).toEqual([]);
      expect(textIn(folder, 'drawer.yaml')).toBe(texts[1]);
      expect(run(folder, ['drawer', 'drawer.yaml', '--undo']).status).toBe(0);
      expect(textIn(folder, 'drawer.yaml')).toBe(drawer);
      rmSync(folder, { recursive: true });
    }
    expect(
      left.size,
      'the lock, what it is made from, and parts of drawer and journal',
    ).toBeGreaterThanOrEqual(4);
  }, 300_000);
});

describe('what a run has begun beside a drawer', () => {
  it('stays where the run that has begun it lives, or is of another computer', async () => {
    const folder = copied(start, 'alive');
    const { hostname } = await import('node:os');
    const host = hostname()
      .replaceAll(/[^A-Za-z0-9-]/gu, '-')
      .slice(0, 40);
    const names = [
      `drawer.yaml.lock.${host}.${process.pid}.part`,
      'drawer.yaml.lock.elsewhere.4194304.part',
      `.drawer.yaml.${process.pid}.part`,
      '.another.yaml.4194304.part',
    ];
    for (const it of names) writeFileSync(join(folder, it), '');
    writeFileSync(join(folder, `drawer.yaml.lock.${host}.4194304.part`), '');
    expect(run(folder, ['drawer', 'drawer.yaml', '--take', 'G1']).status).toBe(0);
    expect(readdirSync(folder).filter((it) => it.endsWith('.part'))).toEqual(names.sort());
  });
});

describe('two runs at once', () => {
  it('are kept apart: one changes the drawer, the other says who holds it', async () => {
    const folder = copied(start, 'twice');
    writeFileSync(
      join(folder, 'drawer.yaml.lock'),
      `${process.pid} ${(await import('node:os')).hostname()}\n`,
    );
    const ran = run(folder, ['drawer', 'drawer.yaml', '--take', 'G1']);
    expect(ran.status).toBe(3);
    expect(ran.stderr).toContain(`K40: "drawer.yaml" is being changed by process ${process.pid}`);
    expect(textIn(folder, 'drawer.yaml')).toBe(drawer);
    // Of a process that has ended, and of one on another computer.
    writeFileSync(join(folder, 'drawer.yaml.lock'), `4194304 ${(await import('node:os')).hostname()}\n`);
    expect(run(folder, ['drawer', 'drawer.yaml', '--take', 'G1']).status).toBe(0);
    writeFileSync(join(folder, 'drawer.yaml.lock'), '1 elsewhere\n');
    expect(run(folder, ['drawer', 'drawer.yaml', '--undo']).status).toBe(3);
  });
});

describe('a drawer behind a link', () => {
  it('has one journal, by whichever name it is called', () => {
    const folder = copied(start, 'linked');
    mkdirSync(join(folder, 'kept'));
    renameSync(join(folder, 'drawer.yaml'), join(folder, 'kept/drawer.yaml'));
    symlinkSync('kept/drawer.yaml', join(folder, 'drawer.yaml'));
    expect(run(folder, ['drawer', 'drawer.yaml', '--take', 'G1']).status).toBe(0);
    expect(readdirSync(folder).sort()).toEqual(['drawer.yaml', 'evening.json', 'evening.yaml', 'kept']);
    expect(readdirSync(join(folder, 'kept')).sort()).toEqual(['drawer.yaml', 'drawer.yaml.journal']);
    expect(run(folder, ['drawer', 'kept/drawer.yaml', '--undo']).status).toBe(0);
    expect(textIn(folder, 'kept/drawer.yaml')).toBe(drawer);
    expect(readlinkSync(join(folder, 'drawer.yaml'))).toBe('kept/drawer.yaml');
  });

  it('is begun where the link leads, with its lock and its journal, when nothing lies there yet', () => {
    const folder = join(scratch, 'dangling');
    mkdirSync(join(folder, 'kept'), { recursive: true });
    symlinkSync('kept/mine.yaml', join(folder, 'one.yaml'));
    symlinkSync('one.yaml', join(folder, 'drawer.yaml'));
    expect(run(folder, ['drawer', 'drawer.yaml', '--add', 'card: 3 x 2 in']).status).toBe(0);
    expect(readlinkSync(join(folder, 'drawer.yaml'))).toBe('one.yaml');
    expect(readlinkSync(join(folder, 'one.yaml'))).toBe('kept/mine.yaml');
    expect(readdirSync(folder).sort()).toEqual(['drawer.yaml', 'kept', 'one.yaml']);
    expect(readdirSync(join(folder, 'kept')).sort()).toEqual(['mine.yaml', 'mine.yaml.journal']);
    expect(run(folder, ['drawer', 'one.yaml', '--undo']).status).toBe(0);
  });

  it('is refused where the link leads into no folder, or in a circle', () => {
    const folder = join(scratch, 'circle');
    mkdirSync(folder);
    symlinkSync('none/mine.yaml', join(folder, 'drawer.yaml'));
    symlinkSync('b.yaml', join(folder, 'a.yaml'));
    symlinkSync('a.yaml', join(folder, 'b.yaml'));
    const nowhere = run(folder, ['drawer', 'drawer.yaml', '--add', 'card: 3 x 2 in']);
    expect([nowhere.status, nowhere.stderr]).toEqual([3, expect.stringContaining('C42')]);
    const circle = run(folder, ['drawer', 'a.yaml', '--add', 'card: 3 x 2 in']);
    expect([circle.status, circle.stderr]).toEqual([
      3,
      expect.stringContaining('its links lead in a circle'),
    ]);
    expect(readdirSync(folder).sort()).toEqual(['a.yaml', 'b.yaml', 'drawer.yaml']);
    expect(readlinkSync(join(folder, 'drawer.yaml'))).toBe('none/mine.yaml');
  });
});

describe('a drawer that only its owner may read', () => {
  it.skipIf(process.platform === 'win32')('has a journal that only its owner may read', () => {
    const folder = copied(start, 'private');
    chmodSync(join(folder, 'drawer.yaml'), 0o600);
    expect(run(folder, ['drawer', 'drawer.yaml', '--take', 'G1']).status).toBe(0);
    expect(run(folder, ['drawer', 'drawer.yaml', '--undo']).status).toBe(0);
    for (const it of ['drawer.yaml', 'drawer.yaml.journal'])
      expect(statSync(join(folder, it)).mode & 0o777).toBe(0o600);
  });
});
