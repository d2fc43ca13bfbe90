import { toFraction } from '../../measure/index.ts';
import type {
  Bore,
  DrawnPart,
  Enclosure,
  Inclined,
  Length,
  MaterialDemand,
  PartKind,
  PartMember,
  Point,
  Settings,
  SharedBlank,
  TileCount,
} from '../../model/index.ts';
import { describeSpan } from './diagnostics.ts';
import { describeFolds } from './folds.ts';
import { describeLength, lengthOrNull } from './length.ts';
import type { Document } from './schema.ts';

type DescribedSettings = NonNullable<Document<'cut'>['settings']>;

export function describeSettings({
  units,
  ruler,
  paper,
  margin,
  slips,
  effort,
}: Settings): DescribedSettings {
  return {
    units: { value: units.value, from: units.from },
    ruler: { value: ruler.value.map(describeLength), from: ruler.from },
    paper: {
      value:
        paper.value === 'shared' || paper.value === 'shared landscape'
          ? { name: paper.value, width: null, height: null }
          : {
              name: paper.value.name,
              width: describeLength(paper.value.width),
              height: describeLength(paper.value.height),
            },
      from: paper.from,
    },
    margin: { value: describeLength(margin.value), from: margin.from },
    slips: { value: slips?.value ?? false, from: slips?.from ?? 'built-in' },
    effort: { value: { name: effort.value.name, steps: effort.value.steps }, from: effort.from },
  };
}

export function describeTiles(tiles: readonly TileCount[]) {
  return tiles.map(({ name, label, note, count, footprint }) => ({
    name,
    label,
    note: note ?? null,
    count,
    footprint:
      footprint === undefined
        ? null
        : { across: describeLength(footprint.across), along: describeLength(footprint.along) },
  }));
}

export function describeDemand({ material, rules, parts }: MaterialDemand) {
  return {
    name: material.name,
    thickness: describeLength(material.thickness),
    nominal: describeLength(material.nominal),
    measured: lengthOrNull(material.measured),
    hasGrain: material.hasGrain,
    hasFlutes: material.hasFlutes,
    tool: rules.tool ?? null,
    kerf: describeLength(rules.kerf),
    leastStrip: describeLength(rules.leastStrip),
    longestCut: lengthOrNull(rules.longestCut),
    rounds: rules.rounds ?? null,
    worthKeeping:
      rules.worthKeeping === undefined
        ? null
        : {
            long: describeLength(rules.worthKeeping.long),
            short: describeLength(rules.worthKeeping.short),
          },
    parts: parts.map(describeKind),
  };
}

/** Of a size that is cut to a mark, what it is exactly, and the rule that has the mark; null for the others. */
function describeMarks({ length, width }: NonNullable<PartMember['cutTo']>) {
  const [ofLength, ofWidth] = [length, width].map((it) =>
    it === undefined ? null : { exact: describeLength(it.exact), scale: describeLength(it.scale) },
  );
  return { length: ofLength ?? null, width: ofWidth ?? null };
}

function describeDrawn(drawn: DrawnPart) {
  const { net, outline, master, isMirrored, leave, bores = [], bevels = [], rebates = [] } = drawn;
  const { inclined } = drawn;
  return {
    net: { length: describeLength(net.length), width: describeLength(net.width) },
    outlined: outline !== undefined,
    master: master ?? null,
    mirrored: isMirrored,
    leave:
      leave === undefined
        ? null
        : {
            left: describeLength(leave.left),
            right: describeLength(leave.right),
            bottom: describeLength(leave.bottom),
            top: describeLength(leave.top),
          },
    folds: describeFolds(drawn),
    inclined: inclined === undefined ? null : describeInclined(inclined),
    bores: bores.map(describeBore),
    bevels: bevels.map(({ side, longFace, back, thickness }) => ({
      side,
      longFace,
      back: describeEnclosure(back),
      thickness: describeLength(thickness),
    })),
    rebates: rebates.map(({ side, longFace, wide, stays }) => ({
      side,
      longFace,
      wide: describeLength(wide),
      stays: describeLength(stays),
    })),
  };
}

function describeInclined({ size, truly, roundedTo, how }: Inclined) {
  return {
    size,
    truly: describeEnclosure(truly),
    roundedTo: lengthOrNull(roundedTo),
    slope:
      how.kind !== 'slope'
        ? null
        : {
            run: describeLength(how.run),
            rise: describeLength(how.rise),
            ends: how.ends,
            plumb: describeEnclosure(how.plumb),
            gap: describeEnclosure(how.gap),
          },
    bend:
      how.kind !== 'bend'
        ? null
        : {
            face: how.face,
            over: [...how.over],
            goodSideOut: how.isGoodOut,
            leastRadius: how.leastRadius === undefined ? null : describeEnclosure(how.leastRadius),
          },
  };
}

function describeEnclosure({ lo, hi }: Enclosure<Length>) {
  return { least: describeLength(lo), most: describeLength(hi) };
}

function describeBore({ fitting, diameter, deep, into }: Bore) {
  return {
    fitting,
    diameter: describeLength(diameter),
    deep: deep === undefined ? null : describeLength(deep),
    into:
      into.kind === 'face'
        ? {
            kind: into.kind,
            face: into.face,
            along: describeLength(into.at.x),
            up: describeLength(into.at.y),
          }
        : {
            kind: into.kind,
            side: into.side,
            along: describeLength(into.along),
            up: describeLength(into.up),
          },
  };
}

function describeShared({ labels, length, width, at, parting, slant, saved }: SharedBlank) {
  const point = ({ x, y }: Point) => ({ along: describeLength(x), up: describeLength(y) });
  return {
    labels: [...labels],
    length: describeLength(length),
    width: describeLength(width),
    asDrawn: point(at[0]),
    turned: point(at[1]),
    parting: parting === undefined ? null : { from: point(parting.from), to: point(parting.to) },
    slant: slant === undefined ? null : { below: describeLength(slant.below), faceDown: slant.isFaceDown },
    saved: toFraction(saved),
  };
}

function describeKind({ length, width, grain, flutes, goodSide, count, members }: PartKind) {
  return {
    length: describeLength(length),
    width: describeLength(width),
    grain,
    flutes,
    goodSide,
    count,
    members: members.map((member) => ({
      label: member.label,
      tile: member.tile ?? null,
      part: member.part,
      note: member.note ?? null,
      each: member.each,
      count: member.count,
      asFits: member.asFits === undefined ? null : { most: member.asFits.most ?? null },
      at: describeSpan(member.at),
      turnedOver: member.turnedOver ?? 0,
      cutTo: member.cutTo === undefined ? null : describeMarks(member.cutTo),
      drawn: member.drawn === undefined ? null : describeDrawn(member.drawn),
      shared: member.shared === undefined ? null : describeShared(member.shared),
    })),
  };
}
