import type { MaterialDemand, MaterialPlan, PartKind, PartMember } from '../../model/index.ts';
import { markWords, savedWords, shapeWords, sharedWords, triedWords, turnWords } from '../memberWords.ts';
import { columnsOf, drawAt, type Entry, halfOf, heightOfAll, inTwoColumns, parted } from './entries.ts';
import type { Flow } from './flow.ts';
import { line, type Mark, rectangle } from './mark.ts';
import { smallPicture } from './shapes.ts';
import type { Sizes } from './sizes.ts';
import {
  leadingOf,
  shortened,
  type Typeface,
  widthOf,
  words,
  wordsEndingAt,
  wrapped,
  wrappedBeside,
} from './type.ts';

/** Some rows of a list that stay together. */
export interface Chunk {
  readonly heightMm: number;
  readonly isFirst: boolean;
  /** At the top of a page the list says whose it is: so much higher. */
  readonly atTopMm: number;
  readonly draw: () => void;
}

const mostChunkMm = 45;
/** Of both columns together: what begins below two that are not alike in height leaves a gap. */
const mostHalvesMm = 150;

/**
 * Every part of a material with its full name, size and count: to tick off when it is cut. In two columns
 * where they hold it; in chunks, so that it goes over to the next page between rows.
 */
export function cuttingList(flow: Flow, sizes: Sizes, plan: MaterialPlan): readonly Chunk[] {
  const { demand } = plan;
  if (demand.parts.length === 0) return [];
  const shared = mostlyOf(demand);
  const isHalf = fitsHalf(flow, sizes, demand, shared);
  const widthMm = isHalf ? halfOf(flow) : flow.width;
  const rows = rowsOf(flow.face, sizes, demand, widthMm, shared);
  const head = headOf(flow, sizes, plan, shared);
  return chunksOf(rows, isHalf ? mostHalvesMm : mostChunkMm).map((entries, index) => {
    const first = index === 0 ? head : [];
    const listMm = isHalf ? columnsOf(entries).heightMm : heightOfAll(entries);
    return {
      heightMm: heightOfAll(first) + listMm,
      isFirst: index === 0,
      atTopMm: index === 0 ? 0 : leadingOf('text'),
      draw: () => {
        if (index > 0 && flow.isAtTop()) {
          flow.say('text', shortened(flow.face, 'text', demand.material.name, flow.width) ?? '');
        }
        drawAt(flow, first, flow.column.left, flow.y());
        flow.down(heightOfAll(first));
        if (isHalf) return inTwoColumns(flow, entries);
        drawAt(flow, entries, flow.column.left, flow.y());
        flow.down(listMm);
      },
    };
  });
}

function chunksOf(rows: readonly Entry[], mostMm: number): readonly (readonly Entry[])[] {
  const chunks: Entry[][] = [[]];
  let filled = 0;
  for (const row of rows) {
    filled += row.heightMm;
    if (filled > mostMm) {
      chunks.push([]);
      filled = row.heightMm;
    }
    chunks[chunks.length - 1]?.push(row);
  }
  return chunks;
}

/** From the left edge of a row; numbers end at theirs. */
interface Columns {
  readonly label: number;
  readonly part: number;
  /** Where a size ends, and how far before that its times sign stands: they stand one below the other. */
  readonly size: number;
  readonly widest: number;
  readonly count: number;
  /** Kinds whose size does not stand in the columns. */
  readonly long: ReadonlySet<PartKind>;
}

const gap = 3;

function placesOf(face: Typeface, sizes: Sizes, { parts }: MaterialDemand, widthMm: number): Columns {
  const longest = (texts: readonly string[], role: 'part label' | 'text'): number =>
    Math.max(0, ...texts.map((text) => widthOf(face, role, text)));
  const label = 5.6;
  const labels = longest(
    parts.flatMap(({ members }) => members.map((it) => it.label)),
    'part label',
  );
  const counts = longest(
    parts.flatMap(({ members }) => members.map(({ count }) => `${count}`)),
    'text',
  );
  const part = label + Math.min(labels, widthMm * 0.28) + gap;
  const long = longOnes(face, sizes, parts);
  const widest = longest(
    parts.filter((kind) => !long.has(kind)).map(({ width }) => sizes.full(width)),
    'text',
  );
  return { label, part, size: widthMm - counts - gap - 1, widest, count: widthMm, long };
}

