import { readFileSync } from 'node:fs';
import { main } from '../../src/cli/main.ts';
import type { Signal, World } from '../../src/cli/world.ts';

/** What may be said of the world that a command runs in; the rest is an empty folder and no terminal. */
export interface Setting {
  readonly files?: Readonly<Record<string, string | Uint8Array>>;
  readonly stdin?: string;
  readonly environment?: Readonly<Record<string, string>>;
  readonly terminal?: { readonly stdout?: boolean; readonly stderr?: boolean; readonly columns?: number };
  /** Arrives at the first turn of the event loop. */
  readonly signal?: Signal;
  /** Paths, or folders of paths, that can't be written, each with the reason. */
  readonly unwritable?: Readonly<Record<string, string>>;
  /** Makes the first reading of a file throw. */
  readonly bug?: boolean;
  /** Standard output takes nothing. */
  readonly full?: boolean;
  /** Another program saves these files right after they were first read. */
  readonly savedMeanwhile?: Readonly<Record<string, string>>;
  /** What the program calls itself. */
  readonly version?: string;
  /** What the clock goes on by at each look. */
  readonly tickMs?: number;
  /** What happens while a command waits: files that are written (undefined: taken away). Then comes Ctrl-C. */
  readonly later?: readonly Happening[];
}

export interface Happening {
  /** Since the command began to wait for the first time. */
  readonly atMs: number;
  readonly files: Readonly<Record<string, string | undefined>>;
}

export interface Ran {
  readonly code: number;
  readonly stdout: string;
  readonly stderr: string;
  readonly bytes: Uint8Array;
  /** The folder as the run left it. */
  readonly files: ReadonlyMap<string, Uint8Array>;
  text(path: string): string;
}

/** Runs a whole command line in memory. */
export async function run(argv: readonly string[], setting: Setting = {}): Promise<Ran> {
  const files = new Map(Object.entries(setting.files ?? {}).map(([path, it]) => [clean(path), bytesOf(it)]));
  const out: Uint8Array[] = [];
  const err: Uint8Array[] = [];
  const code = await main(argv, worldOf(setting, files, out, err));
  const bytes = joined(out);
  return {
    code,
    bytes,
    stdout: textOf(bytes),
    stderr: textOf(joined(err)),
    files,
    text: (path) => textOf(files.get(clean(path)) ?? new Uint8Array()),
  };
}

function worldOf(
  setting: Setting,
  files: Map<string, Uint8Array>,
  out: Uint8Array[],
  err: Uint8Array[],
): World {
  const { terminal = {}, tickMs = 1 } = setting;
  let nowMs = 0;
  let turned = false;
  const meanwhile = new Map(Object.entries(setting.savedMeanwhile ?? {}));
  const isFolder = (path: string): boolean =>
    path === '.' || [...files.keys()].some((it) => it.startsWith(`${path}/`));
  const kindOf = (path: string) =>
    files.has(clean(path)) ? 'file' : isFolder(clean(path)) ? 'folder' : 'nothing';
  const refusal = (path: string) => {
    const isIn = (folder: string): boolean => folder === '' || `${clean(path)}/`.startsWith(`${folder}/`);
    const reason = Object.entries(setting.unwritable ?? {}).find(([it]) => isIn(it))?.[1];
    if (reason !== undefined) return { kind: 'unreadable', reason } as const;
    if (kindOf(path) === 'folder') return { kind: 'folder', reason: 'it is a folder' } as const;
    const folder = clean(path).split('/').slice(0, -1).join('/') || '.';
    return isFolder(folder) ? undefined : ({ kind: 'missing', reason: 'there is no such folder' } as const);
  };
  return {
    files: {
      kindOf,
      behindLinks: (path) => path,
      isSame: (path, other) => clean(path) === clean(other),
      refusal,
      read: (path) => {
        if (setting.bug) throw new TypeError('the sky fell down');
        const found = files.get(clean(path));
        const saved = meanwhile.get(clean(path));
        if (saved !== undefined) files.set(clean(path), bytesOf(saved));
        meanwhile.delete(clean(path));
        if (found !== undefined) return found;
        return isFolder(clean(path))
          ? { kind: 'folder', reason: 'it is a folder' }
          : { kind: 'missing', reason: 'there is no such file or folder' };
      },
      write: (path, bytes) => {
        const trouble = refusal(path);
        if (trouble === undefined) files.set(clean(path), bytes);
        return trouble;
      },
      namesIn: (path) => {
        const inside = [...files.keys()].filter((it) => it.startsWith(`${clean(path)}/`));
        return [...new Set(inside.map((it) => it.slice(clean(path).length + 1).split('/')[0] ?? ''))].sort();
      },
      writeFolder: function* (path, contents) {
        const trouble = refusal(path);
        if (trouble !== undefined && trouble.kind !== 'folder') return trouble;
        for (const it of files.keys()) if (it.startsWith(`${clean(path)}/`)) files.delete(it);
        yield;
        for (const { name, bytes } of contents) files.set(`${clean(path)}/${name}`, bytes);
        return undefined;
      },
      lock: (path) => {
        const lockPath = `${clean(path)}.lock`;
        const trouble = refusal(lockPath);
        if (trouble !== undefined && trouble.kind !== 'missing') return trouble;
        if (files.has(lockPath)) return { kind: 'held', by: textOf(files.get(lockPath)!).trim(), lockPath };
        files.set(lockPath, bytesOf('this run'));
        return { kind: 'locked', release: () => files.delete(lockPath) };
      },
      shipped: (path) => readFileSync(new URL(`../../${path}`, import.meta.url)),
    },
    stdin: (async function* () {
      yield bytesOf(setting.stdin ?? '');
    })(),
    stdout: setting.full ? fullSink() : sinkOf(out, terminal.stdout ?? false, terminal.columns),
    stderr: sinkOf(err, terminal.stderr ?? false, terminal.columns),
    environment: { LC_ALL: 'C.UTF-8', ...setting.environment },
    about: { version: setting.version ?? '1.2.3', node: 'v20.19.0', platform: 'test-cpu' },
    clock: {
      nowMs: () => {
        nowMs += tickMs;
        return nowMs;
      },
      turn: async () => {
        turned = true;
      },
    },
    signals: {
      listen: () => () => {},
      received: () => (turned ? setting.signal : undefined),
      breakable: (run) => ({ value: run() }),
      onArrival: () => {},
    },
    watch: () => watchOf(setting.later ?? [], files),
  };
}

