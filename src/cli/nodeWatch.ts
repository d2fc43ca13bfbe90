import { type FSWatcher, realpathSync, statSync, watch } from 'node:fs';
import { basename, dirname, resolve } from 'node:path';
import type { Signals, Watch } from './world.ts';

/**
 * Looks at folders instead of files: an editor that saves by putting a new file in the place of the old one
 * leaves whoever looks at the old one behind, and a file that is not there yet can't be looked at.
 */
export function nodeWatch(signals: Signals): Watch {
  const eyes = new Map<string, Eye>();
  let hasChanged = false;
  let wake = (): void => {};
  const tell = (): void => {
    hasChanged = true;
    wake();
  };
  signals.onArrival(() => wake());

  return {
    follow: (paths) => {
      const wanted = namesByFolder(paths);
      for (const [folder, eye] of eyes) {
        if (wanted.has(folder) && eye.identity === identityOf(folder)) continue;
        eye.close();
        eyes.delete(folder);
      }
      for (const [folder, names] of wanted) {
        const eye = eyes.get(folder);
        if (eye === undefined) eyes.set(folder, eyeOn(folder, names, tell));
        else eye.names = names;
      }
    },
    next: (mostMs) =>
      new Promise((done) => {
        let timer: NodeJS.Timeout | undefined;
        wake = () => {
          const signal = signals.received();
          if (signal === undefined && !hasChanged) return;
          clearTimeout(timer);
          wake = () => {};
          if (signal === undefined) hasChanged = false;
          done(signal === undefined ? 'change' : 'signal');
        };
        if (mostMs !== undefined) {
          timer = setTimeout(() => {
            wake = () => {};
            done('quiet');
          }, mostMs);
        }
        wake();
      }),
    close: () => {
      for (const eye of eyes.values()) eye.close();
      eyes.clear();
    },
  };
}

interface Eye {
  /** Names in the folder that matter. */
  names: ReadonlySet<string>;
  /** Of the folder itself: another may come to lie at its path. */
  readonly identity: string;
  close(): void;
}

function eyeOn(folder: string, names: ReadonlySet<string>, tell: () => void): Eye {
  let closeIt = (): void => {};
  const eye: Eye = { names, identity: identityOf(folder), close: () => closeIt() };
  // Where the system has no more eyes to give, or lost this one, files are looked at by turns.
  const byTurns = (): void => {
    closeIt();
    const timer = setInterval(tell, turnMs);
    closeIt = () => clearInterval(timer);
  };
  try {
    const watcher: FSWatcher = watch(folder, (_, name) => {
      if (name === null || eye.names.has(name)) tell();
    });
    closeIt = () => watcher.close();
    watcher.on('error', byTurns);
  } catch {
    byTurns();
  }
  return eye;
}

const turnMs = 100;

/** Where a link leads is looked at as well; of a folder that is missing, the one that it would lie in. */
function namesByFolder(paths: readonly string[]): ReadonlyMap<string, ReadonlySet<string>> {
  const byFolder = new Map<string, Set<string>>();
  const note = (path: string): void => {
    let [folder, name] = [dirname(path), basename(path)];
    while (identityOf(folder) === missing && dirname(folder) !== folder) {
      [folder, name] = [dirname(folder), basename(folder)];
    }
    const names = byFolder.get(folder) ?? new Set();
    byFolder.set(folder, names.add(name));
  };
  for (const path of paths.map((it) => resolve(it))) {
    note(path);
    try {
      note(realpathSync(path));
    } catch {} // nothing lies there, so no link does
  }
  return byFolder;
}

const missing = 'missing';

function identityOf(folder: string): string {
  const found = statSync(folder, { throwIfNoEntry: false });
  return found === undefined ? missing : `${found.dev}:${found.ino}`;
}
