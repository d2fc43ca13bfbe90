// A large evening for the bench: many tiles of many parts, of three materials, with a drawer full of offcuts.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';

const materials = ['greyboard', 'packet card', 'foam'];

/**
 * Writes a session of `tiles` tiles of `parts` parts each, its kits and its drawer into a folder.
 *
 * @param made   how many of each tile
 * @param kits   the tiles are dealt out to so many files
 * @param sizes  of so many sizes in all; any, if not given
 * @returns      the path of the session
 */
export function largeEvening(folder, { tiles, parts, offcuts, made = 1, kits = 1, sizes }) {
  const dice = diceOf(7);
  const eighths = (least, most) => {
    const all = least * 8 + dice(Math.round((most - least) * 8) + 1);
    const [whole, part] = [Math.floor(all / 8), all % 8];
    const [top, bottom] = part % 4 === 0 ? [part / 4, 2] : part % 2 === 0 ? [part / 2, 4] : [part, 8];
    return part === 0 ? `${whole}` : whole === 0 ? `${top}/${bottom}` : `${whole} ${top}/${bottom}`;
  };
  const anySize = () => `[${eighths(0.5, 6)}, ${eighths(0.25, 3)}]`;
  const few = Array.from({ length: sizes ?? 0 }, anySize);
  const part = (i) =>
    `      part ${i}: { of: ${materials[dice(3)]}, size: ${few.length > 0 ? few[dice(few.length)] : anySize()} }`;
  const tile = (n) =>
    `  tile ${n}:\n    squares: [1, 1]\n    parts:\n${Array.from({ length: parts }, (_, i) => part(i)).join('\n')}\n`;
  const each = Math.ceil(tiles / kits);
  const files = Array.from({ length: kits }, (_, k) => {
    const own = Array.from({ length: Math.min(each, tiles - k * each) }, (_, i) => tile(k * each + i));
    const name = `evening ${tiles} ${kits} ${sizes ?? 'any'} ${k}.yaml`;
    writeFileSync(
      join(folder, name),
      `cardwright: kit\nunits: in\nuses: [shelf.yaml]\ngrid: { square: 6 }\ntiles:\n${own.join('')}`,
    );
    return name;
  });
  writeFileSync(
    join(folder, 'shelf.yaml'),
    `cardwright: shelf
units: in
materials:
  greyboard: { thickness: 1/16 }
  packet card: { thickness: 18 thou, grain: yes }
  foam: { thickness: 1/2 }
sheets:
  greyboard: [{ size: [24, 16], price: 2.20 EUR }]
  packet card: [{ size: [16, 12], grain: length, price: 0.80 EUR }]
  foam: [{ size: [24, 12], price: 3.40 EUR }]
`,
  );
  const listed = materials.map((name, m) => {
    const own = Array.from({ length: Math.ceil((offcuts - m) / materials.length) }, (_, i) => {
      const grain = name === 'packet card' ? ', grain: length' : '';
      return `    - { size: [${eighths(4, 12)}, ${eighths(3, 8)}]${grain}, label: ${m} ${i} }`;
    });
    return `  ${name}:\n${own.join('\n')}\n`;
  });
  writeFileSync(
    join(folder, `drawer ${offcuts}.yaml`),
    `cardwright: drawer\nunits: in\noffcuts:\n${listed.join('')}`,
  );
  const path = join(folder, `evening ${tiles} x ${parts}, ${made} each, ${sizes ?? 'any'} sizes.yaml`);
  const makes = Array.from({ length: tiles }, (_, n) => `  tile ${n}: ${made}\n`);
  writeFileSync(
    path,
    `cardwright: session\nunits: in\nuses: [${files.join(', ')}]\ndrawer: drawer ${offcuts}.yaml\ncutting: { trim: 1/8 }\nmake:\n${makes.join('')}`,
  );
  return path;
}

/** The same numbers each time: a linear congruence, high bits only. */
function diceOf(seed) {
  let state = seed;
  return (sides) => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
    return Math.floor((state / 2_147_483_648) * sides);
  };
}
