/**
 * What a PDF of many pages costs beside drawing the same primitives with pdfkit directly.
 *
 *   node tests/bench/pdf.mjs              the ratio of processor times on stdout, the figures on stderr
 *
 * Each run has a process of its own, ours and pdfkit's in turn; the ratio is the median over the pairs. Ours
 * composes the pages and draws them; pdfkit's is handed the composed marks and only draws them, one by one.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import PDFDocument from 'pdfkit';

const self = fileURLToPath(import.meta.url);
const [way, bundle] = process.argv.slice(2);
const pairs = 3;
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
    const both = Array.from({ length: pairs }, () => ({
      ours: run('ours', file),
      alone: run('alone', file),
    }));
    tell(
      'cardwright',
      both.map(({ ours }) => ours),
    );
    tell(
      'pdfkit alone',
      both.map(({ alone }) => alone),
    );
    console.log(median(both.map(({ ours, alone }) => ours.ms / alone.ms)).toFixed(2));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function run(which, file) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [self, which, file], { encoding: 'utf8' });
  if (status !== 0) throw new Error(`${which} ended with ${status}: ${stderr}`);
  return JSON.parse(stdout);
}

function tell(name, runs) {
  const figure = (key) => median(runs.map((it) => it[key]));
  console.error(
    `${name.padEnd(14)} ${figure('ms').toFixed(0).padStart(6)} ms of the processor  ${figure('megabytes').toFixed(0).padStart(5)} MB at most  ${(figure('bytes') / 1024).toFixed(0).padStart(5)} KB  ${figure('pages')} pages`,
  );
}

function median(figures) {
  return [...figures].sort((a, b) => a - b)[Math.floor(figures.length / 2)];
}

/** One document one way, in this process. */
async function once() {
  const { manyPages, marksOf, compose, printPdf, fontInWoff, lineTypes } = await import(
    pathToFileURL(bundle).href
  );
  const readFont = (name) => readFileSync(new URL(`../../shared/fonts/${name}`, import.meta.url));
  const fonts = {
    regular: readFont('IBMPlexSans-Regular.woff'),
    semibold: readFont('IBMPlexSans-SemiBold.woff'),
  };
  const made = manyPages();
  // Only the drawing is pdfkit's to pay for.
  const marks = way === 'alone' ? marksOf(made, readFont) : [];
  const plain =
    way === 'alone' ? { regular: fontInWoff(fonts.regular), semibold: fontInWoff(fonts.semibold) } : {};
  const before = process.cpuUsage();
  const bytes =
    way === 'alone'
      ? await drawAlone(marks, plain, lineTypes)
      : printPdf(compose(made, [], { version: 'bench', readFont }).value);
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
