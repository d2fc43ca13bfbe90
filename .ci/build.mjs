// Bundles src/cli into dist/, one file for the start and one for what each command alone needs, and writes
// down the licences of every package whose code went in.
import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { flattenable, flattened } from './flattened.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));
const dist = join(root, 'dist');
const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));

// Loading them costs milliseconds at each start.
const unused = [
  // The parser of arguments could start other programs, which we never do.
  { filter: /^(node:)?child_process$/, instead: 'export default {}' },
  // WOFF2 fonts are packed with it; ours are WOFF.
  {
    filter: /^brotli\/decompress\.js$/,
    instead: 'export default () => { throw new Error("a WOFF2 font, where WOFF is wanted") }',
  },
  // What pdfkit and its reader of fonts bring for breaking lines, shaping scripts and showing pictures: words come to
  // them as glyphs that are set. Each unpacks its tables as it is loaded.
  ...['linebreak', 'unicode-trie', 'dfa', 'png-js'].map((name) => ({
    filter: new RegExp(`^${name}$`),
    instead: `export default class { get() { throw new Error("${name}, which is not used") } }`,
  })),
  {
    filter: /^unicode-properties$/,
    instead: ['getCombiningClass', 'getScript', 'isDigit', 'getCategory', 'isMark']
      .map((name) => `export function ${name}() { throw new Error("${name}, which is not used") }`)
      .join('\n'),
  },
];

const { metafile, outputFiles } = await build({
  absWorkingDir: root,
  entryPoints: ['src/cli/start.ts'],
  outdir: 'dist',
  outExtension: { '.js': '.cjs' },
  entryNames: '[name]-[hash]',
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20.19',
  minifySyntax: true,
  minifyWhitespace: true,
  // Names stay, so that the trace in a report of a bug can be read.
  minifyIdentifiers: false,
  keepNames: false,
  write: false,
  metafile: true,
  legalComments: 'none',
  logLevel: 'warning',
  define: { __CARDWRIGHT_VERSION__: JSON.stringify(version), 'import.meta.url': '__url' },
  // What it keeps for browsers lacks nothing, and does not ask the environment about each token whether to log it.
  alias: { yaml: join(root, 'node_modules/yaml/browser/index.js') },
  plugins: [without(unused), { name: 'flat', setup: withFlatParser }],
});

// A command may run meanwhile, so nothing that it can still ask for is touched: names hold a hash of what is in them,
// and only when all is there does `built` point to it. What earlier builds left goes a while later.
mkdirSync(dist, { recursive: true });
const scripts = outputFiles.map(({ path, text }) => {
  const output = metafile.outputs[relative(root, path).replaceAll(sep, '/')];
  const name = basename(path);
  replace(name, asScript(name, text, output));
  return name;
});
const entry = scripts.find((it) => it.startsWith('start-'));
const compiled = `compiled/${process.version}-${process.platform}-${process.arch}`;
const { stderr } = spawnSync(process.execPath, [join(root, '.ci/compile.mjs'), entry, join(dist, compiled)], {
  encoding: 'utf8',
});
// It is slower to start without, and right all the same.
for (const it of stderr.match(/^(?:BUG|.*Error): .*/gm) ?? []) console.warn(it);

const packages = packagesIn(metafile);
replace('LICENSES.txt', licences(packages));
replace('built', `${[version, entry, ...scripts.filter((it) => it !== entry)].join('\n')}\n`);
for (const folder of [dist, join(dist, compiled)]) sweep(folder);
const bytes = outputFiles.reduce((sum, it) => sum + it.contents.length, 0);
console.log(
  `built ${scripts.length} files, ${Math.round(bytes / 1024)} KB, from ${packages.length} packages`,
);

/** What another build has just written is not known here, but young. */
function sweep(folder) {
  const youngMs = 10 * 60_000;
  const names = existsSync(folder) ? readdirSync(folder) : [];
  for (const name of names) {
    const script = /^\.?([\w.]+-[A-Z\d]{8}\.c?js)/.exec(name)?.[1];
    if (script === undefined || scripts.includes(script)) continue;
    if (Date.now() - statSync(join(folder, name)).mtimeMs > youngMs)
      rmSync(join(folder, name), { force: true });
  }
}

/** Whole or not at all. */
function replace(name, text) {
  const beside = join(dist, `.${name}.${process.pid}`);
  writeFileSync(beside, text);
  renameSync(beside, join(dist, name));
}

/**
 * A chunk as a script that `require` can run. esbuild splits modules only, and Node keeps compiled code of scripts
 * only. Chunks never import each other in a circle and change nothing that they export once they have run, so that
 * what is imported may be looked up once.
 */