const mostSizeMm = 52;

/** Rounded in two units, a size takes half a line: where these are few, each has a line of its own. */
function longOnes(face: Typeface, sizes: Sizes, parts: MaterialDemand['parts']): ReadonlySet<PartKind> {
  const long = parts.filter(
    (kind) => widthOf(face, 'text', lengthOf(sizes, kind) + sizes.full(kind.width)) > mostSizeMm,
  );
  return new Set(long.length * 3 <= parts.length ? long : []);
}

/** More of them, each a few words wide, are hard to read: then a name gets the width of the page. */
const mostRowsInHalf = 4;

/** True where each name has room beside its size in half the width of the page, and few rows. */
function fitsHalf(flow: Flow, sizes: Sizes, demand: MaterialDemand, shared: string): boolean {
  const { face } = flow;
  const at = placesOf(face, sizes, demand, halfOf(flow));
  return demand.parts.every((kind) => {
    const firstMm = besideMmOf(face, sizes, kind, at);
    const rowsOfName = (member: PartMember): number => {
      const name = nameOf(kind, member, shared, sizes);
      return wrappedBeside(face, 'text', name, { firstMm, widthMm: at.count - at.part }).length;
    };
    return firstMm >= 18 && kind.members.every((it) => rowsOfName(it) <= mostRowsInHalf);
  });
}

/** What a name has beside the size. */
function besideMmOf(face: Typeface, sizes: Sizes, kind: PartKind, at: Columns): number {
  return at.size - at.widest - widthOf(face, 'text', lengthOf(sizes, kind)) - gap - at.part;
}

/** With the times sign, so that the width can stand by itself, to be read one below the other. */
function lengthOf(sizes: Sizes, { length }: PartKind): string {
  return `${sizes.full(length)}\u00a0×\u00a0`;
}

function rowsOf(
  face: Typeface,
  sizes: Sizes,
  demand: MaterialDemand,
  widthMm: number,
  shared: string,
): readonly Entry[] {
  const at = placesOf(face, sizes, demand, widthMm);
  return demand.parts.flatMap((kind) =>
    kind.members.flatMap((member) => rowOf(face, sizes, kind, member, at, shared)),
  );
}

function headOf({ face, width }: Flow, sizes: Sizes, plan: MaterialPlan, shared: string): readonly Entry[] {
  const { demand } = plan;
  const { material } = demand;
  const named = `Cutting list: ${material.name}, ${sizes.fine(material.thickness)} thick`;
  const measured = `length × width in ${sizes.units}, and how many`;
  const bound = shared === '' ? measured : `${measured}; ${shared}, where nothing else is said`;
  const more = [savedWords(demand), triedWords(plan)].flatMap((it) => (it === undefined ? [] : [`. ${it}`]));
  const facts = more.length === 0 ? bound : `${bound}${more.join('')}.`;
  const rows = [
    ...wrapped(face, 'heading', named, width).map((text) => ['heading', text] as const),
    ...wrapped(face, 'text', facts, width).map((text) => ['text', text] as const),
  ];
  const heightMm = rows.reduce((all, [role]) => all + leadingOf(role), 0) + 1;
  return [
    {
      heightMm: heightMm + 0.8,
      draw: ({ x, y }) => {
        let top = y;
        const said = rows.map(([role, text]): Mark => {
          top += leadingOf(role);
          return words(face, role, text, { x, y: top - leadingOf(role) * 0.24 });
        });
        return [...said, line('page rule', { x, y: y + heightMm }, { x: x + width, y: y + heightMm })];
      },
    },
  ];
}

/** Of a shape's picture in its row. */
const pictureMost = { widthMm: 22, heightMm: 9 };
/** Between the words of a row and the picture below them. */
const pictureGapMm = 1.4;

