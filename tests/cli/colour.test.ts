import { describe, expect, it } from 'vitest';
import { brokenKit, run, type Setting } from './memoryWorld.ts';

const files = { 'kit.yaml': brokenKit };

async function hasColour(setting: Setting, ...options: string[]): Promise<boolean> {
  const { stderr } = await run(['check', 'kit.yaml', ...options], { files, ...setting });
  expect(stderr).toContain('kit.yaml');
  return stderr.includes('\x1b[');
}

const terminal = { stderr: true };

// Source: no-color.org, force-color.org; the order among them is our own contract.
describe('colour', () => {
  it('is on at a terminal, off elsewhere', async () => {
    expect(await hasColour({ terminal })).toBe(true);
    expect(await hasColour({})).toBe(false);
    expect(await hasColour({ terminal: { stdout: true } })).toBe(false);
  });

  it('follows --color before all else', async () => {
    expect(await hasColour({ environment: { NO_COLOR: '1', TERM: 'dumb' } }, '--color', 'always')).toBe(true);
    expect(await hasColour({ terminal, environment: { FORCE_COLOR: '1' } }, '--color=never')).toBe(false);
  });

  it('follows NO_COLOR before FORCE_COLOR, but not an empty one', async () => {
    expect(await hasColour({ terminal, environment: { NO_COLOR: '0', FORCE_COLOR: '1' } })).toBe(false);
    expect(await hasColour({ terminal, environment: { NO_COLOR: '' } })).toBe(true);
  });

  it('follows FORCE_COLOR before TERM=dumb', async () => {
    expect(await hasColour({ environment: { FORCE_COLOR: '1', TERM: 'dumb' } })).toBe(true);
    expect(await hasColour({ terminal, environment: { TERM: 'dumb' } })).toBe(false);
    expect(await hasColour({ terminal, environment: { FORCE_COLOR: '0' } })).toBe(false);
  });
});
