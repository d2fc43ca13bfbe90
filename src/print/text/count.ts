import type { Batch, MaterialDemand, PartKind, PartMember, TileCount } from '../../model/index.ts';
import {
  type Column,
  clean,
  keyOf,
  type Lines,
  type Look,
  paragraph,
  signsOf,
  table,
  wrap,
} from '../columns/index.ts';
import { kindRows } from './cuttingList.ts';
import { type Showing, showingOf } from './lengths.ts';

/**
 * What a batch needs: each tile's parts and how many of them, then the totals of each material. Its own signs
 * are ASCII everywhere, since such lists are piped into tools that count bytes.
 */
export function printCount(batch: Batch, { width }: Look): string {
  const look: Look = { width, ascii: true };
  const showing = showingOf(batch.settings, look);
  const lines = [
    ...wrap(clean(batch.title), look.width),
    ...tileParts(batch, showing, look),
    ...batch.materials.flatMap((demand) => totals(demand, showing, look)),
  ];
  return `${lines.map((line) => line.trimEnd()).join('\n')}\n`;
}

interface Listed {
  readonly demand: MaterialDemand;
  readonly kind: PartKind;
  readonly member: PartMember;
}

function tileParts({ tiles, materials }: Batch, showing: Showing, look: Look): Lines {
  const signs = signsOf(look);
  const all = materials.flatMap((demand) =>
    demand.parts.flatMap((kind) => kind.members.map((member): Listed => ({ demand, kind, member }))),
  );
  const isNarrow = look.width < 56;
  const other = showing.otherPair;
  const headings: Column[] = [
    { heading: 'part', align: 'left', wraps: true },
    ...(isNarrow ? [] : [{ heading: 'of', align: 'left', wraps: true } as const]),
    { heading: `size, ${showing.unit}`, align: 'right', wraps: false },
    ...(other === undefined
      ? []
      : [{ heading: `size, ${showing.otherUnit}`, align: 'right', wraps: true } as const]),
    { heading: 'each', align: 'right', wraps: false },
    { heading: 'in all', align: 'right', wraps: false },
  ];
  const section = (heading: string, parts: readonly Listed[]): Lines => {
    if (parts.length === 0) return ['', ...paragraph(heading, look.width), 'no parts'];
    const rows = parts.map(({ demand, kind, member }) => [
      ...(isNarrow
        ? [`${clean(member.part)}, ${clean(demand.material.name)}`]
        : [clean(member.part), clean(demand.material.name)]),
      showing.pair(kind.length, kind.width),
      ...(other === undefined ? [] : [parted(other(kind.length, kind.width))]),
      `${member.each}`,
      `${member.count}`,
    ]);
    return [
      '',
      ...paragraph(heading, look.width),
      ...table(headings, rows, { columns: look.width, rule: signs.rule }),
    ];
  };
  const loose = all.filter(({ member }) => member.tile === undefined);
  return [
    ...tiles.flatMap((tile) =>
      section(
        tileHeading(tile, showing, look),
        all.filter(({ member }) => member.tile === tile.name),
      ),
    ),
    ...(loose.length === 0 ? [] : section('loose parts', loose)),
  ];
}

/** May be broken behind its sign. */
function parted(pair: string): string {
  return pair.replace(/\u00a0([x×])\u00a0/u, '\u00a0$1 ');
}

function tileHeading({ label, letters, count, footprint }: TileCount, showing: Showing, look: Look): string {
  const { times } = signsOf(look);
  const size =
    footprint === undefined
      ? ''
      : ` (${showing.pair(footprint.across, footprint.along)}\u00a0${showing.unit}${inOther(footprint, showing)})`;
  return `${count}\u00a0${times}\u00a0${clean(label)}${keyOf(label, letters)}${size}`;
}

function inOther(
  { across, along }: NonNullable<TileCount['footprint']>,
  { otherPair, otherUnit }: Showing,
): string {
  return otherPair === undefined ? '' : ` [${otherPair(across, along)}\u00a0${otherUnit}]`;
}

/** Totals by size and rule; the last line adds them up. */
function totals(demand: MaterialDemand, showing: Showing, look: Look): Lines {
  const signs = signsOf(look);
  const { headings, rows } = kindRows(demand, { showing, look });
  const count = demand.parts.reduce((sum, kind) => sum + kind.count, 0);
  const name = clean(demand.material.name);
  const heading = `${name} ${showing.thickness(demand.material.thickness)}: ${count} ${count === 1 ? 'part' : 'parts'}`;
  return [
    '',
    ...paragraph(heading, look.width),
    ...table(headings, rows, { columns: look.width, rule: signs.rule }),
  ];
}
