import { type Checked, checkUp, howSensitive } from '../../checkUp.ts';
import { type Diagnostic, diagnose, isError } from '../../model/index.ts';
import { printCheck, printSensitivity } from '../../print/text/checking/index.ts';
import type { Request } from '../arguments.ts';
import { type Driver, driverOf } from '../driving.ts';
import { ExitCode } from '../exitCode.ts';
import { exitCodeOf, fail } from '../failing.ts';
import { withoutFollowUps } from '../followUps.ts';
import { mendInPlace } from '../mending.ts';
import { readOverrides } from '../overrides.ts';
import { readFiles } from '../reading.ts';
import { shellQuoted } from '../shellQuoted.ts';
import type { Voice } from '../voice.ts';
import type { World } from '../world.ts';

/** Is the kit sound? Every fault of the files, of their sums, and of what has to fit on the sheets. */
export async function check(request: Request, world: World, voice: Voice): Promise<ExitCode> {
  const amiss = request.watch ? unwatchable(request) : [];
  if (amiss.length > 0) return fail(amiss, 'check', voice);
  if (!request.watch || readOverrides(request).diagnostics.some(isError)) return once(request, world, voice);
  const { watching } = await import('../watching.ts');
  return watching((noting) => once(request, noting, voice), voice, world);
}

function unwatchable({ json, fix, operands }: Request): readonly Diagnostic[] {
  const others = [
    ...(json ? [['--json', 'it gives one document, and a watch has no end']] : []),
    ...(fix ? [['--fix', 'a watch only looks']] : []),
    ...(operands.includes('-') ? [['-', 'standard input can be read only once']] : []),
  ];
  return others.map(([other = '', why = '']) =>
    diagnose('C28', { kind: 'argument', argument: '--watch' }, { other, why }),
  );
}

/**
 * One fix may bring to light what it hid, so files are mended until nothing is left that could be; fixes that
 * undo each other would go on for ever.
 */
const mostRounds = 10;

/** @param mended  how often the files have been mended in this run, and what was said of that */
async function once(
  request: Request,
  world: World,
  voice: Voice,
  mended: { readonly rounds: number; readonly said: readonly Diagnostic[] } = { rounds: 0, said: [] },
): Promise<ExitCode> {
  const overrides = readOverrides(request);
  if (overrides.value === undefined || overrides.diagnostics.some(isError)) {
    return fail(overrides.diagnostics, 'check', voice);
  }

  if (request.fix && request.operands.includes('-')) {
    return fail([diagnose('C27', { kind: 'argument', argument: '--fix' }, {})], 'check', voice);
  }

  const driver = driverOf(voice, world, mended.rounds > 0 ? 'what was mended stays so' : undefined);
  const spec = await readFiles(request.operands, world, driver);
  if (exitCodeOf(spec.diagnostics) === ExitCode.files) return fail(spec.diagnostics, 'check', voice);
  const run =
    spec.value === undefined ? undefined : await driver.through(checkUp(spec.value, overrides.value));
  const made = run?.value;
  const said = [...withoutFollowUps([...spec.diagnostics, ...(run?.diagnostics ?? [])]), ...mended.said];
  if (request.fix && mended.rounds < mostRounds) {
    const { world: after, diagnostics } = await mendInPlace(said, request, voice, world);
    const isNew = (it: Diagnostic): boolean => said.every(({ message }) => message !== it.message);
    // That nothing more can be mended is no news.
    const news = diagnostics.filter((it) => isNew(it) && (mended.rounds === 0 || it.code !== 'N01'));
    // The verdict is on what the files say now.
    if (after !== undefined) {
      return once(request, after, voice, { rounds: mended.rounds + 1, said: [...mended.said, ...news] });
    }
    said.push(...news);
  }
  const ranges =
    request.sensitivity && made !== undefined && spec.value !== undefined
      ? driver.atOnce(howSensitive.bind(undefined, spec.value, overrides.value, made))
      : undefined;
  const isSupposed = request.dryRun && mended.rounds > 0;
  return tell(request, { made, said, ranges, isSupposed }, voice, driver);
}

interface Verdicts {
  readonly made: Checked | undefined;
  readonly said: readonly Diagnostic[];
  readonly ranges: ReturnType<typeof howSensitive> | undefined;
  /** True where it is not the files that are judged, but what a fix would make of them. */
  readonly isSupposed: boolean;
}

async function tell(request: Request, verdicts: Verdicts, voice: Voice, driver: Driver): Promise<ExitCode> {
  const { said } = verdicts;
  // What most runs don't need costs as much to load as a small kit takes to check.
  const documents = voice.json ? await import('../../print/json/index.ts') : undefined;
  await voice.product(driver.atOnce(() => toldOf(verdicts, voice, documents)));
  await voice.faults(said);
  const canFix = said.some(({ code, fix }) => code.startsWith('F') && fix !== undefined);
  if (canFix && !request.fix && !request.operands.includes('-')) {
    const files = request.operands.map(shellQuoted).join(' ');
    await voice.remark(`cardwright check --fix ${files}   writes what stands behind "write"`);
  }
  return exitCodeOf(said);
}

function toldOf(
  { made, said, ranges, isSupposed }: Verdicts,
  { look }: Voice,
  documents: typeof import('../../print/json/index.ts') | undefined,
): string {
  if (documents !== undefined) return documents.printJson(documents.checkDocument(made, said, ranges));
  // Verdicts are what was asked for, also bad ones; but where a sum or a size has a fault there is none.
  if (made === undefined || said.some((it) => isError(it) && !it.code.startsWith('F'))) return '';
  return [
    isSupposed ? 'as it would stand then:\n' : '',
    printCheck(made.batch, made.fits, look),
    ranges === undefined ? '' : printSensitivity(ranges, look),
  ].join('');
}
