import { compare, equal, toDrawnMm, zero } from '../../measure/index.ts';
import type { MaterialDemand, MaterialPlan, Savings, SheetKind, SheetPlan } from '../../model/index.ts';
import {
  beside,
  type Column,
  clean,
  counted,
  type Lines,
  type Look,
  paragraph,
  signsOf,
  table,
  widthOf,
} from '../columns/index.ts';
import { markWords, savedWords, sharedWords, triedWords } from '../memberWords.ts';
import { hasOrder, orderLead, orderRows, settingsWords } from '../orderWords.ts';
import { needWords, sheetWord } from '../saying.ts';
import { sliceWords } from '../sliceWords.ts';
import { cuttingList } from './cuttingList.ts';
import { drawSheet } from './drawing.ts';
import type { Showing } from './lengths.ts';
import { settingOut } from './settingOut.ts';
import { isCutAlike, writeSteps, writeStepsLike } from './steps.ts';
import { writeWhy } from './why.ts';

export interface Setting {
  readonly showing: Showing;
  readonly look: Look;
}

/**
 * Everything to be done to one material, in the order in which it is done: what it needs, each picture with its steps,
 * what goes back into the drawer, and then the shapes, once their blanks are cut.
 *
 * @param savings  undefined where nobody asked why
 */
export function writeMaterial(plan: MaterialPlan, setting: Setting, savings: Savings | undefined): Lines {
  return [
    ...materialHead(plan, setting),
    ...(savings === undefined ? [] : writeWhy(plan, savings, setting)),
    ...cuttingList(plan, setting),
    ...partNotes(plan, setting),
    ...orderOfWork(plan, setting),
    ...plan.sheets.flatMap((sheet, i) => ['', ...writeSheet(sheet, plan.sheets.slice(0, i), plan, setting)]),
    ...leftNames(plan, setting),
    ...settingOut(plan, setting),
    ...notMade(plan, setting.look),
  ];
}

function materialHead(plan: MaterialPlan, { showing, look }: Setting): Lines {
  const { demand, sheets, order } = plan;
  const signs = signsOf(look);
  const { material, rules } = demand;
  const name = clean(material.name);
  const rule = signs.heavyRule.repeat(Math.max(2, look.width - widthOf(name) - 4));
  const { thickness, nominal, measured } = material;
  const asMeasured = measured === undefined ? '' : ' as measured';
  const asSold = equal(thickness, nominal) ? '' : ` (nominal ${showing.thickness(nominal)})`;
  const thick = `${showing.thickness(thickness)} thick${asMeasured}${asSold}.`;
  const saved = savedWords(demand);
  const facts = [
    thick,
    ...(sheets.length === 0 ? [] : [`Needs ${clean(needWords(plan))}.`]),
    ...sliceWords(plan, showing),
    ...(order.length === 0 ? [] : [`${settingsWords(plan)}.`]),
    ...[saved, triedWords(plan)].flatMap((it) => (it === undefined ? [] : [`${it}.`])),
    ...toolWords(rules, showing),
  ];
  return ['', `${signs.heavyRule.repeat(2)} ${name} ${rule}`, ...paragraph(facts.join(' '), look.width), ''];
}

/** The order over all pictures: what is set out, and which steps it serves. */
function orderOfWork(plan: MaterialPlan, { showing, look }: Setting): Lines {
  if (!hasOrder(plan)) return [];
  const signs = signsOf(look);
  const rows = orderRows(plan, { length: showing.brief, range: signs.range, sheet: 'No.' });
  const headings: Column[] = [
    { heading: '', align: 'left', wraps: false },
    { heading: `set, ${showing.unit}`, align: 'right', wraps: false },
    { heading: 'cut', align: 'left', wraps: true },
  ];
  return [
    '',
    ...paragraph(orderLead, look.width, 'Order of work  '),
    '',
    ...table(
      headings,
      rows.map(({ set, cut }) => [signs.box, set, cut]),
      { columns: look.width, rule: signs.rule },
    ),
  ];
}

function toolWords({ tool, kerf }: MaterialDemand['rules'], { thickness }: Showing): readonly string[] {
  const hasKerf = compare(kerf, zero) > 0;
  if (!hasKerf) return tool === undefined ? [] : [`Cut with: ${clean(tool)}.`];
  const named = tool === undefined ? '' : `Cut with: ${clean(tool)}. `;
  return [`${named}Each cut takes ${thickness(kerf)} of material: let it fall beyond the mark.`];
}

