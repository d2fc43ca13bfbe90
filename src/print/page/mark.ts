import type { NonEmpty } from '../../model/index.ts';

/**
 * The primitives of a page. Each says what it means; how it looks follows from its meaning alone
 * (`strokes.ts`, `type.ts`), so that every renderer draws the same language of marks and a checker can tell
 * what may cross what. Millimetres from the left top corner of the paper, y runs down.
 */
export type Mark = Stroke | Patch | Words;

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Lines of one meaning: each path is drawn on its own. */
export interface Stroke {
  readonly kind: 'stroke';
  readonly role: StrokeRole;
  readonly paths: NonEmpty<Path>;
}

export interface Path {
  readonly points: NonEmpty<Point>;
  readonly closed: boolean;
}

export type StrokeRole =
  | 'part outline'
  | 'first cut'
  | 'cut'
  | 'cut made'
  | 'fold'
  | 'valley fold'
  | 'bend axis'
  | 'bevel'
  | 'bevel edge'
  | 'hidden edge'
  | 'rebate'
  | 'centre line'
  | 'pencil mark'
  | 'good side'
  | 'dimension'
  | 'sheet outline'
  | 'keep outline'
  | 'keep hatch'
  | 'scrap hatch'
  | 'trim hatch'
  | 'grain'
  | 'flutes'
  | 'datum edge'
  | 'rule tick'
  | 'running mark'
  | 'step ring'
  | 'leader'
  | 'page rule'
  | 'table rule'
  | 'tick box'
  | 'scale bar'
  | 'register mark'
  | 'joint';

/** A filled area: paper white to clear what lies under it, or black. */
export interface Patch {
  readonly kind: 'patch';
  readonly role: 'clear' | 'step ground' | 'datum corner' | 'leader end' | 'table ground';
  readonly points: NonEmpty<Point>;
}

/** One line of text. */
export interface Words {
  readonly kind: 'words';
  readonly role: WordsRole;
  readonly text: string;
  /** Where the baseline starts; a turned text runs upwards from there, to be read from the right. */
  readonly at: Point;
  readonly turned: boolean;
  readonly weight: Weight;
  readonly sizePt: number;
  /** Along the baseline, from the font's own metrics. */
  readonly widthMm: number;
}

export type WordsRole =
  | 'statement'
  | 'title'
  | 'heading'
  | 'text'
  | 'caption'
  | 'part label'
  | 'tight label'
  | 'part size'
  | 'left over'
  | 'key'
  | 'running mark'
  | 'strip name'
  | 'step number'
  | 'scale bar';

export type Weight = 'regular' | 'semibold';

/** A page of paper. */
export interface Page {
  readonly widthMm: number;
  readonly heightMm: number;
  /** What begins on it. */
  readonly bookmarks: readonly string[];
  readonly marks: readonly Mark[];
}

/**
 * A page as it is composed, before anybody knows how many there will be: what composes pages gives each away as
 * soon as it is full, so that no more than a few are ever held.
 */
export interface OpenPage extends Omit<Page, 'marks'> {
  readonly number: number;
  /** What it belongs to, where pages are asked for by that. */
  readonly part?: 'slips';
  /** What is on this page alone. */
  readonly own: readonly Mark[];
  /** The same on every page of its size, and then the same list. */
  readonly foot: readonly Mark[];
  /** How many pages there are stands in it. */
  readonly head: (of: number) => readonly Mark[];
}

/** Gives pages, and nothing where work may pause; in the end, how many there are. */
export type Pages = Generator<OpenPage | undefined, number>;

/** Work that pauses now and then, for whoever drives it to look up. */
export type Pausing<Result = void> = Generator<undefined, Result>;

/** A page with all that stands on it. */
export function closed({ widthMm, heightMm, bookmarks, own, foot, head }: OpenPage, of: number): Page {
  return { widthMm, heightMm, bookmarks, marks: [...head(of), ...own, ...foot] };
}

export interface Area {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export function line(role: StrokeRole, from: Point, to: Point): Stroke {
  return { kind: 'stroke', role, paths: [{ points: [from, to], closed: false }] };
}

/** Several lines of one meaning as one mark; undefined where there are none. */
export function lines(role: StrokeRole, ends: readonly (readonly [Point, Point])[]): readonly Stroke[] {
  const [first, ...rest] = ends.map(([from, to]): Path => ({ points: [from, to], closed: false }));
  return first === undefined ? [] : [{ kind: 'stroke', role, paths: [first, ...rest] }];
}

export function rectangle(role: StrokeRole, area: Area): Stroke {
  return { kind: 'stroke', role, paths: [{ points: corners(area), closed: true }] };
}

export function patch(role: Patch['role'], area: Area): Patch {
  return { kind: 'patch', role, points: corners(area) };
}

export function corners({ left, top, right, bottom }: Area): NonEmpty<Point> {
  return [
    { x: left, y: top },
    { x: right, y: top },
    { x: right, y: bottom },
    { x: left, y: bottom },
  ];
}

export function areaOfPoints(points: NonEmpty<Point>): Area {
  const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
  return { left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys) };
}

/** A circle as a polygon whose sides miss it by less than 0.02 mm up to a radius of 2.3 mm. */
export function circle(centre: Point, radius: number): NonEmpty<Point> {
  const at = ({ x, y }: Point): Point => ({ x: centre.x + radius * x, y: centre.y + radius * y });
  return each(radius < 1 ? directions12 : directions24, at);
}

const directions12 = directions(12);
const directions24 = directions(24);

/** The corners of a polygon about a circle of radius 1. */
function directions(sides: number): NonEmpty<Point> {
  const at = (corner: number): Point => ({
    x: Math.cos((2 * corner * Math.PI) / sides),
    y: Math.sin((2 * corner * Math.PI) / sides),
  });
  return [at(0), ...Array.from({ length: sides - 1 }, (_, before) => at(before + 1))];
}

/** The same marks farther down the page. */
export function lowered(marks: readonly Mark[], byMm: number): readonly Mark[] {
  return Math.abs(byMm) < 1e-6 ? marks : moved(marks, ({ x, y }) => ({ x, y: y + byMm }));
}

/** The same marks with each of their points elsewhere; words keep their size. */
export function moved(marks: readonly Mark[], to: (at: Point) => Point): readonly Mark[] {
  const movedPath = ({ points, closed }: Path): Path => ({ points: each(points, to), closed });
  return marks.map((mark): Mark => {
    if (mark.kind === 'words') return { ...mark, at: to(mark.at) };
    if (mark.kind === 'patch') return { ...mark, points: each(mark.points, to) };
    return { ...mark, paths: each(mark.paths, movedPath) };
  });
}

function each<From, To>(all: NonEmpty<From>, to: (it: From) => To): NonEmpty<To> {
  return all.map(to) as unknown as NonEmpty<To>; // as many as there were
}
