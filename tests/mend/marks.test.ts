import { describe, expect, it } from 'vitest';
import { run } from '../cli/memoryWorld.ts';

/** A wall of 3 in whose core is what two boards of 1.6 mm leave: 73 mm. */
function kit(ruler: string, more = ''): string {
  return `cardwright: session
units: in
grid: { square: 3 }
materials: { board: { thickness: 1/16, measured: 1.6 mm }, foam: { thickness: 1/2 } }
sheets: { board: [{ size: [16, 12] }], foam: [{ size: [24, 12] }] }
tiles:
  wall:
    parts:
      face: { of: board, size: [3, 1/2]${more} }
      core: { of: foam, size: [3, rest], lies: yes }
    build: { along: [{ part: face, facing: front }, core, { part: face, facing: back }] }
make: { wall: 3 }
print: { ruler: ${ruler} }
`;
}

const ran = (command: string, text: string, ...more: readonly string[]) =>
  run([command, 'it.yaml', ...more], { files: { 'it.yaml': text } });

// 76.2 − 2 x 1.6 = 73 mm; 2 7/8 in = 73.025 mm; 2 55/64 in = 72.63 mm, 0.37 short of it: computed.
describe('a build that closes as marked', () => {
  it('is refused where no mark of the rule serves, and those are named that do', async () => {
    const { code, stderr, stdout } = await ran('check', kit('1/16'));
    expect(code).toBe(1);
    expect(stderr).toContain('error F02: "wall" closes, but not cut to the nearest marks');
    expect(stderr).toContain('marks that serve, with a rule of 1/64 in: width of core 2 55/64 in');
    expect(stderr).toContain(`say so by   --ruler '1/16 in' --ruler '1/64 in'   or`);
    // Each rule with its own option.
    expect(stderr).toMatch(
      /with a rule of ([\d.]+ mm): width of core 73 mm; say so by {3}--ruler '1\/16 in' --ruler '\1'/,
    );
    expect(stdout).toMatch(/^no {2}wall {2}closes, but not cut to the marks/);
  });

  it('is cut to the mark that was chosen, with the size itself beside it', async () => {
    const { code, stdout } = await ran('cut', kit('1/64'));
    expect(code).toBe(0);
    expect(stdout).toContain('3 × 2 55/64  3 × WA core');
    expect(stdout).toContain('WA core: cut to the mark: 2 55/64 in wide for 73 mm (+0.015)');
    expect(stdout).toContain('Crosscut strip A: at 2 55/64');
  });

  it('says it where the mark is on a rule of the other unit', async () => {
    const { stdout } = await ran('cut', kit('[1/16, 1 mm]'));
    expect(stdout).toContain('WA core: cut to the mark: 73 mm wide');
    expect((await ran('check', kit('[1/16, 1 mm]'))).stdout).toContain('mark the width of core at 73 mm');
  });

  it('tells both in JSON, exactly', async () => {
    const { stdout } = await ran('cut', kit('1/64'), '--json');
    const document = JSON.parse(stdout) as {
      readonly result: {
        readonly materials: readonly {
          readonly parts: readonly {
            readonly width: { readonly mm: string };
            readonly members: readonly {
              readonly part: string;
              readonly turnedOver: number;
              readonly cutTo: {
                readonly length: null;
                readonly width: { readonly exact: { readonly mm: string } };
              };
            }[];
          }[];
        }[];
      };
    };
    const kinds = document.result.materials.flatMap(({ parts }) => parts);
    const core = kinds.find(({ members }) => members[0]?.part === 'core');
    expect(core?.width.mm).toBe('23241/320'); // 183/64 x 25.4
    expect(core?.members[0]?.cutTo).toMatchObject({ length: null, width: { exact: { mm: '73' } } });
    expect(kinds.find(({ members }) => members[0]?.part === 'face')?.members[0]?.turnedOver).toBe(3);
  });

  it('leaves sizes that have their mark as they are', async () => {
    const text = kit('1/64').replace('measured: 1.6 mm', 'measured: 1/16');
    const { stdout } = await ran('cut', text);
    expect(stdout).toContain('3 × 2 7/8  3 × WA core');
    expect(stdout).not.toContain('cut to the mark');
  });
});

describe('parts that face either way', () => {
  it('are one part, and the list says how many are turned over', async () => {
    expect((await ran('cut', kit('1/64', ', good side: yes'))).stdout).toContain('6 × WA face (turn 3 over)');
  });
});
