import { describe, expect, it } from 'vitest';
import { expand } from '../../src/expand/index.ts';
import { judge } from '../../src/fit/index.ts';
import { describeFit } from '../../src/print/json/fit.ts';
import { printCheck } from '../../src/print/text/check.ts';
import { specOf } from '../expand/check.ts';

const hump = (skin: string, tray: string, back: string) => `cardwright: kit
units: mm
grid: { square: 60, slack: 0.2, lip: 0.2 }
print: { ruler: 0.1 }
materials: { card: { thickness: 2 }, foam: { thickness: 10 }, paper: { thickness: 1/2 } }
sheets: { card: [{ size: [400, 400] }], foam: [{ size: [400, 400] }], paper: [{ size: [400, 400] }] }
tiles:
  hump:
    parts:
      slab:  { of: card, size: [60, 60] }
      cheek: { of: foam, outline: { through: [[0, 5], [30, 20], [60, 5]], ends: flat } }
      skin:  { of: paper, size: [rest, rest]${skin} }
    build: { up: [slab] }
    added:
      - { part: cheek, against: top of slab, thickness: across, flush: left }
      - { part: cheek, against: top of slab, thickness: across, flush: right }
      - { part: skin, over: [cheek 1, cheek 2], up to: 0.1 }
    edges: { back: ${back} }
  box:
    footprint: [60, 40]
    parts: { tray: { of: card, folds: { tray: [60, 40], high: 20, tab: 8 }${tray} } }
    build: { up: [tray] }
`;

function told(text: string): { readonly lines: string; readonly names: readonly (readonly string[])[] } {
  const { value, diagnostics } = expand(specOf(text), {});
  expect(diagnostics).toEqual([]);
  const { ruler } = value!.settings;
  const fits = value!.builds.map((build) => judge(build, { ruler: ruler.value, wander: undefined }));
  const lines = printCheck(value!, fits, { width: 200, ascii: false });
  return { lines, names: fits.map((fit) => describeFit(fit)?.takenWhole ?? []) };
}

const hole = ', cuts: [{ hole: { circle: 8 } }]';

describe('what no verdict knows of', () => {
  it('is said of each tile, sound or not, and of none that has nothing of the kind', () => {
    for (const back of ['7.5', '8']) {
      const { lines, names } = told(hump(hole, hole, back));
      expect(lines).toMatch(
        /^(ok|no) {2}hump .*; taken for whole, whatever is cut into it: skin; 4 parts$/mu,
      );
      expect(lines).toMatch(/^ok {2}box .*; taken for whole, whatever is cut into it: tray; 1 part$/mu);
      expect(names).toEqual([['skin'], ['tray']]);
    }
    const { lines, names } = told(hump('', '', '7.5'));
    expect(lines).not.toContain('taken for whole');
    expect(names).toEqual([[], []]);
  });
});
