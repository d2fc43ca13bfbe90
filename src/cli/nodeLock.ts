import { linkSync, readdirSync, readFileSync, rmSync, unlinkSync } from 'node:fs';
import { hostname } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { shortName, writeAll } from './wholeFile.ts';
import type { HeldLock, Lock } from './world.ts';

/**
 * Keeps other runs away from a file. Throws what the disk says.
 *
 * @param path  where no link leads on
 */
export function lockAt(path: string): Lock | HeldLock {
  const lockPath = `${path}.lock`;
  const mine = `${process.pid} ${hostname()}\n`;
  const locked = (): Lock => {
    sweep(path);
    return { kind: 'locked', release: () => releaseLock(lockPath, mine) };
  };
  if (appears(lockPath, mine)) return locked();
  const theirs = readLock(lockPath);
  if (theirs === undefined) return appears(lockPath, mine) ? locked() : held(lockPath, '');
  return isDead(theirs) && tookOver(lockPath, theirs, mine) ? locked() : held(lockPath, theirs);
}

/** Makes a file with all that it holds at once, or not at all where one is there: so no lock is ever half written. */
function appears(path: string, text: string): boolean {
  const beside = `${path}.${here()}.${process.pid}.part`;
  try {
    writeAll(beside, 'w', new TextEncoder().encode(text));
    linkSync(beside, path);
    return true;
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : undefined;
    if (code === 'EEXIST') return false;
    // Some disks know no second name for a file.
    if (code !== 'EPERM' && code !== 'ENOTSUP' && code !== 'EOPNOTSUPP') throw error;
    return createdAlone(path, text);
  } finally {
    rmSync(beside, { force: true });
  }
}

function createdAlone(path: string, text: string): boolean {
  try {
    writeAll(path, 'wx', new TextEncoder().encode(text));
    return true;
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'EEXIST') return false;
    throw error;
  }
}

function readLock(path: string): string | undefined {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return undefined; // it was released just now
  }
}

/** Only a run on this machine can be known to have ended. */
function isDead(text: string): boolean {
  const { pid, host } = holderOf(text);
  return pid !== undefined && host === hostname() && isGone(pid);
}

function holderOf(text: string): { readonly pid?: string; readonly host?: string } {
  return /^(?<pid>\d+) (?<host>[^\n]*)\n$/u.exec(text)?.groups ?? {};
}

/** Of two runs that find the same dead lock, one alone takes it away. */
function tookOver(path: string, theirs: string, mine: string): boolean {
  const guard = `${path}.over`;
  if (!appears(guard, mine)) return false;
  try {
    if (readLock(path) !== theirs) return false;
    unlinkSync(path);
    return appears(path, mine);
  } finally {
    rmSync(guard, { force: true });
  }
}

function held(lockPath: string, text: string): HeldLock {
  const { pid, host } = holderOf(text);
  return { kind: 'held', by: pid === undefined ? 'another run' : `process ${pid} on ${host}`, lockPath };
}

function releaseLock(path: string, mine: string): void {
  if (readLock(path) === mine) rmSync(path, { force: true });
}

/**
 * Takes away what runs of this machine that were killed have left beside a file: whoever holds its lock is alone with
 * it, but for runs that wait for the lock, and these are alive.
 *
 *   drawer.yaml.lock.HOST.PID.part   .drawer.yaml.PID.part   .drawer.yaml.journal.PID.part   drawer.yaml.lock.over
 */
function sweep(path: string): void {
  const name = basename(path);
  const begun = new Set([
    ...[`${name}.lock`, `${name}.lock.over`].map((it) => `${it}.${here()}`),
    ...[name, `${name}.journal`].map((it) => `.${shortName(it)}`),
  ]);
  const isLeft = (found: string): boolean => {
    if (found === `${name}.lock.over`) return isDead(readLock(join(dirname(path), found)) ?? '');
    const { of, pid } = /^(?<of>.+)\.(?<pid>\d{1,10})\.part$/u.exec(found)?.groups ?? {};
    return of !== undefined && pid !== undefined && begun.has(of) && isGone(pid);
  };
  try {
    for (const it of readdirSync(dirname(path))) {
      if (isLeft(it)) rmSync(join(dirname(path), it), { force: true });
    }
  } catch {} // it is in nobody's way
}

/** This machine, as it can stand in a name of a file. */
function here(): string {
  return hostname()
    .replaceAll(/[^A-Za-z0-9-]/gu, '-')
    .slice(0, 40);
}

function isGone(pid: string): boolean {
  try {
    process.kill(Number(pid), 0);
    return false;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'ESRCH';
  }
}
