import { describe, expect, it } from 'vitest';
import { commands } from '../../src/cli/commandTable.ts';
import { run } from './memoryWorld.ts';

const names = Object.keys(commands);

describe('help', () => {
  it.each(names)('%s has a page with usage, options, examples and exit codes', async (name) => {
    const { code, stdout, stderr } = await run([name, '--help']);
    expect(code).toBe(0);
    expect(stderr).toBe('');
    expect(stdout).toMatch(new RegExp(`^Usage: cardwright ${name}\\b`));
    for (const heading of ['Options', 'Examples', 'Exit codes', 'Files', 'Environment']) {
      expect(stdout).toMatch(new RegExp(`^${heading}$`, 'm'));
    }
    expect(stdout.match(/^ {2}cardwright /gm)?.length).toBeGreaterThanOrEqual(2);
    expect((await run(['help', name])).stdout).toBe(stdout);
  });

  it.each(names)('%s fits 40 columns, but for what is to be copied', async (name) => {
    const { stdout } = await run([name, '--help'], { environment: { COLUMNS: '40' } });
    const wide = stdout.split('\n').filter((it) => it.length > 40 && !/^( {2}|Usage: )cardwright /.test(it));
    expect(wide).toEqual([]);
  });

  it('is what a bare call shows', async () => {
    const { stdout, code } = await run([]);
    expect(code).toBe(0);
    expect(stdout).toBe((await run(['--help'])).stdout);
    for (const name of names) expect(stdout).toContain(`\n  ${name} `);
  });

  it('keeps to ASCII where no more is promised', async () => {
    for (const argv of [[], ...names.map((it) => [it, '-h'])]) {
      const { stdout } = await run(argv, { environment: { LC_ALL: 'C' } });
      expect(stdout).toMatch(/^[\x20-\x7e\n]+$/);
    }
  });

  it('offers no form that a command does not make', async () => {
    const refused = await run(['cut', 'specs/hillside.yaml', '--format', 'csv']);
    expect(refused.stderr).toContain('error C15');
    expect((await run(['help', 'cut'])).stdout.toLowerCase()).not.toContain('csv');
    expect((await run(['help', 'count'])).stdout).toContain('pdf, svg, json or csv');
    expect((await run(['help', 'cut'])).stdout).toContain('pdf, svg');
  });

  it('says what a page is missing for', async () => {
    const { code, stderr } = await run(['help', 'cuut']);
    expect(code).toBe(2);
    expect(stderr).toContain('did you mean "cut"?');
  });
});

describe('--version', () => {
  it('prints the version alone', async () => {
    expect(await run(['--version'])).toMatchObject({ code: 0, stdout: '1.2.3\n', stderr: '' });
  });

  it('names node, platform and the documents in JSON', async () => {
    const { stdout } = await run(['--version', '--json']);
    expect(JSON.parse(stdout)).toMatchObject({
      schema: 'cardwright/version',
      cardwright: '1.2.3',
      node: 'v20.19.0',
      platform: 'test-cpu',
      schemas: { cut: 1 },
    });
  });
});
