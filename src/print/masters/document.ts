import { minus } from '../../measure/index.ts';
import type { Batch, Diagnostic, Enclosure, Length, Point, Segment } from '../../model/index.ts';
import { boxOf } from '../../outline/index.ts';
import { describeSettings } from '../json/demand.ts';
import { describeDiagnostic } from '../json/diagnostics.ts';
import { type FileOut, versions } from '../json/documents.ts';
import { describeLength, lengthOrNull } from '../json/length.ts';
import type { Document } from '../json/schema.ts';
import { compassOf, offsetsOf } from '../offsets.ts';
import { chosen } from './compose.ts';
import type { Bars } from './correction.ts';
import type { TracedMaster } from './tracing.ts';

export interface MastersAsked {
  readonly batch: Batch;
  /** One master; undefined for all. */
  readonly name: string | undefined;
  readonly pitch: Length;
  readonly bars: Bars;
}

/** @param asked undefined where nothing could be made; the diagnostics then say why */
export function mastersDocument(
  asked: MastersAsked | undefined,
  diagnostics: readonly Diagnostic[],
  files: readonly FileOut[] = [],
): Document<'masters'> {
  return {
    schema: 'cardwright/masters',
    version: versions.masters,
    settings: asked === undefined ? null : describeSettings(asked.batch.settings),
    diagnostics: diagnostics.map(describeDiagnostic),
    files: files.map(({ path, written }) => ({ path, written })),
    result:
      asked === undefined
        ? null
        : {
            title: asked.batch.title,
            pitch: describeLength(asked.pitch),
            bars: { across: describeLength(asked.bars.across), up: describeLength(asked.bars.up) },
            masters: chosen(asked.batch, asked.name).map((it) => describeMaster(it, asked.pitch)),
          },
  };
}

function describeMaster({ master, parts, hasHands }: TracedMaster, pitch: Length) {
  const { outline } = master;
  const { left, right, bottom, top } = boxOf(outline);
  const apart = (high: Enclosure<Length>, low: Enclosure<Length>) =>
    describeEnclosure({ lo: minus(high.lo, low.hi), hi: minus(high.hi, low.lo) });
  return {
    name: master.name,
    size: { length: apart(right, left), width: apart(top, bottom) },
    hasHands,
    parts: parts.map(({ label, tile, part, material, count, asFits, holes, face, grain }) => ({
      label,
      tile: tile ?? null,
      part,
      material,
      count,
      asFits: asFits === undefined ? null : { most: asFits.most ?? null },
      holes,
      hand: face === 'up' ? ('left' as const) : ('right' as const),
      grain,
    })),
    rim: outline.rim.map(describeSegment),
    holes: outline.holes.map((loop) => loop.map(describeSegment)),
    offsets: offsetsOf(outline, pitch).map((it) => ({
      along: describeLength(it.along),
      bottom: describeEnclosure(it.bottom),
      top: describeEnclosure(it.top),
      isCorner: it.isCorner,
    })),
    compass: compassOf(outline).map(({ centre, radius, from, to, isWhole }) => ({
      centre: describePoint(centre),
      radius: describeEnclosure(radius),
      from: describePoint(from),
      to: describePoint(to),
      isWhole,
    })),
  };
}

function describeSegment(it: Segment) {
  const ends = { from: describePoint(it.from), to: describePoint(it.to) };
  switch (it.kind) {
    case 'line':
      return { kind: it.kind, ...ends };
    case 'arc':
      return {
        kind: it.kind,
        ...ends,
        centre: describePoint(it.centre),
        turn: it.turn,
        radius: lengthOrNull(it.radius),
      };
    case 'curve':
      return {
        kind: it.kind,
        ...ends,
        leaving: describePoint(it.leaving),
        arriving: describePoint(it.arriving),
      };
  }
}

function describeEnclosure({ lo, hi }: Enclosure<Length>) {
  return { lo: describeLength(lo), hi: describeLength(hi) };
}

function describePoint({ x, y }: Point) {
  return { x: describeLength(x), y: describeLength(y) };
}
