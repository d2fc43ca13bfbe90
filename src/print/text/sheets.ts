import type { Batch, Made, MaterialPlan } from '../../model/index.ts';
import { cautionsFor } from '../cautions.ts';
import { clean, counted, keyOf, type Lines, type Look, paragraph, signsOf, wrap } from '../columns/index.ts';
import { listed } from '../enumerated.ts';
import { keepingWords } from '../keepingWords.ts';
import { needWords } from '../saying.ts';
import { writeGluing } from './gluing.ts';
import { type Showing, showingOf } from './lengths.ts';
import { writeMaterial } from './material.ts';
import { writeSlips } from './slips.ts';

/** The cutting sheets as text: what is made, then each material, then what to take care of. */
export function printText(made: Made, look: Look): string {
  const showing = showingOf(made.batch.settings, look);
  const lines = [
    ...head(made, showing, look),
    ...made.plans.flatMap((plan, i) => [...writeMaterial(plan, { showing, look }, made.savings?.[i]), '']),
    ...writeGluing(made, look),
    ...(made.batch.settings.slips?.value ? writeSlips(made.batch, showing, look) : []),
    ...cautions(made, look),
  ];
  return `${lines.map((line) => line.trimEnd()).join('\n')}\n`;
}

function head({ batch, plans }: Made, showing: Showing, look: Look): Lines {
  const rule = signsOf(look).heavyRule.repeat(look.width);
  const materials = batch.materials.map(({ material }) => {
    const plan = plans.find((it) => it.demand.material.name === material.name);
    if (plan === undefined || plan.sheets.length === 0)
      return `${clean(material.name)}: nothing could be laid out`;
    return `${clean(material.name)}: ${clean(needWords(plan))}`;
  });
  const keeping = keepingWords(plans, batch.settings.firstUnit);
  return [
    rule,
    ...wrap(clean(batch.title), look.width),
    rule,
    ...paragraph(`${toMake(batch, look)}.`, look.width, 'To make  '),
    ...materials.flatMap((line, i) => paragraph(line, look.width, i === 0 ? 'From     ' : '         ')),
    ...lacking(plans, look),
    ...paragraph(sizesWords(showing, look), look.width, 'Sizes    '),
    ...paragraph(marksWords(look), look.width, 'Marks    '),
    ...batch.notes.flatMap((note) => paragraph(clean(note), look.width, 'Note     ')),
    ...(keeping === undefined ? [] : paragraph(keeping, look.width, 'Note     ')),
    ...batch.tiles.flatMap(({ label, note, count }) =>
      note === undefined || count === 0
        ? []
        : paragraph(`${clean(label)}: ${clean(note)}`, look.width, 'Note     '),
    ),
  ];
}

/** What a sheet of this evening does not give is said before anyone picks up a knife. */
function lacking(plans: readonly MaterialPlan[], look: Look): Lines {
  const words = plans.flatMap(({ unplaced }) =>
    unplaced.map(({ member, count }) => counted(count, member.label, signsOf(look))),
  );
  return words.length === 0
    ? []
    : paragraph(`not on any sheet: ${words.join(', ')}.`, look.width, 'Missing  ');
}

function toMake({ tiles, materials }: Batch, look: Look): string {
  const signs = signsOf(look);
  const loose = new Map<string, number>();
  for (const { tile, label, count } of materials.flatMap(({ parts }) => parts.flatMap((it) => it.members))) {
    if (tile === undefined) loose.set(label, (loose.get(label) ?? 0) + count);
  }
  const all = [
    ...tiles
      .filter(({ count }) => count > 0)
      .map(
        ({ label, letters, count }) =>
          `${count}\u00a0${signs.times}\u00a0${clean(label)}${keyOf(label, letters)}`,
      ),
    ...[...loose].map(([label, count]) => counted(count, label, signs)),
  ];
  return all.length === 0 ? 'nothing' : all.join(', ');
}

function sizesWords(showing: Showing, look: Look): string {
  const signs = signsOf(look);
  const unit = showing.unit === 'in' ? 'inches' : 'millimetres';
  const [first, ...others] = showing.rules;
  const rules = [`a rule of ${first}`, ...others.map((it) => `of ${it}`)];
  return (
    `${unit}, length ${signs.times} width, read on ${listed(rules)}; "full" is a little more than the mark, ` +
    '"scant" a little less, with the difference behind it.'
  );
}

function marksWords(look: Look): string {
  return (
    `all measured from the datum, never from each other: rips from the bottom edge of the piece in hand, ` +
    `with a mark at both ends, crosscuts from its left edge. ${signsOf(look).datum} is the datum of the sheet. ` +
    'A letter names the strip beside or below it: write it on the strip as it comes off. ' +
    'Where a stop is named too, work by the marks or by the stop: a stop set once is quicker for many; check the ' +
    'last as told.'
  );
}

function cautions({ plans, batch }: Made, look: Look): Lines {
  const { rule, dot } = signsOf(look);
  return [
    rule.repeat(look.width),
    ...cautionsFor(
      plans.map(({ demand }) => demand),
      batch.fittings,
    ).flatMap((it) => paragraph(it, look.width, `${dot} `)),
  ];
}
