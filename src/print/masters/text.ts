import type { Batch, Length } from '../../model/index.ts';
import { boxOf } from '../../outline/index.ts';
import { clean, indented, type Lines, type Look, paragraph, signsOf, wrap } from '../columns/index.ts';
import { apartOnRule, compassOf, hasCurve, offsetsOf } from '../offsets.ts';
import { at, offsetTableOf } from '../shapeWork.ts';
import { type Showing, showingOf } from '../text/lengths.ts';
import { offsetTable } from '../text/offsetTable.ts';
import { chosen } from './compose.ts';
import { sizeOf } from './drawing.ts';
import { keptWords, partWords } from './notes.ts';
import { type TracedMaster, untracedWords } from './tracing.ts';

/** Masters for who has no printer: sizes, parts, offsets to mark out by, compass steps. */
export function printMasters(
  batch: Batch,
  { name, pitch }: { readonly name: string | undefined; readonly pitch: Length },
  look: Look,
): string {
  const showing = showingOf(batch.settings, look);
  const lines = [
    ...wrap(clean(`${batch.title}: masters`), look.width),
    ...paragraph(
      `Sizes in ${showing.unit === 'in' ? 'inches' : 'mm'}. Places are along the base from its left end, and up from it.`,
      look.width,
    ),
    ...chosen(batch, name).flatMap((it) => masterLines(it, pitch, showing, look)),
  ];
  return `${lines.map((it) => it.trimEnd()).join('\n')}\n`;
}

function masterLines(traced: TracedMaster, pitch: Length, showing: Showing, look: Look): Lines {
  const { master, parts } = traced;
  const { length, width, isExact } = sizeOf(boxOf(master.outline));
  const { heavyRule, times } = signsOf(look);
  const title = `${clean(master.name)}, ${isExact ? '' : 'about '}${showing.pair(length, width)}`;
  const inner = look.width - 2;
  return [
    '',
    ...wrap(title, look.width),
    heavyRule.repeat(Math.min(look.width, title.length)),
    ...indented(
      [
        ...paragraph(keptWords(traced), inner),
        ...(parts.length === 0 ? paragraph(clean(untracedWords(traced)), inner) : []),
        ...parts.flatMap((it) => paragraph(partWords(it, traced).replace('×', times), inner - 2, '  ')),
        '',
        ...offsetTable(
          offsetTableOf(
            apartOnRule(offsetsOf(master.outline, pitch), showing.step),
            `Offsets every ${showing.full(pitch)}`,
            showing,
          ),
          { ...look, width: inner },
        ),
        ...compassLines(traced, showing, { ...look, width: inner }),
      ],
      2,
    ),
  ];
}

function compassLines({ master: { outline } }: TracedMaster, showing: Showing, look: Look): Lines {
  const steps = compassOf(outline);
  const byHand = hasCurve(outline)
    ? [
        '',
        ...paragraph(
          'Its smooth curve no compass draws: join the offsets, along a bent lath or by eye.',
          look.width,
        ),
      ]
    : [];
  if (steps.length === 0) return byHand;
  return [
    '',
    ...paragraph('With a compass', look.width),
    ...steps.flatMap(({ centre, radius, from, to, isWhole }, i) => {
      const way = isWhole ? 'all the way round' : `from ${at(from, showing)}, to ${at(to, showing)}`;
      const open = showing.brief(radius.lo);
      return paragraph(`point at ${at(centre, showing)}; open to ${open}; ${way}`, look.width, `${i + 1}  `);
    }),
    ...byHand,
  ];
}
