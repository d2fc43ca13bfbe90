import { newDocument, printJson } from '../../print/json/index.ts';
import type { Request } from '../arguments.ts';
import { driverOf } from '../driving.ts';
import type { ExitCode } from '../exitCode.ts';
import { exitCodeOf, fail } from '../failing.ts';
import { deliver, refusals } from '../outputs.ts';
import { shellQuoted } from '../shellQuoted.ts';
import { starterKit } from '../starterKit.ts';
import type { Voice } from '../voice.ts';
import type { World } from '../world.ts';

/** A starter kit, to a file or to standard output. */
export async function newKit(request: Request, world: World, voice: Voice): Promise<ExitCode> {
  const [file] = request.operands;
  const path = file === '-' ? undefined : file;
  const refused = path === undefined ? [] : refusals([path], [], request.force, world);
  if (refused.length > 0) return fail(refused, 'new', voice);

  const undelivered = await deliver(
    [{ path, content: voice.json && path === undefined ? '' : starterKit }],
    request,
    { driver: driverOf(voice, world), voice, world },
  );
  if (undelivered.length > 0) return fail(undelivered, 'new', voice);
  if (voice.json) {
    const files = path === undefined ? [] : [{ path, written: !request.dryRun }];
    await voice.product(printJson(newDocument(starterKit, files)));
  } else if (path !== undefined && !request.dryRun) {
    await voice.remark(`next: cardwright cut ${shellQuoted(path)}`);
  }
  return exitCodeOf(undelivered);
}
