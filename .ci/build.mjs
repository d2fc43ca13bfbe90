// Bundles src/cli into dist/, one file for the start and one for what each command alone needs, and writes
// down the licences of every package whose code went in.
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

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
];

rmSync(dist, { recursive: true, force: true });
const { metafile } = await build({
  absWorkingDir: root,
  entryPoints: ['src/cli/start.ts'],
  outdir: 'dist',
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
  metafile: true,
  legalComments: 'none',
  logLevel: 'warning',
  define: { __CARDWRIGHT_VERSION__: JSON.stringify(version) },
  plugins: [without(unused)],
});

mkdirSync(dist, { recursive: true });
for (const path of Object.keys(metafile.outputs)) giveRequire(join(root, path));
const packages = packagesIn(metafile);
writeFileSync(join(dist, 'LICENSES.txt'), licences(packages));
writeFileSync(join(dist, 'built'), `${version}\n`);
const bytes = Object.values(metafile.outputs).reduce((sum, it) => sum + it.bytes, 0);
console.log(
  `built ${Object.keys(metafile.outputs).length} files, ${Math.round(bytes / 1024)} KB, from ${packages.length} packages`,
);

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

/** Some libraries were written for CommonJS and ask for what a module does not have by itself. */
function giveRequire(path) {
  const text = readFileSync(path, 'utf8');
  if (!text.includes('typeof require')) return;
  const banner =
    "import{createRequire as __createRequire}from'node:module';const require=__createRequire(import.meta.url);";
  writeFileSync(path, `${banner}${text}`);
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
