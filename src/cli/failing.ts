import { type Code, type Diagnostic, isError } from '../model/index.ts';
import type { CommandName } from './commandTable.ts';
import { ExitCode } from './exitCode.ts';
import type { Voice } from './voice.ts';

/** Tells what is wrong where there is nothing else to show, and how the run ends. */
export async function fail(
  diagnostics: readonly Diagnostic[],
  command: CommandName | undefined,
  voice: Voice,
): Promise<ExitCode> {
  const exitCode = exitCodeOf(diagnostics);
  if (voice.json) {
    const { failureDocument, printJson } = await import('../print/json/index.ts');
    await voice.product(printJson(failureDocument(diagnostics, exitCode, command)));
  }
  await voice.faults(diagnostics);
  return exitCode;
}

/** The gravest that is said decides. */
export function exitCodeOf(diagnostics: readonly Diagnostic[]): ExitCode {
  const ends = diagnostics.filter(isError).map(({ code }) => endOf(code));
  return gravest.find((it) => ends.includes(it)) ?? ExitCode.fine;
}

const gravest = [
  ExitCode.ourBug,
  ExitCode.interrupted,
  ExitCode.terminated,
  ExitCode.usage,
  ExitCode.files,
  ExitCode.specWrong,
] as const;

/** C01 to C39 speak of the command line, but for C31; C40 to C49 and K40 to K49 of the disk. */
function endOf(code: Code): ExitCode {
  // The command is understood; it is the file that has nothing to make.
  if (code === 'C31') return ExitCode.specWrong;
  if (/^K4\d$/.test(code)) return ExitCode.files;
  if (!code.startsWith('C')) return ExitCode.specWrong;
  if (code === 'C70') return ExitCode.ourBug;
  if (code === 'C71') return ExitCode.interrupted;
  if (code === 'C72') return ExitCode.terminated;
  return Number(code.slice(1)) < 40 ? ExitCode.usage : ExitCode.files;
}