function writeSheet(
  sheet: SheetPlan,
  before: readonly SheetPlan[],
  plan: MaterialPlan,
  { look, showing }: Setting,
): Lines {
  const isWide = look.width >= 110;
  const columns = isWide ? Math.floor(look.width * 0.56) : look.width;
  const longest = Math.max(...plan.sheets.map(({ inside }) => toDrawnMm(inside.length)));
  const share = toDrawnMm(sheet.inside.length) / longest;
  const drawing = drawSheet(sheet, { columns, share, kerf: plan.demand.rules.kerf, showing, look });
  const key = drawing.numbered.map((word, i) => `${i + 1}\u00a0is ${word}`);
  const picture = [
    ...drawing.lines,
    ...(key.length === 0 ? [] : paragraph(`${key.join('; ')}.`, columns)),
    ...(drawing.isStretched ? paragraph('Narrow pieces are drawn wider than they are.', columns) : []),
  ];

  const alike = before.find((it) => isCutAlike(it.steps, sheet.steps));
  const stepColumns = isWide ? look.width - columns - 3 : look.width;
  const steps =
    alike === undefined
      ? writeSteps(sheet.steps, showing, stepColumns, look)
      : writeStepsLike(sheet.steps, `No. ${numbersOf(alike, look)}`, stepColumns, look);
  const total = plan.sheets.reduce((most, { first, times }) => Math.max(most, first + times - 1), 0);
  return [
    ...sheetHeading(sheet, total, { showing, look }),
    '',
    ...(isWide ? beside(picture, steps, columns + 3) : [...picture, '', ...steps]),
  ];
}

function numbersOf({ first, times }: SheetPlan, look: Look): string {
  return times === 1 ? `${first}` : `${first}${signsOf(look).range}${first + times - 1}`;
}

function sheetHeading(plan: SheetPlan, total: number, { showing, look }: Setting): Lines {
  const { sheet, times } = plan;
  const what = sheetWord(sheet);
  const label = sheet.label === undefined ? '' : ` "${clean(sheet.label)}"`;
  const where = sheet.where === undefined ? '' : ` (${clean(sheet.where)})`;
  const size = `${showing.pair(sheet.length, sheet.width)}\u00a0${showing.unit}`;
  const stock =
    times === 1
      ? `${what}${label}${where} ${size}`
      : `cut ${times} ${what}s like this:${label}${where} ${size}`;
  const words = [`No.\u00a0${numbersOf(plan, look)} of ${total}`, stock, ...runsWords(sheet, look)];
  const lines = paragraph(words.join(', '), look.width);
  const note =
    sheet.note === undefined ? [] : paragraph(clean(sheet.note), look.width, `${signsOf(look).dot} `);
  return [...lines, signsOf(look).rule.repeat(Math.max(...lines.map(widthOf))), ...note];
}

/** Which way grain and flutes lie on the table when the sheet lies as drawn. */
function runsWords({ grain, flutes }: SheetKind, look: Look): readonly string[] {
  const signs = signsOf(look);
  const say = (what: string, runs: SheetKind['grain']) => {
    if (runs === 'none') return [];
    if (runs === 'unknown') return [`${what} unknown`];
    return runs === 'length'
      ? [`${what} ${signs.alongLength} left to right`]
      : [`${what} ${signs.alongWidth} bottom to top`];
  };
  return [...say('grain', grain), ...say('flutes', flutes)];
}

/** What to write on the pieces that go back into the drawer. */
function leftNames({ sheets }: MaterialPlan, { showing, look }: Setting): Lines {
  const kept = new Map<string, { readonly size: string; count: number }>();
  for (const { leftovers, times } of sheets) {
    for (const { keep, box } of leftovers) {
      if (keep === undefined) continue;
      const entry = kept.get(keep) ?? { size: showing.pair(box.length, box.width), count: 0 };
      entry.count += times;
      kept.set(keep, entry);
    }
  }
  if (kept.size === 0) return [];
  const rows = [...kept].sort(byNumber).map(([name, { size, count }]) => [name, size, `${count}`]);
  const headings: Column[] = [
    { heading: 'left over', align: 'left', wraps: false },
    { heading: `size, ${showing.unit}`, align: 'right', wraps: false },
    { heading: 'how many', align: 'right', wraps: false },
  ];
  return [
    '',
    ...table(headings, rows, { columns: look.width, rule: signsOf(look).rule }),
    ...paragraph('Write name and size on each, and put it by.', look.width),
  ];
}

function byNumber([a]: readonly [string, unknown], [b]: readonly [string, unknown]): number {
  return Number(a.replace(/\D/g, '')) - Number(b.replace(/\D/g, ''));
}

/** The maker's own notes on the parts, once for each part. */
function partNotes({ demand }: MaterialPlan, { showing, look }: Setting): Lines {
  const notes = demand.parts.flatMap((kind) =>
    kind.members.flatMap((member): readonly string[] => {
      const said = [
        member.note,
        sharedWords(member, showing.pair, signsOf(look).times),
        markWords(kind, member, showing.unit),
      ].filter((it) => it !== undefined);
      return said.length === 0 ? [] : [`${clean(member.label)}: ${clean(said.join('; '))}`];
    }),
  );
  return [...new Set(notes)].flatMap((note) => paragraph(note, look.width, `${signsOf(look).dot} `));
}

function notMade({ unplaced }: MaterialPlan, look: Look): Lines {
  if (unplaced.length === 0) return [];
  const words = unplaced.map(({ member, count }) => counted(count, member.label, signsOf(look)));
  return ['', ...paragraph(`Not on any sheet: ${words.join(', ')}.`, look.width)];
}
