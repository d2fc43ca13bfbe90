import type { Job, JobEvent } from '../../model/index.ts';
import { type SheetState, sheetsOf } from '../../stock/index.ts';
import { type Column, clean, counted, type Look, paragraph, signsOf, table, wrap } from '../columns/index.ts';
import { sheetWord } from '../saying.ts';
import { type Showing, showingOf } from '../text/index.ts';

/** What has become of a job, sheet by sheet, and what comes next. */
export function printJob(path: string, job: Job, look: Look): string {
  const showing = showingOf(job.plan.settings, look);
  const { rule } = signsOf(look);
  const sheets = sheetsOf(job);
  const headings: Column[] = [
    { heading: 'no.', align: 'right', wraps: false },
    { heading: 'is', align: 'left', wraps: true },
    { heading: `from, ${showing.unit}`, align: 'left', wraps: true },
    { heading: 'pieces', align: 'left', wraps: true },
    { heading: 'to keep', align: 'left', wraps: true },
  ];
  const lines = [
    ...wrap(clean(job.plan.title), look.width),
    ...job.plan.materials.flatMap(({ demand: { material } }) => {
      const own = alikeRuns(sheets.filter((it) => it.material === material.name));
      if (own.length === 0) return ['', ...paragraph(`${clean(material.name)}: no sheet`, look.width)];
      return [
        '',
        ...paragraph(clean(material.name), look.width),
        ...table(
          headings,
          own.map((run) => rowOf(run, showing, look)),
          { columns: look.width, rule },
        ),
      ];
    }),
    '',
    ...paragraph(nextWords(path, job, sheets), look.width, 'Next  '),
  ];
  return `${lines.map((line) => line.trimEnd()).join('\n')}\n`;
}

/** Where pieces that are cut again come from, a line a sheet. */
export function printAgain(
  { material, pictures }: Extract<JobEvent, { kind: 'recut' }>,
  { plan: { settings } }: Job,
  look: Look,
): string {
  const showing = showingOf(settings, look);
  const lines = pictures.flatMap((picture) => {
    const number = picture.first;
    const last = number + picture.times - 1;
    const state: SheetState = { material, number, picture, isCut: false, isPutAway: false };
    const [numbers, , from, pieces, kept] = rowOf({ state, last }, showing, look);
    const keeping = kept === '' ? '' : `, to keep: ${kept}`;
    const words = `${clean(material)} ${numbers}: ${pieces} from ${from} ${showing.unit}${keeping}`;
    return wrap(words, look.width);
  });
  return `${lines.join('\n')}\n`;
}

interface Run {
  readonly state: SheetState;
  readonly last: number;
}

/** Sheets in a row that are cut alike and have come as far. */
function alikeRuns(sheets: readonly SheetState[]): readonly Run[] {
  const runs: Run[] = [];
  for (const state of sheets) {
    const before = runs.at(-1);
    const goesOn =
      before?.state.picture === state.picture &&
      before.state.isCut === state.isCut &&
      before.state.isPutAway === state.isPutAway;
    if (goesOn && before !== undefined) runs[runs.length - 1] = { ...before, last: state.number };
    else runs.push({ state, last: state.number });
  }
  return runs;
}

function rowOf({ state, last }: Run, showing: Showing, look: Look): readonly string[] {
  const signs = signsOf(look);
  const { number, picture, isCut, isPutAway } = state;
  const { sheet, pieces, leftovers, isOwn } = picture;
  const tally = (names: readonly string[]): string =>
    [...new Set(names)]
      .map((name) => counted(names.filter((it) => it === name).length, name, signs))
      .join(', ');
  const label = sheet.label === undefined ? '' : ` "${clean(sheet.label)}"`;
  return [
    last === number ? `${number}` : `${number}${signs.range}${last}`,
    isPutAway ? 'put away' : isCut ? 'cut' : 'to cut',
    `${isOwn ? 'leftover' : sheetWord(sheet)}${label} ${showing.pair(sheet.length, sheet.width)}`,
    tally(pieces.map(({ label, ofNoUse }) => (ofNoUse ? `${label} (of no use)` : label))),
    tally(leftovers.flatMap(({ keep }) => keep ?? [])),
  ];
}

function nextWords(path: string, job: Job, sheets: readonly SheetState[]): string {
  const file = clean(path);
  if (sheets.some(({ isCut }) => !isCut)) return `once they are cut: cardwright job ${file} --cut all`;
  if (job.plan.drawer === undefined) return 'all is cut';
  if (sheets.some(({ isPutAway }) => !isPutAway)) {
    return `to take what was used out of the drawer and put in what is to keep: cardwright job ${file} --put-away`;
  }
  return 'all is cut and put away';
}
