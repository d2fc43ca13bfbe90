import {
  accessSync,
  closeSync,
  constants,
  fstatSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  readSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Script } from 'node:vm';
import { lockAt } from './nodeLock.ts';
import { nodeWatch } from './nodeWatch.ts';
import { replace, writeAll } from './wholeFile.ts';
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
    write: (path, bytes, like) => {
      const release = listen();
      try {
        return write(path, bytes, like);
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
    return lstatSync(path).isSymbolicLink() ? throughLinks(path) : path;
  } catch {
    return path; // nothing lies there; whoever reads or writes there is told why
  }
}

/** As many links in a row as systems follow. */
const mostLinks = 40;

/** Where a link leads, also where nothing lies there yet. Throws where links lead in a circle. */
function throughLinks(path: string): string {
  let at = path;
  for (let links = 0; links < mostLinks; links++) {
    if (!isLink(at)) return at === path ? path : placeOf(at);
    at = resolve(dirname(at), readlinkSync(at));
  }
  return realpathSync(path);
}

function isLink(path: string): boolean {
  try {
    return lstatSync(path).isSymbolicLink();
  } catch {
    return false;
  }
}

function refusal(path: string): FileTrouble | undefined {
  try {
    const kind = kindOf(path);
    if (kind === 'folder') return itIsAFolder;
    // What is no plain file is written to itself; all else is replaced, which its folder has to allow.
    accessSync(
      kind === 'device' ? path : dirname(kind === 'file' ? realpathSync(path) : throughLinks(path)),
      constants.W_OK,
    );
    return kind === 'nothing' && kindOf(dirname(throughLinks(path))) !== 'folder'
      ? { kind: 'missing', reason: 'there is no such folder' }
      : undefined;
  } catch (error) {
    return troubleOf(error);
  }
}

/**
 * Writes beside the target and renames, so that a run which dies leaves the old file or the new one. What is
 * no plain file (a pipe, a device) is written to as it is, and a link is written through, wherever it leads.
 *
 * @param like  a file that has the rights a new one is to have
 */
function write(path: string, bytes: Uint8Array, like?: string): FileTrouble | undefined {
  try {
    const kind = kindOf(path);
    if (kind === 'device') writeAll(path, 'w', bytes);
    else if (kind === 'folder') return itIsAFolder;
    else if (kind === 'file') replace(realpathSync(path), bytes, statSync(path).mode);
    else replace(throughLinks(path), bytes, modeLike(like));
    return undefined;
  } catch (error) {
    return troubleOf(error);
  }
}

function modeLike(path: string | undefined): number {
  return path !== undefined && kindOf(path) === 'file' ? statSync(path).mode : 0o666;
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

function lock(path: string): Lock | HeldLock | FileTrouble {
  try {
    return lockAt(kindOf(path) === 'file' ? realpathSync(path) : resolve(throughLinks(path)));
  } catch (error) {
    return troubleOf(error);
  }
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
