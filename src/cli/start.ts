import { ExitCode } from './exitCode.ts';
import { main } from './main.ts';
import { nodeWorld } from './nodeWorld.ts';

declare const __CARDWRIGHT_VERSION__: string;

/** Called by `bin/cardwright.js`. Sets the exit code and lets the process end by itself, so that nothing is cut off. */
export async function start(): Promise<void> {
  const world = nodeWorld(__CARDWRIGHT_VERSION__);
  const end = await main(process.argv.slice(2), world);
  // What was said is written by now. To take all memory down piece by piece lasts longer than the rest of the answer.
  if (end === ExitCode.interrupted || end === ExitCode.terminated) process.exit(end);
  process.exitCode = end;
}