function asScript(name, text, { imports }) {
  const count = { 'import-statement': 0, 'dynamic-import': 0 };
  const required = [];
  const body = text
    .replace(/(?<=^|[;}\n])import(?:([\w*{},$ ]+?)from)?"([^"]+)";/g, (_, names = '', path) => {
      count['import-statement']++;
      required.push(...requirements(names.trim(), path));
      return '';
    })
    .replace(/\bimport\("([^"]+)"\)/g, (_, path) => {
      count['dynamic-import']++;
      return `Promise.resolve().then(()=>require(${JSON.stringify(path)}))`;
    })
    .replace(/(?<=^|[;}\n])export\{([^}]*)\};\s*$/, (_, names) => `module.exports={${renamed(names, 1, 0)}};`)
    .replace(/(?<=^|[;}\n])export default (.*);\s*$/, (_, value) => `module.exports={default:${value}};`);
  for (const kind of Object.keys(count)) {
    const expected = imports.filter((it) => it.kind === kind).length;
    if (count[kind] !== expected)
      throw new Error(`${name}: ${count[kind]} of ${expected} ${kind}s were found`);
  }
  const url = body.includes('__url') ? 'const __url=require("node:url").pathToFileURL(__filename).href;' : '';
  return inAscii(`"use strict";${required.join('')}${url}${body}`);
}

/** Read as ASCII, a script takes half the time and room. What esbuild leaves stands in regular expressions. */
function inAscii(text) {
  return text.replace(/[^\0-\x7f]/g, (it) => `\\u${it.charCodeAt(0).toString(16).padStart(4, '0')}`);
}

/** `a,{b as c}` or `*as d` of an import, as what a script says instead. */
function requirements(names, path) {
  const from = `require(${JSON.stringify(path)})`;
  if (names === '') return [`${from};`];
  const [, single, several] = /^([\w$]+|\*as [\w$]+)?,?(\{.*\})?$/.exec(names);
  return [
    ...(single === undefined
      ? []
      : [
          `const ${single.replace('*as ', '')}=${path.startsWith('./') && !single.startsWith('*') ? `${from}.default` : from};`,
        ]),
    ...(several === undefined ? [] : [`const{${renamed(several.slice(1, -1), 0, 1)}}=${from};`]),
  ];
}

/** `a as b,c` as `a:b,c:c`, or the other way round. */
function renamed(names, key, value) {
  return names
    .split(',')
    .filter((it) => it !== '')
    .map((it) => {
      const pair = it.trim().split(' as ');
      const both = [pair[0], pair[1] ?? pair[0]];
      return `${both[key]}:${both[value]}`;
    })
    .join(',');
}

/** Takes out what a library brings along for work that is never asked of it here. */
function without(modules) {
  return {
    name: 'without what is not used',
    setup(it) {
      for (const { filter, instead } of modules) {
        it.onResolve({ filter }, ({ path }) => ({ path, namespace: instead }));
        it.onLoad({ filter, namespace: instead }, () => ({ contents: instead }));
      }
    },
  };
}

function withFlatParser(it) {
  it.onLoad({ filter: flattenable }, ({ path }) => ({
    contents: flattened(basename(path, '.js'), readFileSync(path, 'utf8')),
  }));
}

function packagesIn({ outputs }) {
  const found = new Set();
  for (const { inputs } of Object.values(outputs)) {
    for (const [path, { bytesInOutput }] of Object.entries(inputs)) {
      const name = /^(?:.*\/)?node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(path);
      if (name !== null && bytesInOutput > 0)
        found.add(path.slice(0, path.lastIndexOf(name[1]) + name[1].length));
    }
  }
  return [...found].sort();
}

function licences(folders) {
  const sections = folders.map((folder) => {
    const about = JSON.parse(readFileSync(join(root, packageFolder(folder), 'package.json'), 'utf8'));
    const files = readdirSync(join(root, packageFolder(folder))).filter((it) =>
      /^(licen[cs]e|copying|notice)/i.test(it),
    );
    const texts = files.map((it) => readFileSync(join(root, packageFolder(folder), it), 'utf8').trim());
    const licence =
      typeof about.license === 'string' ? about.license : (about.license?.type ?? 'see its homepage');
    const text =
      texts.length > 0 ? texts.join('\n\n') : `(the package holds no licence text; it names ${licence})`;
    return `${about.name} ${about.version} (${licence})\n\n${text}\n`;
  });
  const rule = `\n${'-'.repeat(78)}\n\n`;
  return `cardwright's own code is under the MIT licence. Its bundle holds code of these packages:\n${rule}${sections.join(rule)}`;
}

// The path in the bundle ends at the package's name; scopes and nesting are kept.
function packageFolder(path) {
  let folder = path;
  while (!existsSync(join(root, folder, 'package.json')) && folder !== '.') folder = dirname(folder);
  return folder;
}
