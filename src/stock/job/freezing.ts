import { millimetres, rational, roundedDecimal, toFraction } from '../../measure/index.ts';
import type { Job, JobEvent, JobPlan, Rational, Source } from '../../model/index.ts';

/** What a value of the model becomes in JSON: lengths and prices as exact fractions, places in files left out. */
export type Frozen =
  | string
  | number
  | boolean
  | null
  | readonly Frozen[]
  | { readonly [key: string]: Frozen };

/** A job as its file holds it. */
export interface FrozenJob {
  readonly id: string;
  readonly plan: Frozen;
  readonly events: Frozen;
}

export function frozenJob({ id, plan, events }: Job): FrozenJob {
  return { id, plan: frozen(plan), events: frozen(events) };
}

/** @param source  the job's own file, where everything in it is said to stand */
export function thawedJob({ id, plan, events }: FrozenJob, source: Source): Job {
  const at = { source, start: 0, end: 0 };
  // What the file holds was held against its schema and its seal before it comes here.
  return { id, plan: thawed(plan, at) as JobPlan, events: thawed(events, at) as readonly JobEvent[] };
}

export function frozen(value: unknown): Frozen {
  if (value === undefined || value === null) return null;
  if (typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean') return value;
  if (Array.isArray(value)) return value.map(frozen);
  if (typeof value !== 'object') throw new Error(`a ${typeof value} is no value of the model`);
  if (isRational(value)) return { mm: toFraction(value), rounded: Number(roundedDecimal(value, 3)) };
  if (isSpan(value)) return { at: 'its file' };
  if ('currency' in value && 'amount' in value && isRational(value.amount)) {
    return { amount: toFraction(value.amount), currency: `${value.currency}` };
  }
  return Object.fromEntries(
    Object.entries(value).flatMap(([key, it]) => (it === undefined ? [] : [[key, frozen(it)]])),
  );
}

function thawed(value: Frozen, at: object): unknown {
  if (value === null) return undefined;
  if (typeof value !== 'object') return value;
  if (Array.isArray(value)) return value.map((it: Frozen) => thawed(it, at));
  // `Array.isArray` does not narrow readonly lists away.
  const map = value as Readonly<Record<string, Frozen>>;
  const { mm, amount, currency } = map;
  if (typeof mm === 'string') return millimetres(toRational(mm));
  if (map.at === 'its file') return at;
  if (typeof amount === 'string' && typeof currency === 'string')
    return { amount: toRational(amount), currency };
  return Object.fromEntries(
    Object.entries(map).flatMap(([key, it]) => {
      const made = thawed(it, at);
      return made === undefined ? [] : [[key, made]];
    }),
  );
}

function toRational(text: string): Rational {
  const [numerator = '0', denominator = '1'] = text.split('/');
  return rational(BigInt(numerator), BigInt(denominator));
}

function isRational(value: unknown): value is Rational {
  return (
    typeof value === 'object' &&
    value !== null &&
    'numerator' in value &&
    typeof value.numerator === 'bigint' &&
    'denominator' in value
  );
}

function isSpan(value: object): boolean {
  return 'source' in value && 'start' in value && 'end' in value;
}
