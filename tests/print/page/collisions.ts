import {
  type Area,
  areaOf,
  leastFractionPt,
  leastPt,
  type Mark,
  type Page,
  type Patch,
  type Point,
  type Words,
} from '../../../src/print/page/index.ts';

/**
 * Looks at nothing but the marks of a page: what overlaps, leaves the printable area, or is too small to be
 * read. It shares no code with what placed them, save the box of a text.
 *
 * @returns a sentence for each fault, none for a good page
 */
export function faultsOf(page: Page, marginMm: number): readonly string[] {
  const printable = {
    left: marginMm,
    top: marginMm,
    right: page.widthMm - marginMm,
    bottom: page.heightMm - marginMm,
  };
  const words = page.marks.flatMap((mark, order) => (mark.kind === 'words' ? [{ mark, order }] : []));
  return [
    ...words.flatMap(({ mark }) => tooSmall(mark)),
    ...page.marks.flatMap((mark) => outside(mark, printable)),
    ...overlaps(words.map(({ mark }) => mark)),
    ...words.flatMap(({ mark, order }) => crossed(mark, order, page.marks)),
    ...ringFaults(page.marks),
    ...onBlack(page.marks),
  ];
}

function tooSmall({ text, sizePt }: Words): readonly string[] {
  if (sizePt < leastPt) return [`"${text}" is ${sizePt} pt`];
  if (/\u2044/.test(text) && sizePt < leastFractionPt) return [`fraction "${text}" is ${sizePt} pt`];
  return [];
}

const hair = 0.05;

function outside(mark: Mark, { left, top, right, bottom }: Area): readonly string[] {
  const box = boxOf(mark);
  const isOut =
    box.left < left - hair || box.right > right + hair || box.top < top - hair || box.bottom > bottom + hair;
  return isOut ? [`${nameOf(mark)} leaves the printable area`] : [];
}

function overlaps(words: readonly Words[]): readonly string[] {
  const boxes = words.map((mark) => ({ mark, box: areaOf(mark) })).sort((a, b) => a.box.left - b.box.left);
  return boxes.flatMap(({ mark, box }, index) => {
    const found: string[] = [];
    for (const other of boxes.slice(index + 1)) {
      if (other.box.left >= box.right - hair) break;
      if (other.box.top < box.bottom - hair && box.top < other.box.bottom - hair) {
        found.push(`${nameOf(mark)} overlaps ${nameOf(other.mark)}`);
      }
    }
    return found;
  });
}

/** A line may pass under a text only where ground has been laid between the two. */
function crossed(word: Words, order: number, marks: readonly Mark[]): readonly string[] {
  const whole = areaOf(word);
  // Letters hardly ever reach the very edge of their box.
  const box = shrunk(whole, 0.3);
  return marks.flatMap((mark, at) => {
    if (mark.kind !== 'stroke') return [];
    const meets = mark.paths.some(({ points, closed }) =>
      (closed ? [...points, points[0]] : points).some(
        (to, index, all) => index > 0 && segmentMeets(all[index - 1]!, to, box),
      ),
    );
    if (!meets) return [];
    const isCovered = marks.some(
      (patch, between) =>
        patch.kind === 'patch' && between > at && between < order && covers(patch, shrunk(whole, 0.3)),
    );
    return isCovered ? [] : [`${nameOf(word)} is crossed by a ${mark.role}`];
  });
}

function ringFaults(marks: readonly Mark[]): readonly string[] {
  const rings = marks.flatMap((mark) => (mark.kind === 'stroke' && mark.role === 'step ring' ? [mark] : []));
  const words = marks.flatMap((mark) => (mark.kind === 'words' && mark.role !== 'step number' ? [mark] : []));
  return rings.flatMap((ring, index) => {
    const box = shrunk(boxOf(ring), hair);
    return [
      ...rings
        .slice(index + 1)
        .flatMap((other) => (overlap(box, boxOf(other)) ? ['two step numbers meet'] : [])),
      ...words.flatMap((word) =>
        overlap(box, shrunk(areaOf(word), hair)) ? [`a step number lies on ${nameOf(word)}`] : [],
      ),
    ];
  });
}

/** Black grounds carry no words. */
function onBlack(marks: readonly Mark[]): readonly string[] {
  const words = marks.flatMap((mark) => (mark.kind === 'words' ? [mark] : []));
  return marks.flatMap((mark) => {
    if (mark.kind !== 'patch' || mark.role === 'clear' || mark.role === 'step ground') return [];
    const box = shrunk(boxOfPoints(mark.points), hair);
    return words.flatMap((word) =>
      overlap(box, shrunk(areaOf(word), 0.3)) ? [`${nameOf(word)} lies on a ${mark.role}`] : [],
    );
  });
}

function covers({ role, points }: Patch, { left, right, top, bottom }: Area): boolean {
  if (role !== 'clear' && role !== 'step ground') return false;
  const box = boxOfPoints(points);
  return box.left <= left && box.right >= right && box.top <= top && box.bottom >= bottom;
}

/** Liang and Barsky (ACM Trans. Graphics 3 (1984), 1): the part of a segment inside a rectangle. */
export function segmentMeets(from: Point, to: Point, { left, right, top, bottom }: Area): boolean {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  let [enter, leave] = [0, 1];
  const sides: readonly (readonly [number, number])[] = [
    [-dx, from.x - left],
    [dx, right - from.x],
    [-dy, from.y - top],
    [dy, bottom - from.y],
  ];
  for (const [p, q] of sides) {
    if (p === 0) {
      if (q <= 0) return false;
      continue;
    }
    const t = q / p;
    if (p < 0) enter = Math.max(enter, t);
    else leave = Math.min(leave, t);
  }
  return enter < leave;
}

function boxOf(mark: Mark): Area {
  switch (mark.kind) {
    case 'words':
      return areaOf(mark);
    case 'patch':
      return boxOfPoints(mark.points);
    case 'stroke':
      return boxOfPoints(mark.paths.flatMap(({ points }) => points));
  }
}

function boxOfPoints(points: readonly Point[]): Area {
  return {
    left: Math.min(...points.map(({ x }) => x)),
    right: Math.max(...points.map(({ x }) => x)),
    top: Math.min(...points.map(({ y }) => y)),
    bottom: Math.max(...points.map(({ y }) => y)),
  };
}

function shrunk({ left, right, top, bottom }: Area, by: number): Area {
  return { left: left + by, right: right - by, top: top + by, bottom: bottom - by };
}

function overlap(a: Area, b: Area): boolean {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

function nameOf(mark: Mark): string {
  return mark.kind === 'words' ? `${mark.role} "${mark.text}"` : mark.role;
}
