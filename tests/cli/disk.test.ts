import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { nodeWorld } from '../../src/cli/nodeWorld.ts';
import { runToEnd } from '../../src/pipeline.ts';

const { files } = nodeWorld('1.2.3');
const bytes = new TextEncoder().encode('new');
let folder = '';

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'cardwright-test-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

describe('writing to the disk', () => {
  it('replaces a file, keeps its rights, and leaves nothing beside it', () => {
    const path = join(folder, 'a.pdf');
    writeFileSync(path, 'old');
    chmodSync(path, 0o640);
    expect(files.write(path, bytes)).toBeUndefined();
    expect(readFileSync(path, 'utf8')).toBe('new');
    expect(statSync(path).mode & 0o777).toBe(0o640);
    expect(readdirSync(folder)).toEqual(['a.pdf']);
  });

  it('replaces what a link leads to, not the link', () => {
    const path = join(folder, 'real.pdf');
    writeFileSync(path, 'old');
    symlinkSync(path, join(folder, 'link.pdf'));
    expect(files.write(join(folder, 'link.pdf'), bytes)).toBeUndefined();
    expect(readFileSync(path, 'utf8')).toBe('new');
  });

  it('says why it can not', () => {
    mkdirSync(join(folder, 'sub'));
    expect(files.write(join(folder, 'sub'), bytes)).toMatchObject({ kind: 'folder' });
    expect(files.write(join(folder, 'none', 'a.pdf'), bytes)).toMatchObject({ kind: 'missing' });
    expect(files.write(join(folder, 'x'.repeat(300)), bytes)).toMatchObject({
      reason: 'the path is too long',
    });
    expect(files.refusal(join(folder, 'none', 'a.pdf'))).toBeDefined();
    expect(files.refusal(join(folder, 'a.pdf'))).toBeUndefined();
  });

  it.skipIf(!existsSync('/dev/full'))('says so when the disk is full', () => {
    expect(files.write('/dev/full', bytes)).toMatchObject({ reason: 'no space is left on the disk' });
  });

  it('knows two ways to one place, also where nothing lies there yet', () => {
    mkdirSync(join(folder, 'sub'));
    symlinkSync(join(folder, 'sub'), join(folder, 'link'));
    expect(files.isSame(join(folder, 'a.pdf'), `${folder}/./a.pdf`)).toBe(true);
    expect(files.isSame(join(folder, 'sub', 'a.pdf'), join(folder, 'link', 'a.pdf'))).toBe(true);
    expect(files.isSame(join(folder, 'a.pdf'), join(folder, 'b.pdf'))).toBe(false);
    expect(files.isSame(join(folder, 'none', 'a.pdf'), join(folder, 'nil', 'a.pdf'))).toBe(false);
  });

  it('reads no folder, and names what is not there', () => {
    expect(files.read(folder)).toMatchObject({ kind: 'folder' });
    expect(files.read(join(folder, 'none'))).toMatchObject({ kind: 'missing' });
  });
});

describe('writing a folder', () => {
  const pages = [
    { name: 'page-1.svg', bytes },
    { name: 'page-2.svg', bytes },
  ];

  it('makes it with these files and no others, and leaves nothing beside it', () => {
    const path = join(folder, 'sheets');
    expect(runToEnd(files.writeFolder(`${path}/`, pages))).toBeUndefined();
    expect(readdirSync(path)).toEqual(['page-1.svg', 'page-2.svg']);
    expect(files.namesIn(path)).toEqual(['page-1.svg', 'page-2.svg']);
    expect(runToEnd(files.writeFolder(path, pages.slice(0, 1)))).toBeUndefined();
    expect(readdirSync(path)).toEqual(['page-1.svg']);
    expect(readdirSync(folder)).toEqual(['sheets']);
  });

  it('leaves the old one whole where it can not', () => {
    const path = join(folder, 'sheets');
    mkdirSync(path);
    writeFileSync(join(path, 'page-9.svg'), 'old');
    const spoilt = [...pages, { name: 'x'.repeat(300), bytes }];
    expect(runToEnd(files.writeFolder(path, spoilt))).toMatchObject({ reason: 'the path is too long' });
    expect(readdirSync(path)).toEqual(['page-9.svg']);
    expect(readdirSync(folder)).toEqual(['sheets']);
  });

  it('replaces what a link leads to, not the link', () => {
    mkdirSync(join(folder, 'real'));
    symlinkSync(join(folder, 'real'), join(folder, 'link'));
    expect(runToEnd(files.writeFolder(join(folder, 'link'), pages))).toBeUndefined();
    expect(readdirSync(join(folder, 'real'))).toEqual(['page-1.svg', 'page-2.svg']);
  });
});
