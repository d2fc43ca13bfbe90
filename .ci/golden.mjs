// Writes examples/printed/ anew. Read the difference before you commit it.
import { execFileSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
mkdirSync(join(root, 'examples/printed'), { recursive: true });
for (const session of ['vineyard', 'tram-stop']) {
  const outputs = ['pdf', 'txt', 'json'].flatMap((ending) => ['-o', `examples/printed/${session}.${ending}`]);
  execFileSync(
    process.execPath,
    ['bin/cardwright.js', 'cut', `examples/${session}.yaml`, ...outputs, '--force'],
    {
      cwd: root,
      stdio: 'inherit',
    },
  );
}
