import {
  accessSync,
  closeSync,
  constants,
  fstatSync,
  fsyncSync,
  linkSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  readSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  unlinkSync,
  writeSync,
} from 'node:fs';
import { hostname } from 'node:os';
import { basename, dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Script } from 'node:vm';
import { nodeWatch } from './nodeWatch.ts';
import type {
  Files,
  FileTrouble,
  HeldLock,
  Lock,
  NamedBytes,
  Signal,
  Signals,
  Sink,
  World,
} from './world.ts';

/** The world as it is: this process, this disk. */
export function nodeWorld(version: string): World {
  const signals = signalsOf();
  return {
    files: undisturbed(signals),
    // Streams are opened when they are first used: each costs milliseconds that --help does not have.
    get stdin() {
      return process.stdin;
    },
    stdout: sinkOf(() => process.stdout),
    stderr: sinkOf(() => process.stderr),
    environment: process.env,
    about: { version, node: process.version, platform: `${process.platform}-${process.arch}` },
    clock: {
      // What `performance` needs would have to be loaded first.
      nowMs: () => process.uptime() * 1000,
      turn: () => new Promise((resolve) => setImmediate(resolve)),
    },
    signals,
    watch: () => nodeWatch(signals),
  };
}

const files: Files = {
  kindOf,
  behindLinks,
  isSame: (path, other) => {
    try {
      const [a, b] = [statSync(path), statSync(other)];
      return a.isFile() && a.dev === b.dev && a.ino === b.ino;
    } catch {
      return placeOf(path) === placeOf(other);
    }
  },
  read,
  refusal,
  write,
  namesIn,
  writeFolder,
  lock,
  shipped: (path) => readFileSync(join(packageFolder, path)),
};

/** A file that is begun is finished, and nothing is left beside it: for that short time signals come too late. */
function undisturbed({ listen }: Signals): Files {
  return {
    ...files,
    write: (path, bytes) => {
      const release = listen();
      try {
        return write(path, bytes);
      } finally {
        release();
      }
    },
  };
}

// The bundle lies in dist/, one folder below the package's own.
const packageFolder = fileURLToPath(new URL('..', import.meta.url));

/** Where a file would be made that is not there yet. */
function placeOf(path: string): string {
  try {
    return join(realpathSync(dirname(path)), basename(path));
  } catch {
    return resolve(path); // its folder is missing too, and whoever writes there is told so
  }
}

function kindOf(path: string): ReturnType<Files['kindOf']> {
  try {
    const found = statSync(path);
    return found.isFile() ? 'file' : found.isDirectory() ? 'folder' : 'device';
  } catch {
    return 'nothing'; // whoever then reads or writes there is told why
  }
}

/** More than the language takes, so that what is too large is refused with the language's own words. */
const mostBytes = 4 * 1024 * 1024;

function read(path: string): Uint8Array | FileTrouble {
  let descriptor: number | undefined;
  try {
    descriptor = openSync(path, 'r');
    const found = fstatSync(descriptor);
    if (found.isDirectory()) return itIsAFolder;
    // One byte more than it says, to see it end; a pipe says nothing of its length.
    let buffer = Buffer.allocUnsafe(Math.min(found.size + 1, mostBytes));
    let length = 0;
    while (length < mostBytes) {
      if (length === buffer.length) {
        const larger = Buffer.allocUnsafe(Math.min(2 * length + 0x10000, mostBytes));
        buffer.copy(larger);
        buffer = larger;
      }
      const got = readSync(descriptor, buffer, length, buffer.length - length, null);
      if (got === 0) break;
      length += got;
    }
    return new Uint8Array(buffer.subarray(0, length));
  } catch (error) {
    return troubleOf(error);
  } finally {
    if (descriptor !== undefined) closeSync(descriptor);
  }
}

function behindLinks(path: string): string {
  try {
    return lstatSync(path).isSymbolicLink() ? realpathSync(path) : path;
  } catch {
    return path; // it leads nowhere; whoever reads or writes there is told why
  }
}

