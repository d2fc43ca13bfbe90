import { diagnose, nowhere } from '../model/index.ts';
import { type Intent, type Manner, type Request, readArguments } from './arguments.ts';
import { Stopped } from './driving.ts';
import { ExitCode } from './exitCode.ts';
import { fail } from './failing.ts';
import { type Voice, voiceOf } from './voice.ts';
import type { World } from './world.ts';

/**
 * The whole program: arguments in, exit code out, everything else through the world.
 *
 * @param argv what stands behind the program's name
 */
export async function main(argv: readonly string[], world: World): Promise<ExitCode> {
  // Until the arguments are read, as much of how to speak as can be seen without reading them.
  let manner: Manner = { json: argv.includes('--json'), quiet: false, color: 'auto', command: undefined };
  let end: ExitCode;
  try {
    const read = readArguments(argv);
    manner = read.manner;
    const voice = voiceOf(manner, world);
    end =
      read.intent === undefined
        ? await fail(read.diagnostics, manner.command, voice)
        : await follow(read.intent, world, voice);
  } catch (fault) {
    const voice = voiceOf(manner, world);
    end =
      fault instanceof Stopped
        ? await fail([fault.diagnostic], manner.command, voice)
        : await confess(fault, manner.command, voice, world);
  }
  return await lookBack(end, manner, world);
}

/** What could not be put out was not delivered, however well the run went; the document can't tell of it. */
async function lookBack(end: ExitCode, manner: Manner, world: World): Promise<ExitCode> {
  if (world.stdout.trouble === undefined) return end;
  const lost = diagnose('C44', nowhere, { reason: world.stdout.trouble });
  await voiceOf({ ...manner, json: false }, world).faults([lost]);
  return end === ExitCode.fine || end === ExitCode.specWrong ? ExitCode.files : end;
}

async function follow(intent: Intent, world: World, voice: Voice): Promise<ExitCode> {
  switch (intent.kind) {
    case 'version': {
      const { version } = await import('./commands/version.ts');
      return await version(world, voice);
    }
    case 'help': {
      const { helpPage } = await import('./helpPage.ts');
      await voice.product(helpPage(intent.command, voice.look));
      return ExitCode.fine;
    }
    case 'run':
      return await run(intent.request, world, voice);
  }
}

/** Each command is loaded when it is asked for, with the libraries that it alone needs. */
async function run(request: Request, world: World, voice: Voice): Promise<ExitCode> {
  switch (request.command) {
    case 'cut':
      return (await import('./commands/cut.ts')).cut(request, world, voice);
    case 'count':
      return (await import('./commands/count.ts')).count(request, world, voice);
    case 'check':
      return (await import('./commands/check.ts')).check(request, world, voice);
    case 'masters':
      return (await import('./commands/masters.ts')).masters(request, world, voice);
    case 'job':
      return (await import('./commands/job.ts')).job(request, world, voice);
    case 'recut':
      return (await import('./commands/recut.ts')).recut(request, world, voice);
    case 'drawer':
      return (await import('./commands/drawer.ts')).drawer(request, world, voice);
    case 'convert':
      return (await import('./commands/convert.ts')).convert(request, world, voice);
    case 'new':
      return (await import('./commands/new.ts')).newKit(request, world, voice);
    case 'explain':
      return (await import('./commands/explain.ts')).explain(request, voice);
    case 'schema':
      return (await import('./commands/schema.ts')).schema(request, world, voice);
    case 'completion':
      return (await import('./commands/completion.ts')).completion(request, voice);
    case 'help':
      throw new Error('help is no command to run'); // its arguments are read as an intent of their own
  }
}

/** An uncaught error is a bug of ours, and is told as one. */
async function confess(
  fault: unknown,
  command: Request['command'] | undefined,
  voice: Voice,
  { about, stderr }: World,
): Promise<ExitCode> {
  const what = fault instanceof Error ? `${fault.name}: ${fault.message}` : String(fault);
  const bug = diagnose('C70', nowhere, { what: what.split('\n')[0] ?? what });
  try {
    await fail([bug], command, voice);
  } catch {
    // The fault lies in what would tell of it, so the plain words have to do.
    await stderr.write(`cardwright: error C70: ${bug.message}\n`);
  }
  const trace = fault instanceof Error ? (fault.stack ?? '') : '';
  await stderr.write(`\ncardwright ${about.version}, node ${about.node}, ${about.platform}\n${trace}\n`);
  return ExitCode.ourBug;
}
