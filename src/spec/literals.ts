import { compareRationals, readMeasure } from '../measure/index.ts';
import {
  atSpan,
  type Diagnostic,
  diagnose,
  type Expression,
  type Named,
  type Span,
  type Spec,
  type SpecFile,
  type TileSpec,
} from '../model/index.ts';
import { Kinds } from './kinds.ts';

/** A measure that stands written in a file, and is a length. */
export interface Literal {
  /** Its characters: number and unit, without the brackets or quotes around them. */
  readonly span: Span;
  readonly expression: Measure;
  /** Where a try of another worth is to be put in its place. */
  readonly at: Span;
  /** The keys that lead to it, outermost first: `['tiles', 'height']`. Names are left out. */
  readonly keys: readonly string[];
  /** The material it is said of, if it is. */
  readonly material: string | undefined;
  /** True where nothing else stands there, so that a sum is not meant. */
  readonly isAlone: boolean;
}

export type Measure = Extract<Expression, { readonly kind: 'measure' }>;

export interface Literals {
  readonly literals: readonly Literal[];
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Every measure of a file that is a length, in the order of the text. Plain numbers are left out: what is counted,
 * what a name of `numbers` holds, what a length is multiplied or divided by.
 *
 * @errors S70 where one number is both, S71 where its characters can't be told
 */
export function literalsOf(file: SpecFile, spec: Spec): Literals {
  const kinds = new Kinds(spec);
  const found = new Map<string, Literal | 'number'>();
  const diagnostics: Diagnostic[] = [];
  for (const slot of slotsOf(file)) {
    const { expression, keys, material } = slot;
    if (expression.at.source !== file.source) continue;
    for (const { measure, kind } of kinds.of(slot, file)) {
      const place = `${measure.at.start} ${measure.at.end}`;
      const known = found.get(place);
      if (kind === 'both' || (known !== undefined && (known === 'number') !== (kind === 'number'))) {
        diagnostics.push(diagnose('S70', atSpan(measure.at), { found: writtenAt(measure.at) }));
        found.set(place, 'number');
      } else if (known !== undefined) continue;
      else if (kind === 'number') found.set(place, 'number');
      else {
        const span = charactersOf(measure);
        if (span === undefined) {
          diagnostics.push(diagnose('S71', atSpan(measure.at), { found: writtenAt(measure.at) }));
          found.set(place, 'number');
          continue;
        }
        const isAlone = measure === expression;
        found.set(place, { span, expression: measure, at: measure.at, keys, material, isAlone });
      }
    }
  }
  const literals = [...found.values()].filter((it) => it !== 'number');
  return { literals: literals.sort((a, b) => a.span.start - b.span.start), diagnostics };
}

/** A place where an amount stands. */
export interface Slot {
  readonly expression: Expression;
  readonly keys: readonly string[];
  readonly tile: Named<TileSpec> | undefined;
  readonly material: string | undefined;
}

/** Every amount that a file holds, wherever it stands; `of` a tile, those of that tile alone. */
export function slotsOf(file: SpecFile): readonly Slot[] {
  const slots: Slot[] = [];
  collect(file, { keys: [], tile: undefined, material: undefined }, slots);
  return slots;
}

/** Every amount in one piece of a file. */
export function amountsIn(piece: unknown): readonly Expression[] {
  const slots: Slot[] = [];
  collect(piece, { keys: [], tile: undefined, material: undefined }, slots);
  return slots.map(({ expression }) => expression);
}

const kindsOfExpression = new Set([
  'measure',
  'name',
  'negative',
  'sum',
  'difference',
  'product',
  'quotient',
  'smaller',
  'larger',
  'up to',
  'down to',
  'nearest',
]);
/** What lies in a file beside its own amounts. */
const passedOver = new Set(['at', 'source', 'written', 'uses', 'usesAt', 'unitsAt']);

function collect(value: unknown, where: Omit<Slot, 'expression'>, slots: Slot[]): void {
  if (typeof value !== 'object' || value === null) return;
  if (Array.isArray(value)) {
    for (const item of value) collect(item, where, slots);
    return;
  }
  if (isExpression(value)) {
    slots.push({ ...where, expression: value });
    return;
  }
  const named = 'name' in value && typeof value.name === 'string' ? value.name : undefined;
  for (const [key, inner] of Object.entries(value)) {
    if (passedOver.has(key)) continue;
    const isSection = where.keys.length > 0;
    const [section] = where.keys;
    const inside =
      key === 'value' && named !== undefined && where.keys.length === 1
        ? {
            ...where,
            // Only a tile's section leads to tiles.
            ...(section === 'tiles' ? { tile: value as Named<TileSpec> } : {}),
            ...(ofMaterial.has(section ?? '') ? { material: named } : {}),
          }
        : where;
    const isWrapping = isSection && (key === 'value' || key === 'name');
    collect(inner, isWrapping ? inside : { ...inside, keys: [...where.keys, key] }, slots);
  }
}

const ofMaterial = new Set(['materials', 'sheets', 'offcuts', 'measured']);

function isExpression(value: object): value is Expression {
  return (
    'at' in value && 'kind' in value && typeof value.kind === 'string' && kindsOfExpression.has(value.kind)
  );
}

/** Where a measure's own characters stand; undefined where escapes or joined lines make that doubtful. */
function charactersOf({ at, amount, unit }: Measure): Span | undefined {
  const written = writtenAt(at);
  const quote = /^(?:"(?<double>[^"\\\r\n]*)"|'(?<single>[^'\r\n]*)')$/u.exec(written);
  const inside = quote?.groups?.double ?? quote?.groups?.single ?? written;
  const before = quote === null ? 0 : 1;
  // A bracket may stand around a single measure.
  const opening = /^[(\s]*/u.exec(inside)?.[0].length ?? 0;
  const closing = /[)\s]*$/u.exec(inside)?.[0].length ?? 0;
  const own = inside.slice(opening, inside.length - closing);
  const reading = readMeasure(own);
  const worth =
    reading.kind === 'length' ? reading.length : reading.kind === 'bare' ? reading.number : undefined;
  const isIt =
    worth !== undefined &&
    (reading.kind === 'length') === (unit === 'length') &&
    compareRationals(worth, amount) === 0;
  if (!isIt) return undefined;
  const start = at.start + before + opening;
  return { source: at.source, start, end: start + own.length };
}

function writtenAt({ source, start, end }: Span): string {
  return source.text.slice(start, end);
}
