import { ExitCode } from './exitCode.ts';
import type { Voice } from './voice.ts';
import { type FileTrouble, isTrouble, type Watch, type World } from './world.ts';

/** Saving is over when nothing has changed for so long; an editor may write in several steps. */
const quietMs = 15;
/** Whoever writes on and on is not waited for. */
const longestMs = 60;

/**
 * Runs a command, and again whenever a file that it has read, or looked for, holds something else. Ends with
 * a signal.
 *
 * @param run  the command, in a world that notes what it reads
 */
export async function watching(
  run: (world: World) => Promise<ExitCode>,
  voice: Voice,
  world: World,
): Promise<ExitCode> {
  const watch = world.watch();
  // All along, also between two looks: whoever sees an answer may press Ctrl-C at once.
  const release = world.signals.listen();
  try {
    for (;;) {
      const seen = new Map<string, Read>();
      await run(noting(world, seen));
      watch.follow([...seen.keys()]);
      await voice.aside(`watching ${listed([...seen.keys()])}; Ctrl-C ends`);
      const changed = await change(seen, watch, world);
      if (changed === 'signal') return await ended(voice, world);
      await announce(changed, voice, world);
    }
  } finally {
    release();
    watch.close();
  }
}

type Read = Uint8Array | FileTrouble;

/** The same world, in which it is known what was read. */
function noting(world: World, seen: Map<string, Read>): World {
  const read = (path: string): Read => {
    const found = world.files.read(path);
    seen.set(path, found);
    return found;
  };
  return { ...world, files: { ...world.files, read } };
}

/** The first file that holds something else than what was seen, once whoever writes it is done. */
async function change(
  seen: ReadonlyMap<string, Read>,
  watch: Watch,
  world: World,
): Promise<string | 'signal'> {
  for (;;) {
    // Looked at before waiting too: it may have changed while the command ran.
    const changed = [...seen].find(([path, before]) => !isSame(before, world.files.read(path)));
    if (changed === undefined) {
      if ((await watch.next()) === 'signal') return 'signal';
    }
    if ((await calm(watch, world)) === 'signal') return 'signal';
    const isHalfWritten = [...seen].some(
      ([path, before]) => !isNothing(before) && isNothing(world.files.read(path)),
    );
    if (isHalfWritten && (await watch.next(longestMs)) === 'signal') return 'signal';
    const after = [...seen].find(([path, before]) => !isSame(before, world.files.read(path)));
    if (after !== undefined) return after[0];
  }
}

async function calm(watch: Watch, { clock }: World): Promise<'signal' | 'calm'> {
  const started = clock.nowMs();
  for (;;) {
    const next = await watch.next(quietMs);
    if (next === 'signal') return 'signal';
    if (next === 'quiet' || clock.nowMs() - started >= longestMs) return 'calm';
  }
}

/** A file that has just been taken away or emptied is about to be written, as a rule. */
function isNothing(read: Read): boolean {
  return isTrouble(read) || read.length === 0;
}

function isSame(a: Read, b: Read): boolean {
  if (isTrouble(a) || isTrouble(b)) return isTrouble(a) && isTrouble(b) && a.reason === b.reason;
  return a.length === b.length && a.every((byte, index) => byte === b[index]);
}

/** A terminal begins anew; elsewhere a line parts one run from the next. */
async function announce(path: string, voice: Voice, { stdout }: World): Promise<void> {
  await voice.product(`${stdout.isTerminal ? clearScreen : '\n'}${path} has changed\n`);
}

const clearScreen = '\x1b[2J\x1b[H';

async function ended(voice: Voice, { signals }: World): Promise<ExitCode> {
  await voice.aside('');
  return signals.received() === 'SIGTERM' ? ExitCode.terminated : ExitCode.interrupted;
}

function listed(paths: readonly string[]): string {
  const [first = 'nothing', ...others] = paths;
  return others.length === 0 ? first : `${first} and ${others.length} more`;
}
