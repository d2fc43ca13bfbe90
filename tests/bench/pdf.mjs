/**
 * What a PDF of many pages costs beside drawing the same primitives with pdfkit directly, and how that grows.
 *
 *   node tests/bench/pdf.mjs              three figures of the largest print on stdout, the growth on stderr
 *
 * Every layout is of 200 pieces and fills two or three pages. Each run has a process of its own, ours and
 * pdfkit's in turn; the ratio is the median over the pairs. Ours composes the pages and draws them; pdfkit's is
 * handed the composed marks and only draws them, one by one.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import PDFDocument from 'pdfkit';

const self = fileURLToPath(import.meta.url);
const [way, bundle, count] = process.argv.slice(2);
const pairs = 3;
// Both run as the program itself does: see bin/cardwright.js.
const asShipped = process.versions.node.startsWith('20.')
  ? ['--interrupt-budget=500000', '--no-allocation-site-pretenuring']
  : [];
// The last makes 200 pages, all but three.
const sizes = [12, 24, 48, 97];
const ptPerMm = 72 / 25.4;

if (way === undefined) await compare();
else await once();

async function compare() {
  const folder = mkdtempSync(join(tmpdir(), 'cardwright-bench-'));
  try {
    const file = join(folder, 'printing.mjs');
    await build({
      entryPoints: [fileURLToPath(new URL('printing.ts', import.meta.url))],
      bundle: true,
      format: 'esm',
      platform: 'node',
      outfile: file,
      logLevel: 'error',
      banner: {
        js: "import{createRequire as __createRequire}from'node:module';const require=__createRequire(import.meta.url);",
      },
    });
    console.error('pages    ours, ms  pdfkit alone    ratio   ours, most MB   ours, KB');
    let figures;
    for (const size of sizes) {
      const both = Array.from({ length: size === sizes.at(-1) ? pairs : 1 }, () => ({
        ours: run('ours', file, size),
        alone: run('alone', file, size),
      }));
      figures = tell(both);
    }
    console.log(JSON.stringify(figures));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function run(which, file, size) {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [...asShipped, self, which, file, String(size)],
    { encoding: 'utf8' },
  );
  if (status !== 0) throw new Error(`${which} ended with ${status}: ${stderr}`);
  return JSON.parse(stdout);
}

/** A row of the table; the figures that have a bar. */
function tell(both) {
  const of = (which, key) => median(both.map((it) => it[which][key]));
  const ratio = median(both.map(({ ours, alone }) => ours.ms / alone.ms));
  const [megabytes, bytes] = [of('ours', 'megabytes'), of('ours', 'bytes')];
  const columns = [
    [of('ours', 'pages'), 5],
    [of('ours', 'ms').toFixed(0), 12],
    [of('alone', 'ms').toFixed(0), 14],
    [ratio.toFixed(2), 9],
    [megabytes.toFixed(0), 16],
    [(bytes / 1024).toFixed(0), 11],
  ];
  console.error(columns.map(([text, width]) => String(text).padStart(width)).join(''));
  return { ratio, megabytes, bytes };
}

function median(figures) {
  return [...figures].sort((a, b) => a - b)[Math.floor(figures.length / 2)];
}

/** One document one way, in this process. */
async function once() {
  const { manyPages, marksOf, compose, pdfOf, fontInWoff, lineTypes } = await import(
    pathToFileURL(bundle).href
  );
  const readFont = (name) => readFileSync(new URL(`../../shared/fonts/${name}`, import.meta.url));
  const fonts = {
    regular: readFont('IBMPlexSans-Regular.woff'),
    semibold: readFont('IBMPlexSans-SemiBold.woff'),
  };
  const made = manyPages(Number(count));
  // Only the drawing is pdfkit's to pay for.
  const marks = way === 'alone' ? marksOf(made, readFont) : [];
  const plain =
    way === 'alone' ? { regular: fontInWoff(fonts.regular), semibold: fontInWoff(fonts.semibold) } : {};
  const before = process.cpuUsage();
  const bytes =
    way === 'alone'
      ? await drawAlone(marks, plain, lineTypes)
      : pdfOf(compose(made, [], { version: 'bench', readFont }).value);
  const { user, system } = process.cpuUsage(before);
  const pages =
    Buffer.from(bytes)
      .toString('latin1')
      .match(/\/Type \/Page\b/g)?.length ?? 0;
  if (pages < 20) throw new Error(`only ${pages} pages were printed`);
  console.log(
    JSON.stringify({
      ms: (user + system) / 1000,
      megabytes: process.resourceUsage().maxRSS / 1024,
      bytes: bytes.length,
      pages,
    }),
  );
}

async function drawAlone(pages, fonts, lineTypes) {
  const document = new PDFDocument({ autoFirstPage: false, font: null });
  const chunks = [];
  document.on('data', (chunk) => chunks.push(chunk));
  const ended = new Promise((resolve) => document.on('end', resolve));
  for (const [name, font] of Object.entries(fonts)) document.registerFont(name, font);
  for (const { widthMm, heightMm, marks } of pages) {
    document.addPage({ size: [widthMm * ptPerMm, heightMm * ptPerMm], margin: 0 });
    for (const mark of marks) drawMark(document, mark, lineTypes);
  }
  document.end();
  await ended;
  return Buffer.concat(chunks);
}

function drawMark(document, mark, lineTypes) {
  if (mark.kind === 'words') {
    const [x, y] = [mark.at.x * ptPerMm, mark.at.y * ptPerMm];
    document.font(mark.weight, mark.sizePt).fillColor('black');
    if (mark.turned) document.save().rotate(-90, { origin: [x, y] });
    document.text(mark.text, x, y, { lineBreak: false, baseline: 'alphabetic' });
    if (mark.turned) document.restore();
    return;
  }
  const paths = mark.kind === 'patch' ? [{ points: mark.points, closed: true }] : mark.paths;
  for (const { points, closed } of paths) {
    for (const [index, { x, y }] of points.entries()) {
      if (index === 0) document.moveTo(x * ptPerMm, y * ptPerMm);
      else document.lineTo(x * ptPerMm, y * ptPerMm);
    }
    if (closed) document.closePath();
  }
  if (mark.kind === 'patch') {
    document.fill(mark.role === 'datum corner' || mark.role === 'leader end' ? 'black' : 'white');
    return;
  }
  const { widthMm, dashesMm } = lineTypes[mark.role];
  document.lineWidth(widthMm * ptPerMm);
  if (dashesMm.length < 2) document.undash();
  else document.dash(dashesMm[0] * ptPerMm, { space: dashesMm[1] * ptPerMm });
  document.stroke();
}
