#!/usr/bin/env node
// No `import` here: of a module of Node's own it would also load what we never use. Each costs milliseconds.
const { existsSync, readFileSync } = process.getBuiltinModule('node:fs');
const nodeModule = process.getBuiltinModule('node:module');
const { setFlagsFromString } = process.getBuiltinModule('node:v8');
const { Script } = process.getBuiltinModule('node:vm');

// Compiling for speed begins later than is usual: an evening's run ends before most of it would pay, and it takes a
// third of the processor's time. A long search reaches it all the same. And what mostly lives long is not laid with the
// old at once: dead trees there would keep others alive that the search has long dropped, and gathering those took a
// fifth of a large evening. Only in the Nodes that each was tried with; later ones are quicker without.
const compilesLater = '--interrupt-budget=500000';
const laysNothingWithTheOld = '--no-allocation-site-pretenuring';
const flags = { 20: [compilesLater, laysNothingWithTheOld], 22: [laysNothingWithTheOld] };
for (const flag of flags[Number.parseInt(process.versions.node, 10)] ?? []) setFlagsFromString(flag);

const dist = `${import.meta.dirname}/../dist`;
if (existsSync(`${dist}/built`)) {
  const [, entry] = readFileSync(`${dist}/built`, 'utf8').split('\n');
  await load()(`./${entry}`).start();
} else {
  process.stderr.write('cardwright is not built yet; in its folder run:  npm run build\n');
  process.exitCode = 3;
}

/** What `require` is to the scripts in dist/. */
function load() {
  const outside = nodeModule.createRequire(`${dist}/built`);
  const compiled = `${dist}/compiled/${process.version}-${process.platform}-${process.arch}`;
  if (!existsSync(compiled)) {
    // Newer versions of Node keep what they have compiled, so that the next start is quicker.
    nodeModule.enableCompileCache?.();
    return outside;
  }
  // What the build compiled is for this Node. V8 looks at it again, and compiles anew what it does not trust.
  const loaded = new Map();
  const require = (name) => {
    if (!name.startsWith('./')) return outside(name);
    const known = loaded.get(name);
    if (known !== undefined) return known.exports;
    const filename = `${dist}/${name}`;
    const cache = `${compiled}/${name}.bin`;
    const script = new Script(nodeModule.wrap(readFileSync(filename, 'latin1')), {
      filename,
      ...(existsSync(cache) ? { cachedData: readFileSync(cache) } : {}),
    });
    const module = { exports: {} };
    loaded.set(name, module);
    script.runInThisContext()(module.exports, require, module, filename, dist);
    return module.exports;
  };
  return require;
}
