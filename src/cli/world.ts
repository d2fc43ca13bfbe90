/**
 * All that a command can reach outside itself. Handed in, so that a test runs whole commands in memory.
 */
export interface World {
  readonly files: Files;
  readonly stdin: AsyncIterable<Uint8Array>;
  readonly stdout: Sink;
  readonly stderr: Sink;
  readonly environment: Readonly<Record<string, string | undefined>>;
  readonly about: About;
  readonly clock: Clock;
  readonly signals: Signals;
  /** Opens an eye on files that may change while a command waits. */
  watch(): Watch;
}

export interface About {
  readonly version: string;
  readonly node: string;
  readonly platform: string;
}

export interface Files {
  /** What lies at a path, links followed. */
  kindOf(path: string): 'file' | 'folder' | 'device' | 'nothing';
  /** True where both paths lead to the same file, or to the same place for one. */
  isSame(path: string, other: string): boolean;
  read(path: string): Uint8Array | FileTrouble;
  /** Where a link leads, however often; any other path as it is. */
  behindLinks(path: string): string;
  /** Why nothing could be written at a path, as far as that can be told without trying. */
  refusal(path: string): FileTrouble | undefined;
  /**
   * Whole or not at all: until the last moment the old file stays what it was. A new one gets the rights of the file
   * that it is to be like.
   */
  write(path: string, bytes: Uint8Array, like?: string): FileTrouble | undefined;
  /** The names in a folder; none where there is no folder. */
  namesIn(path: string): readonly string[];
  /**
   * A folder of these files and no others: whole or not at all, and what it held before is gone. Pauses after each
   * file; if it is not gone on with, it takes back what it began.
   */
  writeFolder(path: string, files: readonly NamedBytes[]): Generator<undefined, FileTrouble | undefined>;
  /**
   * Keeps other runs away from a file, which need not be there, until it is released. A lock that a run which died
   * has left is taken over.
   */
  lock(path: string): Lock | HeldLock | FileTrouble;
  /** A file that ships with the program, by its path in the package. */
  shipped(path: string): Uint8Array;
}

export interface NamedBytes {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export interface Lock {
  readonly kind: 'locked';
  release(): void;
}

/** Another run has the file. */
export interface HeldLock {
  readonly kind: 'held';
  /** Whose it is, as far as it says. */
  readonly by: string;
  /** The file that says so. */
  readonly lockPath: string;
}

/** Why a file could not be had; `reason` is a few words, e.g. `there is no such file`. */
export interface FileTrouble {
  readonly kind: 'missing' | 'folder' | 'unreadable';
  readonly reason: string;
}

export function isTrouble(read: Uint8Array | FileTrouble | undefined): read is FileTrouble {
  return read !== undefined && 'reason' in read;
}

export interface Sink {
  write(chunk: string | Uint8Array): Promise<void>;
  readonly isTerminal: boolean;
  /** Undefined where it is no terminal, or one that does not say. */
  readonly columns: number | undefined;
  /** True once whoever read it has gone. */
  readonly isClosed: boolean;
  /** Why it takes no more, in a few words; undefined while nothing is wrong. */
  readonly trouble: string | undefined;
}

/** For progress and for letting signals in; no result depends on it. */
export interface Clock {
  nowMs(): number;
  /** A turn of the event loop. */
  turn(): Promise<void>;
}

export interface Watch {
  /** Looks at these paths from here on, whether a file lies there yet or not; others are let go. */
  follow(paths: readonly string[]): void;
  /** Waits until something may have changed at one of them, or a signal has come; at most so long, if said. */
  next(mostMs?: number): Promise<'change' | 'signal' | 'quiet'>;
  close(): void;
}

export type Signal = 'SIGINT' | 'SIGTERM';

/** A signal ends the process by itself, which leaves nothing behind, as long as nobody listens. */
export interface Signals {
  /** Signals are taken down from here on, until the function that is returned is called. */
  listen(): () => void;
  received(): Signal | undefined;
  /**
   * Runs what may take long without letting signals in. SIGINT breaks it off at once, wherever it is, and is then
   * received; so it may only work things out, and must not be gone on with. Listeners are put off meanwhile, and what
   * came before without a turn of the event loop since is lost to them: take one first.
   *
   * @returns  undefined where it was broken off
   */
  breakable<T>(run: () => T): { readonly value: T } | undefined;
  /** Called as soon as one arrives, also while nothing else goes on. */
  onArrival(tell: () => void): void;
}
