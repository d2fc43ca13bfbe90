import { roundedDecimal } from '../../measure/index.ts';
import type { Drawer, DrawerEntry, Length, Settings } from '../../model/index.ts';
import { type Column, clean, type Look, paragraph, signsOf, table, wrap } from '../columns/index.ts';
import { showingOf } from '../text/index.ts';

/** What is at hand, by material. */
export function printDrawer(
  path: string,
  { title, entries, fittings = [] }: Drawer,
  style: Pick<Settings, 'units' | 'firstUnit' | 'ruler'>,
  look: Look,
): string {
  const showing = showingOf(style, look);
  const { rule } = signsOf(look);
  const materials = [...new Set(entries.map(({ material }) => material))];
  const headings: Column[] = [
    { heading: 'label', align: 'left', wraps: true },
    { heading: 'what', align: 'left', wraps: true },
    { heading: `size, ${showing.unit}`, align: 'right', wraps: false },
    { heading: 'count', align: 'right', wraps: false },
    { heading: 'where', align: 'left', wraps: true },
  ];
  const lines = [
    ...wrap(clean(title ?? path), look.width),
    ...(entries.length + fittings.length === 0 ? ['', 'nothing is in it'] : []),
    ...materials.flatMap((material) => {
      const own = entries.filter((it) => it.material === material);
      const rows = own.map((it) => [
        clean(it.label ?? ''),
        whatWords(it, showing.thickness),
        showing.pair(it.length, it.width),
        it.count === 'as needed' ? 'any' : `${it.count}`,
        clean([it.where, it.note].filter((words) => words !== undefined).join('; ')),
      ]);
      return [
        '',
        ...paragraph(`${clean(material)}`, look.width),
        ...table(headings, rows, { columns: look.width, rule }),
      ];
    }),
    ...(fittings.length === 0 ? [] : ['', 'fittings', ...fittingsTable(fittings, look)]),
  ];
  return `${lines.map((line) => line.trimEnd()).join('\n')}\n`;
}

function fittingsTable(fittings: NonNullable<Drawer['fittings']>, look: Look): readonly string[] {
  const headings: Column[] = [
    { heading: 'name', align: 'left', wraps: true },
    { heading: 'count', align: 'right', wraps: false },
    { heading: 'where', align: 'left', wraps: true },
  ];
  const rows = fittings.map(({ name, count, where, note }) => [
    clean(name),
    `${count}`,
    clean([where, note].filter((words) => words !== undefined).join('; ')),
  ]);
  return table(headings, rows, { columns: look.width, rule: signsOf(look).rule });
}

function whatWords(entry: DrawerEntry, thickness: (length: Length) => string): string {
  const { kind, grain, flutes, price, pack, thick, trueEdges } = entry;
  const run = (what: string, side: DrawerEntry['grain']): readonly string[] =>
    side === undefined ? [] : [side === 'unknown' ? `${what} unknown` : `${what} along its ${side}`];
  return [
    thick === undefined ? kind : `block ${thickness(thick)} thick`,
    ...run('grain', grain),
    ...run('flutes', flutes),
    ...(trueEdges ? [] : ['edges not true']),
    ...(price === undefined
      ? []
      : [
          `${roundedDecimal(price.amount, 2)} ${price.currency}${pack === undefined ? '' : ` a pack of ${pack}`}`,
        ]),
  ].join(', ');
}