function refusal(path: string): FileTrouble | undefined {
  try {
    const kind = kindOf(path);
    if (kind === 'folder') return itIsAFolder;
    // What is no plain file is written to itself; all else is replaced, which its folder has to allow.
    accessSync(
      kind === 'device' ? path : dirname(kind === 'file' ? realpathSync(path) : path),
      constants.W_OK,
    );
    return kind === 'nothing' && kindOf(dirname(path)) !== 'folder'
      ? { kind: 'missing', reason: 'there is no such folder' }
      : undefined;
  } catch (error) {
    return troubleOf(error);
  }
}

/**
 * Writes beside the target and renames, so that a run which dies leaves the old file or the new one. What is
 * no plain file (a pipe, a device) is written to as it is.
 */
function write(path: string, bytes: Uint8Array): FileTrouble | undefined {
  try {
    const kind = kindOf(path);
    if (kind === 'device') writeAll(path, 'w', bytes);
    else if (kind === 'folder') return itIsAFolder;
    else
      replace(
        kind === 'file' ? realpathSync(path) : path,
        bytes,
        kind === 'file' ? statSync(path).mode : 0o666,
      );
    return undefined;
  } catch (error) {
    return troubleOf(error);
  }
}

function replace(target: string, bytes: Uint8Array, mode: number): void {
  const beside = join(dirname(target), `.${basename(target).slice(0, 100)}.${process.pid}.part`);
  // A run that was killed under the same process id may have left one behind.
  try {
    unlinkSync(beside);
  } catch {}
  try {
    writeAll(beside, 'wx', bytes, mode & 0o777);
    renameSync(beside, target);
  } catch (error) {
    try {
      unlinkSync(beside);
    } catch {}
    throw error;
  }
}

function namesIn(path: string): readonly string[] {
  try {
    return readdirSync(path).sort();
  } catch {
    return []; // whoever then writes there is told why
  }
}

/** Fills a folder beside the target and renames it; the old one steps aside first, and then goes. */
function* writeFolder(
  path: string,
  contents: readonly NamedBytes[],
): Generator<undefined, FileTrouble | undefined> {
  const target = kindOf(path) === 'folder' ? realpathSync(path) : resolve(path);
  const beside = (ending: string): string =>
    join(dirname(target), `.${basename(target).slice(0, 100)}.${process.pid}.${ending}`);
  const [filling, former] = [beside('part'), beside('old')];
  try {
    for (const it of [filling, former]) rmSync(it, { recursive: true, force: true });
    mkdirSync(filling);
    for (const { name, bytes } of contents) {
      writeAll(join(filling, name), 'wx', bytes);
      yield;
    }
    if (kindOf(target) === 'folder') renameSync(target, former);
    try {
      renameSync(filling, target);
    } catch (error) {
      if (kindOf(former) === 'folder') renameSync(former, target);
      throw error;
    }
    return undefined;
  } catch (error) {
    return troubleOf(error);
  } finally {
    for (const it of [filling, former]) rmSync(it, { recursive: true, force: true });
  }
}

function writeAll(path: string, flags: string, bytes: Uint8Array, mode = 0o666): void {
  const descriptor = openSync(path, flags, mode);
  try {
    for (let done = 0; done < bytes.length; ) done += writeSync(descriptor, bytes, done);
    if (flags === 'wx') fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
}

function lock(path: string): Lock | HeldLock | FileTrouble {
  try {
    const lockPath = `${kindOf(path) === 'file' ? realpathSync(path) : resolve(path)}.lock`;
    const mine = `${process.pid} ${hostname()}\n`;
    const locked: Lock = { kind: 'locked', release: () => releaseLock(lockPath, mine) };
    if (appears(lockPath, mine)) return locked;
    const theirs = readLock(lockPath);
    if (theirs === undefined) return appears(lockPath, mine) ? locked : held(lockPath, '');
    return isDead(theirs) && tookOver(lockPath, theirs, mine) ? locked : held(lockPath, theirs);
  } catch (error) {
    return troubleOf(error);
  }
}

/** Makes a file with all that it holds at once, or not at all where one is there: so no lock is ever half written. */
function appears(path: string, text: string): boolean {
  const beside = `${path}.${process.pid}.part`;
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
  const { pid, host } = /^(?<pid>\d+) (?<host>[^\n]*)\n$/u.exec(text)?.groups ?? {};
  if (pid === undefined || host !== hostname()) return false;
  try {
    process.kill(Number(pid), 0);
    return false;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'ESRCH';
  }
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
  const { pid, host } = /^(?<pid>\d+) (?<host>[^\n]*)\n$/u.exec(text)?.groups ?? {};
  return { kind: 'held', by: pid === undefined ? 'another run' : `process ${pid} on ${host}`, lockPath };
}

function releaseLock(path: string, mine: string): void {
  if (readLock(path) === mine) rmSync(path, { force: true });
}

const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file or folder',
  ENOTDIR: 'a part of the path is no folder',
  EISDIR: 'it is a folder',
  EACCES: 'permission is denied',
  EPERM: 'permission is denied',
  EROFS: 'the disk is read-only',
  ENOSPC: 'no space is left on the disk',
  EDQUOT: 'no space is left for this user',
  EFBIG: 'the file is too large for the disk',
  ENAMETOOLONG: 'the path is too long',
  ELOOP: 'its links lead in a circle',
  EMFILE: 'too many files are open',
  EIO: 'the disk reports a fault',
};

