// Bundles src/cli into dist/, one file for the start and one for what each command alone needs, and writes
// down the licences of every package whose code went in.
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('..', import.meta.url));
const dist = join(root, 'dist');
const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));

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
  plugins: [withoutChildProcesses()],
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

/** The parser of arguments could start other programs, which we never do; not even loading that costs less. */
function withoutChildProcesses() {
  return {
    name: 'without child processes',
    setup(it) {
      it.onResolve({ filter: /^(node:)?child_process$/ }, () => ({ path: 'none', namespace: 'none' }));
      it.onLoad({ filter: /.*/, namespace: 'none' }, () => ({
        contents: 'export default {}; export const spawn = undefined',
      }));
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