/** A name goes on below its size, and begins there where it finds no room beside it; a shape that is no rectangle is drawn. */
function rowOf(
  face: Typeface,
  sizes: Sizes,
  kind: PartKind,
  member: PartMember,
  at: Columns,
  shared: string,
): readonly Entry[] {
  const leading = leadingOf('text');
  const besideMm = at.long.has(kind) ? -1 : besideMmOf(face, sizes, kind, at);
  const name = nameOf(kind, member, shared, sizes);
  const labels = wrapped(face, 'part label', member.label, at.part - at.label - gap + 0.01);
  const [length, width] = [lengthOf(sizes, kind), sizes.full(kind.width)];
  const inColumns = [
    { text: length, end: at.size - at.widest },
    { text: width, end: at.size },
  ];
  const below = wrapped(face, 'text', name, at.count - at.part);
  const isBeside = widthOf(face, 'text', length + width) <= at.size - at.part;
  const [names, size] =
    besideMm >= 18
      ? [wrappedBeside(face, 'text', name, { firstMm: besideMm, widthMm: at.count - at.part }), inColumns]
      : besideMm >= 0
        ? [['', ...below], inColumns]
        : isBeside
          ? [['', ...below], [{ text: length + width, end: at.size }]]
          : [[...wrapped(face, 'text', length + width, at.size - at.part), ...below], []];
  const picture = smallPicture(member, pictureMost);
  const rows = Math.max(labels.length, names.length);
  const lines = Array.from({ length: rows }, (_, row) => ({ label: labels[row], name: names[row] }));
  return parted(lines).map((own, part, parts): Entry => {
    const wordsMm = own.length * leading;
    const isLast = part === parts.length - 1;
    const shape = isLast ? picture : undefined;
    const heightMm = wordsMm + (shape === undefined ? 0 : pictureGapMm + shape.heightMm + pictureGapMm / 2);
    return {
      heightMm: heightMm + (isLast ? 0.8 : 0),
      draw: ({ x, y }): readonly Mark[] => [
        ...(part === 0
          ? [
              rectangle('tick box', { left: x + 0.4, right: x + 3.9, top: y + 0.7, bottom: y + 4.2 }),
              ...size.map(({ text, end }) => wordsEndingAt(face, 'text', text, { x: x + end, y: y + 3.9 })),
              wordsEndingAt(face, 'text', `${member.count}`, { x: x + at.count, y: y + 3.9 }),
            ]
          : []),
        ...own.flatMap(({ label, name: said }, row) => {
          const base = y + 3.9 + row * leading;
          return [
            ...(label === undefined ? [] : [words(face, 'part label', label, { x: x + at.label, y: base })]),
            ...(said === undefined || said === ''
              ? []
              : [words(face, 'text', said, { x: x + at.part, y: base })]),
          ];
        }),
        ...(shape?.draw({ x: x + at.part, y: y + wordsMm + pictureGapMm }) ?? []),
        ...(isLast
          ? [line('table rule', { x, y: y + heightMm + 0.3 }, { x: x + at.count, y: y + heightMm + 0.3 })]
          : []),
      ],
    };
  });
}

function nameOf(kind: PartKind, member: PartMember, shared: string, sizes: Sizes): string {
  const { tile, part, note } = member;
  const name = tile === undefined ? part : `${tile}: ${part}`;
  const rules = rulesOf(kind) === '' && shared !== '' ? 'either way' : rulesOf(kind);
  const facts = [
    note,
    rules === '' || rules === shared ? undefined : rules,
    shapeWords(member, sizes),
    sharedWords(member, sizes.pair),
    turnWords(member),
    markWords(kind, member, sizes.unit === 'mm' ? 'mm' : 'in'),
  ].filter((it) => it !== undefined);
  return facts.length === 0 ? name : `${name} (${facts.join('; ')})`;
}

/** What binds most parts: said once. */
function mostlyOf({ parts }: MaterialDemand): string {
  const rules = parts.map(rulesOf);
  return rules.find((rule) => rules.filter((it) => it === rule).length * 2 > Math.max(2, rules.length)) ?? '';
}

/** What binds a part beside its size. */
function rulesOf({ grain, flutes, goodSide }: PartKind): string {
  return [
    ...(grain === 'any' ? [] : [`grain along its ${grain}`]),
    ...(flutes === 'any' ? [] : [`flutes along its ${flutes}`]),
    ...(goodSide ? ['good side up'] : []),
  ].join('; ');
}