const itIsAFolder: FileTrouble = { kind: 'folder', reason: 'it is a folder' };

function troubleOf(error: unknown): FileTrouble {
  const code = error instanceof Error && 'code' in error ? String(error.code) : undefined;
  if (code === undefined) throw error; // no fault of the disk: a bug of ours
  const kind =
    code === 'ENOENT' || code === 'ENOTDIR' ? 'missing' : code === 'EISDIR' ? 'folder' : 'unreadable';
  return { kind, reason: reasons[code] ?? `the system says ${code}` };
}

function sinkOf(open: () => NodeJS.WriteStream): Sink {
  let isClosed = false;
  let trouble: string | undefined;
  let opened: NodeJS.WriteStream | undefined;
  const stream = (): NodeJS.WriteStream => {
    if (opened !== undefined) return opened;
    opened = open();
    opened.on('error', (error: NodeJS.ErrnoException) => {
      // Whoever read us has read enough (`| head`): nothing is wrong.
      if (error.code === 'EPIPE' || error.code === 'ERR_STREAM_DESTROYED') isClosed = true;
      else trouble ??= troubleOf(error).reason;
    });
    return opened;
  };
  return {
    write: (chunk) =>
      new Promise((resolve) => {
        if (isClosed || trouble !== undefined) resolve();
        else stream().write(chunk, () => resolve());
      }),
    get isTerminal() {
      return stream().isTTY === true;
    },
    get columns() {
      return stream().isTTY ? stream().columns : undefined;
    },
    get isClosed() {
      return isClosed;
    },
    get trouble() {
      return trouble;
    },
  };
}

function signalsOf(): Signals {
  let received: Signal | undefined;
  let listeners = 0;
  const waiting: (() => void)[] = [];
  const note = (signal: Signal): void => {
    received ??= signal;
    for (const tell of waiting) tell();
  };
  return {
    listen: () => {
      if (listeners++ === 0) for (const it of theSignals) process.on(it, note);
      return () => {
        if (--listeners === 0) for (const it of theSignals) process.off(it, note);
      };
    },
    received: () => received,
    breakable: (run) => {
      try {
        return { value: brokenOffBySigint(run) };
      } catch (error) {
        if (!isBrokenOff(error)) throw error;
        note('SIGINT');
        return undefined;
      }
    },
    onArrival: (tell) => waiting.push(tell),
  };
}

const theSignals: readonly Signal[] = ['SIGINT', 'SIGTERM'];

// Handlers are called between turns of the event loop, so what takes long has to be cut into turns, or to be broken
// off. Node breaks off nothing but a script; so a script it is that calls what is to be done.
const runsHere = 'cardwright: what is to be done';
let calling: Script | undefined;

function brokenOffBySigint<T>(run: () => T): T {
  calling ??= new Script(`globalThis[Symbol.for(${JSON.stringify(runsHere)})]()`);
  Object.assign(globalThis, { [Symbol.for(runsHere)]: run });
  return calling.runInThisContext({ breakOnSigint: true }) as T; // what `run` returns
}

function isBrokenOff(error: unknown): boolean {
  return error instanceof Error && 'code' in error && error.code === 'ERR_SCRIPT_EXECUTION_INTERRUPTED';
}
