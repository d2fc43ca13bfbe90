import {
  inches,
  isGraduation,
  isPositive,
  millimetres,
  minus,
  rational,
  showExact,
  times,
} from '../measure/index.ts';
import {
  atSpan,
  diagnose,
  type Effort,
  type EffortName,
  type FileUnits,
  type Length,
  type NonEmpty,
  type Overrides,
  type Paper,
  type PaperSpec,
  type PrintSpec,
  type Setting,
  type Settings,
  type ShownUnits,
  type Span,
  type SpecFile,
} from '../model/index.ts';
import { lengthOf } from './evaluate.ts';
import { lying, paperNamed, paperSize } from './paper.ts';
import { fileScope, type Workings } from './workings.ts';

/** How long the search goes on for each material, in steps. */
export const effortSteps: Readonly<Record<EffortName, number>> = {
  quick: 0,
  normal: 20_000,
  thorough: 400_000,
};

const builtInMargin: Length = millimetres(rational(10n));

/**
 * How the result is shown and how hard it is worked for: an option over the session, the session over the
 * kit, the kit over what is built in. Where two files of one rank speak, the first named wins here: a page
 * that looks different spoils no card.
 */
export function settingsOf(
  sessions: readonly SpecFile[],
  kits: readonly SpecFile[],
  overrides: Overrides,
  workings: Workings,
): Settings {
  const said = new Said(sessions, kits);
  const fileUnits = unitsOfFiles(sessions, kits, workings.sights.files);
  const stated = said.first((print) => print.units?.value);
  const units: Setting<ShownUnits> =
    overrides.units !== undefined ? { value: overrides.units, from: 'option' } : (stated ?? fileUnits);
  const firstUnit = units.value === 'both' ? fileUnits.value : units.value;

  const rulers = said.first((print) => print.ruler && workedRuler(print.ruler, workings));
  const papers = said.first((print) => print.paper && workedPaper(print.paper, workings));
  const margins = said.first(
    (print) =>
      print.margin && { at: print.margin.at, value: lengthOf(print.margin, 'zero', fileScope, workings) },
  );
  const paper = chosen<Paper>(overrides.paper, papers, 'shared');
  const settings: Settings = {
    units,
    firstUnit,
    ruler: chosen(overrides.ruler, rulers, [
      firstUnit === 'in' ? inches(rational(1n, 16n)) : millimetres(rational(1n, 2n)),
    ]),
    paper: overrides.landscape ? { value: lying(paper.value), from: 'option' } : paper,
    margin: chosen(overrides.margin, margins && withValue(margins), builtInMargin),
    slips: chosen(
      overrides.slips,
      said.first((print) => print.slips?.value),
      false,
    ),
    effort: chosen(overrides.effort, effortOf(sessions, kits), { name: 'normal', steps: effortSteps.normal }),
  };
  checkMargin(settings, margins?.value.at, workings);
  return settings;
}

/** What the files' `print` say, by rank. */
class Said {
  readonly #ranks: readonly { readonly from: 'session' | 'kit'; readonly prints: readonly PrintSpec[] }[];

  constructor(sessions: readonly SpecFile[], kits: readonly SpecFile[]) {
    const prints = (files: readonly SpecFile[]) => files.flatMap(({ print }) => print ?? []);
    this.#ranks = [
      { from: 'session', prints: prints(sessions) },
      { from: 'kit', prints: prints(kits) },
    ];
  }

  /** Every file is asked, so that the faults of all are told; the first answer counts. */
  first<T>(ask: (print: PrintSpec) => T | undefined): Setting<T> | undefined {
    const answers = this.#ranks.flatMap(({ from, prints }) =>
      prints.map((print) => ({ value: ask(print), from })),
    );
    for (const { value, from } of answers) if (value !== undefined) return { value, from };
    return undefined;
  }
}

function chosen<T>(option: T | undefined, file: Setting<T> | undefined, builtIn: T): Setting<T> {
  if (option !== undefined) return { value: option, from: 'option' };
  return file ?? { value: builtIn, from: 'built-in' };
}

function withValue<T>({ value, from }: Setting<{ readonly value: T | undefined }>): Setting<T> | undefined {
  return value.value === undefined ? undefined : { value: value.value, from };
}

/** The unit of the first file that has one, sessions before kits before shelves. */
function unitsOfFiles(
  sessions: readonly SpecFile[],
  kits: readonly SpecFile[],
  all: readonly SpecFile[],
): Setting<FileUnits> {
  const ranks = [
    { from: 'session', files: sessions },
    { from: 'kit', files: kits },
    { from: 'built-in', files: all },
  ] as const;
  for (const { from, files } of ranks) {
    for (const { units } of files) if (units !== undefined) return { value: units, from };
  }
  return { value: 'mm', from: 'built-in' };
}

function effortOf(sessions: readonly SpecFile[], kits: readonly SpecFile[]): Setting<Effort> | undefined {
  for (const [from, files] of [
    ['session', sessions],
    ['kit', kits],
  ] as const) {
    for (const { cutting } of files) {
      const stated = cutting?.effort?.value;
      if (typeof stated === 'number') return { value: { name: 'stated', steps: stated }, from };
      if (stated !== undefined) return { value: { name: stated, steps: effortSteps[stated] }, from };
    }
  }
  return undefined;
}

function workedRuler(
  { scales }: { readonly at: Span; readonly scales: NonNullable<PrintSpec['ruler']>['scales'] },
  workings: Workings,
): NonEmpty<Length> | undefined {
  const worked = scales.map((scale) => {
    const step = lengthOf(scale, 'above zero', fileScope, workings);
    if (step === undefined || isGraduation(step)) return step;
    const units = workings.sights.fileOf(scale.at).units ?? 'mm';
    workings.faults.report(diagnose('E37', atSpan(scale.at), { step: showExact(step, units) }));
    return undefined;
  });
  const [first, ...others] = worked.filter((it) => it !== undefined);
  return first === undefined || others.length + 1 < worked.length ? undefined : [first, ...others];
}

function workedPaper(paper: PaperSpec, workings: Workings): Paper | undefined {
  if (paper.kind === 'named') {
    const upright = paperNamed(paper.name);
    return paper.isLandscape ? lying(upright) : upright;
  }
  const width = lengthOf(paper.length, 'above zero', fileScope, workings);
  const height = lengthOf(paper.width, 'above zero', fileScope, workings);
  return width && height && { name: 'custom', width, height };
}

/** An option's margin is the command line's to check, which knows what was typed. */
function checkMargin({ margin, paper, units }: Settings, at: Span | undefined, workings: Workings): void {
  const { width } = paperSize(paper.value);
  if (at === undefined || margin.from === 'option' || isPositive(minus(width, times(margin.value, 2))))
    return;
  const shown = units.value === 'in' ? 'in' : 'mm';
  workings.faults.report(
    diagnose('E38', atSpan(at), {
      margin: showExact(margin.value, shown),
      paper: showExact(width, shown),
    }),
  );
}