/** Its own time goes on only while somebody waits. */
function watchOf(later: readonly Happening[], files: Map<string, Uint8Array>): ReturnType<World['watch']> {
  const coming = [...later];
  let followed: readonly string[] = [];
  let nowMs = 0;
  return {
    follow: (paths) => {
      followed = paths.map(clean);
    },
    next: async (mostMs = Number.POSITIVE_INFINITY) => {
      const until = nowMs + mostMs;
      for (let next = coming[0]; next !== undefined && next.atMs <= until; next = coming[0]) {
        coming.shift();
        nowMs = next.atMs;
        for (const [path, text] of Object.entries(next.files)) {
          if (text === undefined) files.delete(clean(path));
          else files.set(clean(path), bytesOf(text));
        }
        if (Object.keys(next.files).some((path) => followed.includes(clean(path)))) return 'change';
      }
      nowMs = until;
      return until === Number.POSITIVE_INFINITY ? 'signal' : 'quiet';
    },
    close: () => {},
  };
}

function sinkOf(chunks: Uint8Array[], isTerminal: boolean, columns: number | undefined): World['stdout'] {
  return {
    write: async (chunk) => {
      chunks.push(bytesOf(chunk));
    },
    isTerminal,
    columns: isTerminal ? columns : undefined,
    isClosed: false,
    trouble: undefined,
  };
}

function fullSink(): World['stdout'] {
  let trouble: string | undefined;
  return {
    write: async () => {
      trouble = 'no space is left on the disk';
    },
    isTerminal: false,
    columns: undefined,
    isClosed: false,
    get trouble() {
      return trouble;
    },
  };
}

function clean(path: string): string {
  const parts: string[] = [];
  for (const it of path.split('/')) {
    if (it === '..') parts.pop();
    else if (it !== '.' && it !== '') parts.push(it);
  }
  return parts.join('/') || '.';
}

function bytesOf(text: string | Uint8Array): Uint8Array {
  return typeof text === 'string' ? new TextEncoder().encode(text) : text;
}

function textOf(bytes: Uint8Array): string {
  return new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
}

function joined(chunks: readonly Uint8Array[]): Uint8Array {
  return Buffer.concat(chunks);
}

/** A kit without a fault, of one tile. */
export const soundKit = `cardwright: kit
units: in
grid: { square: 3 }
materials: { card: { thickness: 1/16 } }
sheets: { card: [{ size: [12, 9] }] }
tiles:
  floor: { parts: { top: { of: card, size: [square, square] } } }
`;

/** Two misspelt keys, at 3:9 and 4:1. */
export const brokenKit = 'cardwright: kit\nunits: in\ngrid: { sqaure: 3 }\ntiels: {}\n';
