import { ExitCode } from '../exitCode.ts';
import type { Voice } from '../voice.ts';
import type { World } from '../world.ts';

export async function version({ about }: World, voice: Voice): Promise<ExitCode> {
  if (voice.json) {
    const { printJson, versionDocument } = await import('../../print/json/index.ts');
    const { version: cardwright, node, platform } = about;
    await voice.product(printJson(versionDocument({ cardwright, node, platform })));
  } else {
    await voice.product(`${about.version}\n`);
  }
  return ExitCode.fine;
}
