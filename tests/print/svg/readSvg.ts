import { XMLParser, XMLValidator } from 'fast-xml-parser';

/** An SVG file as another program sees it: read by fast-xml-parser, which shares nothing with what wrote it. */
export interface ReadSvg {
  /** As they stand in the file. */
  readonly width: string;
  readonly height: string;
  readonly viewBox: string;
  readonly title: string;
  readonly about: string;
  readonly style: string;
  readonly texts: readonly ReadText[];
  readonly paths: readonly ReadPath[];
}

export interface ReadText {
  readonly text: string;
  readonly className: string;
  /** Where the baseline starts, in millimetres. */
  readonly x: number;
  readonly y: number;
  readonly sizeMm: number;
  readonly lengthMm: number;
}

export interface ReadPath {
  readonly className: string;
  readonly fill: string | undefined;
  readonly closed: boolean;
  readonly points: readonly (readonly [number, number])[];
}

interface Node {
  readonly ':@'?: Readonly<Record<string, string>>;
  readonly '#text'?: string;
  readonly [tag: string]: unknown;
}

export function readSvg(source: string): ReadSvg {
  const verdict = XMLValidator.validate(source);
  if (verdict !== true) throw new Error(`no XML: ${verdict.err.msg} in line ${verdict.err.line}`);
  const parser = new XMLParser({
    preserveOrder: true,
    ignoreAttributes: false,
    attributeNamePrefix: '',
    parseTagValue: false,
    trimValues: false,
  });
  const top: readonly Node[] = parser.parse(source);
  const svg = top.find((it) => 'svg' in it);
  if (svg === undefined) throw new Error('no svg element');
  const children = svg.svg as readonly Node[]; // what the parser puts there
  const about = attributesOf(svg);
  const one = (tag: string): string => textOf(children.find((it) => tag in it)?.[tag]);
  return {
    width: about.width ?? '',
    height: about.height ?? '',
    viewBox: about.viewBox ?? '',
    title: one('title'),
    about: one('desc'),
    style: one('style'),
    texts: children.flatMap((it) => ('text' in it ? [readText(it)] : [])),
    paths: children.flatMap((it) => ('path' in it ? readPaths(it) : [])),
  };
}

function attributesOf(node: Node): Readonly<Record<string, string>> {
  return node[':@'] ?? {};
}

function textOf(children: unknown): string {
  return ((children ?? []) as readonly Node[]).map((it) => it['#text'] ?? '').join(''); // as the parser does
}

function readText(node: Node): ReadText {
  const { class: className = '', x, y, transform, textLength, 'font-size': size } = attributesOf(node);
  const moved = /^translate\((\S+) (\S+)\)rotate\(-90\)$/.exec(transform ?? '');
  return {
    text: textOf(node.text),
    className,
    x: Number(moved?.[1] ?? x),
    y: Number(moved?.[2] ?? y),
    sizeMm: Number(size),
    lengthMm: Number(textLength),
  };
}

function readPaths(node: Node): readonly ReadPath[] {
  const { class: className = '', fill, d = '' } = attributesOf(node);
  return d
    .split('M')
    .slice(1)
    .map((subpath) => ({
      className,
      fill,
      closed: subpath.endsWith('Z'),
      points: subpath
        .replace('Z', '')
        .split('L')
        .map((corner) => {
          const [x = '', y = ''] = corner.split(' ');
          return [Number(x), Number(y)] as const;
        }),
    }));
}
