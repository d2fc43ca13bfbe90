import { bareAsMillimetres } from '../../expand/index.ts';
import {
  bareExact,
  equal,
  isZero,
  millimetres,
  readMeasure,
  scaled,
  showExact,
  showThickness,
  unitOfRule,
} from '../../measure/index.ts';
import {
  atSpan,
  type Diagnostic,
  diagnose,
  type FileUnits,
  type Fix,
  type Length,
  type Spec,
  type SpecFile,
} from '../../model/index.ts';
import { type Literal, literalsOf } from '../../spec/index.ts';
import { ownUnitOf, sortOf } from './sorts.ts';
import type { ConversionWishes } from './wishes.ts';

/** A file as it is to be written, measure by measure. */
export interface Rewriting {
  readonly file: SpecFile;
  readonly edits: readonly Fix[];
  /** How many measures are written in the other unit. */
  readonly converted: number;
  /** Those that name a unit of their own, and keep it. */
  readonly kept: readonly Literal[];
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Each measure of a file as its exact worth in the other unit. What names a unit of its own keeps it, in a file that
 * says its `units`; in one that doesn't, there would be nothing else to convert.
 *
 *   units: in                 units: mm
 *   core: (3 - 1/16)     →    core: (76.2 - 1.5875)
 *   card: 1.55 mm             card: 1.55 mm
 *
 * @errors S70, S71, N05 a measure that is too long to be written exactly
 */
export function rewritten(file: SpecFile, spec: Spec, wishes: ConversionWishes): Rewriting {
  const { to } = wishes;
  const { literals, diagnostics } = literalsOf(file, spec);
  const edits: Fix[] = [];
  const kept: Literal[] = [];
  const said: Diagnostic[] = [...diagnostics];
  let converted = 0;
  for (const literal of literals) {
    const now = worthOf(literal, file);
    if (now === undefined) continue; // a bare number without `units`, which is refused as such
    const own = ownUnitOf(literal);
    const keepsUnit = own !== undefined && (file.units !== undefined || own === to);
    const sort = sortOf(literal);
    if (keepsUnit && own !== to && sort !== 'rule') kept.push(literal);
    if (!keepsUnit && (own ?? file.units) !== to) converted += 1;
    const text = textOf({ literal, now, worth: wishedWorth(literal, now, wishes), sort }, file, to);
    if (text === undefined) continue;
    if (readMeasure(text).kind !== 'refused') edits.push({ span: literal.span, text });
    else said.push(diagnose('N05', atSpan(literal.span), { found: writtenAs(literal), text }));
  }
  if (file.units !== undefined && file.units !== to && file.unitsAt !== undefined) {
    const { unitsAt } = file;
    const written = unitsAt.source.text.slice(unitsAt.start, unitsAt.end);
    edits.push({ span: unitsAt, text: written.replace(/in|mm/u, to) });
  }
  return { file, edits, converted, kept, diagnostics: said };
}

/** What a measure is worth; undefined for a bare number in a file without `units`. */
export function worthOf({ expression }: Literal, { units }: SpecFile): Length | undefined {
  if (expression.unit === 'length') return millimetres(expression.amount);
  return units === undefined ? undefined : millimetres(bareAsMillimetres(expression.amount, units));
}

/** What it is to be worth: a board as it can be bought, a size as it is scaled. */
function wishedWorth(literal: Literal, now: Length, { factor, boards, materials }: ConversionWishes): Length {
  const sort = sortOf(literal);
  const board = materials.find(({ material }) => material === literal.material);
  if (sort === 'board' && board !== undefined && literal.isAlone) return board.thickness;
  const isScaled = sort === 'size' || (boards === 'scaled' && (sort === 'board' || sort === 'measured'));
  return factor !== undefined && isScaled ? scaled(now, factor) : now;
}

interface Turned {
  readonly literal: Literal;
  readonly now: Length;
  readonly worth: Length;
  readonly sort: ReturnType<typeof sortOf>;
}

/** Its new text; undefined where what stands there may stay. */
function textOf({ literal, now, worth, sort }: Turned, file: SpecFile, to: FileUnits): string | undefined {
  const own = ownUnitOf(literal);
  const isSame = equal(worth, now);
  // A rule is laid down by its own unit: sixteenths stay sixteenths.
  if (sort === 'rule') {
    if (file.units === undefined || file.units === to) return undefined;
    const rule = unitOfRule(worth);
    return rule === to ? bareExact(worth, to) : showExact(worth, rule);
  }
  if (own !== undefined) {
    const unit = file.units === undefined ? to : own;
    return own === unit && isSame ? undefined : showExact(worth, unit);
  }
  if ((isZero(worth) && isSame) || (file.units === to && isSame)) return undefined;
  return sort === 'board' && !isSame ? bareWhereShort(worth, to) : bareExact(worth, to);
}

/** A board is named as it is bought: `1.5 mm`, also where all else is in inches. */
function bareWhereShort(worth: Length, to: FileUnits): string {
  const text = showThickness(worth, to);
  return text.endsWith(` ${to}`) ? text.slice(0, -to.length - 1) : text;
}

function writtenAs({ span }: Literal): string {
  return span.source.text.slice(span.start, span.end);
}
