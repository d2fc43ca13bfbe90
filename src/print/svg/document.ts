import type { Fonts } from '../font/index.ts';
import {
  lineTypes,
  type Mark,
  mmPerPt,
  type Path,
  type StrokeRole,
  type Weight,
  type Words,
} from '../page/index.ts';
import { carriedFont } from './carriedFont.ts';

export interface Described {
  readonly title: string;
  /** What it shows in words, for who does not see it. */
  readonly about: string;
}

/** Marks as elements, and what these need beside them in a file. */
export interface Drawn {
  readonly elements: string;
  readonly roles: ReadonlySet<StrokeRole>;
  readonly texts: Readonly<Record<Weight, ReadonlySet<string>>>;
}

/**
 * A page as one file that needs no other: true millimetres, text as text, and of the fonts as much as it sets.
 *
 * @source W3C "Scalable Vector Graphics (SVG) 2": 5.6 (title, desc), 8.2 (viewBox), 11 (text); "CSS Fonts 4"
 *   (@font-face)
 */
export function svgOf(
  { widthMm, heightMm }: { readonly widthMm: number; readonly heightMm: number },
  parts: readonly Drawn[],
  { title, about }: Described,
  fonts: Fonts,
): string {
  const [width, height] = [shown(widthMm), shown(heightMm)];
  const roles = new Set(parts.flatMap((part) => [...part.roles]));
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}" lang="en" role="graphics-document document" aria-labelledby="title about">`,
    `<title id="title">${escaped(title)}</title>`,
    `<desc id="about">${escaped(about)}</desc>`,
    `<style>${[...facesOf(parts, fonts), ...[...roles].map(lineRule)].join('\n')}`,
    'text{font-family:"sheet face","IBM Plex Sans",sans-serif;white-space:pre}',
    '.regular{font-weight:400}',
    '.semibold{font-weight:600}',
    '.fraction{font-variant-numeric:diagonal-fractions}',
    '</style>',
    `<rect width="${width}" height="${height}" fill="#fff"/>`,
    ...parts.map(({ elements }) => elements),
    '</svg>',
    '',
  ].join('\n');
}

const weights = { regular: 400, semibold: 600 } as const;

function facesOf(parts: readonly Drawn[], fonts: Fonts): readonly string[] {
  return (Object.keys(weights) as Weight[]) // keys of our own table
    .flatMap((weight) => {
      const texts = new Set(parts.flatMap((part) => [...part.texts[weight]]));
      if (texts.size === 0) return [];
      const bytes = carriedFont(fonts[weight], [...texts]);
      return `@font-face{font-family:"sheet face";font-weight:${weights[weight]};src:url(data:font/woff;base64,${base64(bytes)}) format("woff")}`;
    });
}

function lineRule(role: StrokeRole): string {
  const { widthMm, dashesMm } = lineTypes[role];
  const dashes = dashesMm.length === 0 ? '' : `;stroke-dasharray:${dashesMm.join(' ')}`;
  return `.${classOf(role)}{fill:none;stroke:#000;stroke-width:${widthMm}${dashes}}`;
}

function classOf(role: string): string {
  return role.replaceAll(' ', '-');
}

/** Neighbours of one meaning become one element, so that a hatching is one path. */
export function drawn(marks: readonly Mark[]): Drawn {
  const elements: string[] = [];
  const roles = new Set<StrokeRole>();
  const texts = { regular: new Set<string>(), semibold: new Set<string>() };
  let open: StrokeRole | undefined;
  let path = '';
  const close = (): void => {
    if (open !== undefined) elements.push(`<path class="${classOf(open)}" d="${path}"/>`);
    open = undefined;
    path = '';
  };
  for (const mark of marks) {
    if (mark.kind === 'stroke') {
      if (mark.role !== open) close();
      open = mark.role;
      roles.add(open);
      for (const it of mark.paths) path += traced(it);
      continue;
    }
    close();
    if (mark.kind === 'words') {
      elements.push(...text(mark));
      texts[mark.weight].add(mark.text);
    } else
      elements.push(
        `<path class="${classOf(mark.role)}" fill="${grounds[mark.role]}" d="${traced({ points: mark.points, closed: true })}"/>`,
      );
  }
  close();
  return { elements: elements.join('\n'), roles, texts };
}

const grounds = {
  clear: '#fff',
  'step ground': '#fff',
  'table ground': '#fff',
  'datum corner': '#000',
  'leader end': '#000',
} as const;

function traced({ points, closed }: Path): string {
  const corners = points.map(({ x, y }) => `${shown(x)} ${shown(y)}`);
  return `M${corners.join('L')}${closed ? 'Z' : ''}`;
}

/**
 * One line of text. It is told how long it is, so that it takes no more room where another font stands in. Figures
 * around U+2044 are a fraction; most renderers see that by themselves.
 */
function text({ text, at, turned, weight, sizePt, widthMm }: Words): readonly string[] {
  if (text === '') return [];
  const [x, y] = [shown(at.x), shown(at.y)];
  const place = turned ? `transform="translate(${x} ${y})rotate(-90)"` : `x="${x}" y="${y}"`;
  const length = `textLength="${shown(widthMm)}" lengthAdjust="spacingAndGlyphs"`;
  return [
    `<text class="${text.includes('\u2044') ? `${weight} fraction` : weight}" font-size="${shown(sizePt * mmPerPt)}" ${place} ${length}>${escaped(text)}</text>`,
  ];
}

/** To a thousandth of a millimetre. */
function shown(mm: number): string {
  return String(Math.round(mm * 1000) / 1000 + 0);
}

/** What XML lets stand in text; characters that no XML may hold are left out. */
function escaped(text: string): string {
  return [...text]
    .filter((it) => !/[\p{Cc}\p{Cs}\ufffe\uffff]/u.test(it))
    .join('')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}

function base64(bytes: Uint8Array): string {
  let letters = '';
  for (const byte of bytes) letters += String.fromCharCode(byte);
  return btoa(letters);
}
