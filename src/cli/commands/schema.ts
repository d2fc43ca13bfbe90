import { diagnose, didYouMean } from '../../model/index.ts';
import { isSchemaName, jsonSchema, schemaNames } from '../../print/json/index.ts';
import type { Request } from '../arguments.ts';
import { ExitCode } from '../exitCode.ts';
import { fail } from '../failing.ts';
import type { Voice } from '../voice.ts';
import type { World } from '../world.ts';
import { version } from './version.ts';

/** The JSON Schema of a document; without a name, the names there are. */
export async function schema(request: Request, world: World, voice: Voice): Promise<ExitCode> {
  const [name] = request.operands;
  if (name === undefined) {
    // The document of --version holds each schema's name and version.
    if (voice.json) return version(world, voice);
    await voice.product(schemaNames.map((it) => `${it}\n`).join(''));
    return ExitCode.fine;
  }
  if (!isSchemaName(name)) {
    const facts = { name, names: schemaNames.join(', '), meant: didYouMean(name, schemaNames) };
    return fail([diagnose('C19', { kind: 'argument', argument: name }, facts)], 'schema', voice);
  }
  await voice.product(`${JSON.stringify(await jsonSchema(name), null, 2)}\n`);
  return ExitCode.fine;
}
