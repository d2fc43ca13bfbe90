import {
  atSpan,
  type Bevel,
  type DrawnSide,
  diagnose,
  type Outline,
  type Rebate,
} from '../../model/index.ts';
import { edgesKey, mirrored, outlineKey, turned } from '../../outline/index.ts';
import { atOtherSide } from '../shapes.ts';
import type { PartMember } from './rows.ts';
import type { Sizing } from './sizing.ts';

/** Which edges of a part's drawing are not cut square. */
export interface Edges {
  readonly bevels: readonly Bevel[];
  readonly rebates: readonly Rebate[];
}

export const square: Edges = { bevels: [], rebates: [] };

export function areSquare({ bevels, rebates }: Edges): boolean {
  return bevels.length + rebates.length === 0;
}

/** A part with its edges; without an outline it is a rectangle, which is every mirror image of itself. */
interface Body {
  readonly outline: Outline | undefined;
  readonly edges: Edges;
}

/** The same edges in a drawing that is swapped left for right. */
export function mirroredEdges({ bevels, rebates }: Edges): Edges {
  return { bevels: bevels.map(atOtherSide), rebates: rebates.map(atOtherSide) };
}

const halfRound: Readonly<Record<DrawnSide, DrawnSide>> = {
  left: 'right',
  right: 'left',
  bottom: 'top',
  top: 'bottom',
};

/** A piece as its part's drawing would have it where it stands. */
interface Cut extends Body {
  readonly goodSide: boolean;
  /** By its outline alone, the part has two hands. */
  readonly isHanded: boolean;
  /** True where it stands as the other hand would. */
  readonly isOther: boolean;
}

export interface Hand {
  readonly hand: 'own' | 'other';
  /** What of it stands on a piece; absent where all is square. */
  readonly edges: Partial<Edges>;
}

/** How parts are cut where they stand first, and which hand of them a further piece is. */
export class EdgesOfParts {
  readonly #first = new Map<string, Body>();

  /**
   * Which hand of its part a piece is, with the edges of that. A part that is its own mirror image has one hand.
   *
   * @errors E45 edges that neither hand has
   */
  handOf(
    { part, at }: Pick<PartMember, 'part' | 'at'>,
    { outline, edges, goodSide, isHanded, isOther }: Cut,
    { report }: Pick<Sizing, 'report'>,
  ): Hand {
    const first = this.#first.get(part.name) ?? { outline, edges };
    this.#first.set(part.name, first);
    if (areSquare(edges) && areSquare(first.edges)) {
      return { hand: isHanded && isOther ? 'other' : 'own', edges: {} };
    }
    const here = keyOf(isOther ? otherOf({ outline, edges }) : { outline, edges });
    const other = otherOf(first);
    if (waysRound(first, goodSide).has(here)) return { hand: 'own', edges: said(first.edges) };
    if (waysRound(other, goodSide).has(here)) return { hand: 'other', edges: said(other.edges) };
    const facts = { part: part.name, here: edgesInWords(edges), there: edgesInWords(first.edges) };
    report(diagnose('E45', atSpan(at), facts));
    return { hand: 'own', edges: said(first.edges) };
  }
}

function said({ bevels, rebates }: Edges): Partial<Edges> {
  return { ...(bevels.length === 0 ? {} : { bevels }), ...(rebates.length === 0 ? {} : { rebates }) };
}

function otherOf({ outline, edges }: Body): Body {
  return { outline: outline && mirrored(outline), edges: mirroredEdges(edges) };
}

/** Half round in its plane; without a good side also face down. */
function waysRound(body: Body, goodSide: boolean): ReadonlySet<string> {
  const faceDown = { ...otherOf(body), edges: mirroredEdges(otherFace(body.edges)) };
  const bodies = goodSide ? [body] : [body, faceDown];
  return new Set(bodies.flatMap((it) => [keyOf(it), keyOf(turnedHalf(it))]));
}

function turnedHalf({ outline, edges }: Body): Body {
  const round = <E extends Bevel | Rebate>(edge: E): E => ({ ...edge, side: halfRound[edge.side] });
  return {
    outline: outline && turned(outline, 180),
    edges: { bevels: edges.bevels.map(round), rebates: edges.rebates.map(round) },
  };
}

function otherFace({ bevels, rebates }: Edges): Edges {
  const over = <E extends Bevel | Rebate>(edge: E): E => ({
    ...edge,
    longFace: edge.longFace === 'good' ? 'other' : 'good',
  });
  return { bevels: bevels.map(over), rebates: rebates.map(over) };
}

function keyOf({ outline, edges }: Body): string {
  return [outline === undefined ? '' : outlineKey(outline), edgesKey(edges)].join('\n');
}

/** `a bevel at its left and right`, `square edges`. */
export function edgesInWords({ bevels, rebates }: Edges): string {
  const at = (kind: string, all: readonly (Bevel | Rebate)[]): readonly string[] => {
    const faces = new Set(all.map(({ longFace }) => longFace));
    return [...faces].map((face) => {
      const sides = all.filter(({ longFace }) => longFace === face).map(({ side }) => side);
      return `a ${kind} at its ${sides.join(' and ')}${face === 'other' ? ', the long face behind' : ''}`;
    });
  };
  const words = [...at('bevel', bevels), ...at('rebate', rebates)];
  return words.length === 0 ? 'square edges' : words.join(' and ');
}
