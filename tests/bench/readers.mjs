/**
 * Two readers of PDF that share nothing, pdfjs and poppler, on the printed examples: what each finds of words and
 * of lines, and where, has to be the same. Exit code 1 where it is not; skipped, and says so, without poppler.
 *
 *   node tests/bench/readers.mjs [FILE.pdf …]
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { XMLParser } from 'fast-xml-parser';
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';

const printed = ['vineyard', 'tram-stop'].map((name) =>
  fileURLToPath(new URL(`../../examples/printed/${name}.pdf`, import.meta.url)),
);
const files = process.argv.length > 2 ? process.argv.slice(2) : printed;
/** A twentieth of a millimetre, in points. */
const closePt = (0.05 * 72) / 25.4;
const xml = new XMLParser({ ignoreAttributes: false, attributeNamePrefix: '', trimValues: false });

if (spawnSync('pdftotext', ['-v']).status !== 0 || spawnSync('pdftocairo', ['-v']).status !== 0) {
  console.log('SKIPPED: pdftotext and pdftocairo (poppler) are not here; nothing was compared');
} else {
  for (const file of files) await compare(file);
}

async function compare(file) {
  const folder = mkdtempSync(join(tmpdir(), 'cardwright-readers-'));
  const task = getDocument({ data: new Uint8Array(readFileSync(file)), verbosity: 0 });
  const document = await task.promise;
  const boxed = wordsByPoppler(file);
  const counts = { words: 0, strange: [], outlines: 0, missing: 0 };
  for (let number = 1; number <= document.numPages; number++) {
    const page = await document.getPage(number);
    const height = page.view[3];
    for (const { str, transform } of (await page.getTextContent()).items) {
      const [first] = wordsOf(str);
      if (first === undefined) continue;
      counts.words++;
      const [x, y] = [transform[4], height - transform[5]];
      const found = boxed[number - 1].some(({ text, box }) => text.startsWith(first) && holds(box, x, y));
      if (!found) counts.strange.push(`page ${number}: "${first}" at ${x.toFixed(1)} ${y.toFixed(1)}`);
    }
    const theirs = rectanglesByPoppler(file, number, folder);
    const ours = await rectanglesByPdfjs(page);
    counts.outlines += ours.length;
    for (const box of ours) if (!theirs.some((it) => isSame(it, box))) counts.missing++;
    counts.outlines += Math.max(0, theirs.length - ours.length);
    if (theirs.length !== ours.length) counts.missing += Math.abs(theirs.length - ours.length);
  }
  await task.destroy();
  rmSync(folder, { recursive: true });
  const agree = counts.strange.length === 0 && counts.missing === 0;
  console.log(
    `${file.split('/').at(-1).padEnd(16)} ${counts.words} words, ${counts.outlines} rectangles: ${agree ? 'both readers agree' : `OTHERWISE by poppler: ${counts.strange.length} words, ${counts.missing} rectangles`}`,
  );
  for (const it of counts.strange.slice(0, 10)) console.log(`  ${it}`);
  if (!agree || counts.words === 0 || counts.outlines === 0) process.exitCode = 1;
}

/** Spaces of any width part words, for one reader; the other is not sure about narrow ones. */
function wordsOf(text) {
  return text.split(/\s+/u).filter((it) => it !== '');
}

function wordsByPoppler(file) {
  const { stdout } = spawnSync('pdftotext', ['-bbox', file, '-'], { encoding: 'utf8', maxBuffer: 1 << 28 });
  const { page } = xml.parse(stdout).html.body.doc;
  return [page].flat().map(({ word = [] }) =>
    [word].flat().map((it) => ({
      text: String(it['#text']),
      box: [it.xMin, it.yMin, it.xMax, it.yMax].map(Number),
    })),
  );
}

function holds([left, top, right, bottom], x, y) {
  const near = 1;
  return left - near <= x && x <= right + near && top - near <= y && y <= bottom + near;
}

/** Closed paths of four corners, as left, top, right, bottom in points, y downwards. */
async function rectanglesByPdfjs(page) {
  const { fnArray, argsArray } = await page.getOperatorList();
  const height = page.view[3];
  const found = [];
  let matrix = [1, 0, 0, 1, 0, 0];
  const saved = [];
  fnArray.forEach((operator, index) => {
    const args = argsArray[index];
    if (operator === OPS.save) saved.push(matrix);
    else if (operator === OPS.restore) matrix = saved.pop() ?? matrix;
    else if (operator === OPS.transform) matrix = multiplied(matrix, args);
    else if (operator === OPS.constructPath) {
      for (const points of closedIn([...args[1][0]]))
        found.push(boxOf(points.map((it) => placed(matrix, it)).map(([x, y]) => [x, height - y])));
    }
  });
  return found;
}

/** pdfjs hands a path over as numbers: 0 move, 1 line, 4 close. */
function closedIn(numbers) {
  const closed = [];
  let points = [];
  for (let at = 0; at < numbers.length; ) {
    const operation = numbers[at++];
    if (operation === 4) {
      if (points.length === 4) closed.push(points);
      continue;
    }
    if (operation === 0) points = [];
    points.push([numbers[at++], numbers[at++]]);
  }
  return closed;
}

function rectanglesByPoppler(file, page, folder) {
  const target = join(folder, 'page.svg');
  // Left alone, it would make the page smaller by the part of a point that the paper is not whole.
  const asItIs = ['-svg', '-noshrink', '-nocenter', '-f', String(page), '-l', String(page)];
  spawnSync('pdftocairo', [...asItIs, file, target]);
  const found = [];
  for (const [element] of readFileSync(target, 'utf8').matchAll(/<path [^>]*>/g)) {
    // Letters have no line and no rule of filling.
    if (!/[ ";](?:stroke-width|fill-rule):/.test(element)) continue;
    const d = / d="([^"]*)"/.exec(element)?.[1] ?? '';
    const matrix = /matrix\(([^)]*)\)/.exec(element)?.[1].split(/[ ,]+/).map(Number) ?? [1, 0, 0, 1, 0, 0];
    for (const subpath of d.split('M').slice(1)) {
      if (!subpath.includes('Z')) continue;
      const points = subpath
        .replace(/Z.*/s, '')
        .split('L')
        .map((it) => it.trim().split(/\s+/).map(Number));
      if (points.length === 4) found.push(boxOf(points.map((it) => placed(matrix, it))));
    }
  }
  return found;
}

function boxOf(points) {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}

function isSame(a, b) {
  return a.every((side, index) => Math.abs(side - b[index]) <= closePt);
}

function placed([a, b, c, d, e, f], [x, y]) {
  return [a * x + c * y + e, b * x + d * y + f];
}

function multiplied([a, b, c, d, e, f], [g, h, i, j, k, l]) {
  return [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f];
}
