/** What the rows of `convert` are fed with. */

/** Measures a line, spelt in the ways in which people spell them. */
export function measureLines(count) {
  const spelt = [
    (i) => `${i % 48} ${(i % 63) + 1}/64 in`,
    (i) => `${i % 900}.${i % 10} mm`,
    (i) => `${i % 40}-3/8"`,
    (i) => `${(i % 9) + 1}' ${i % 12}"`,
  ];
  return `${Array.from({ length: count }, (_, i) => spelt[i % spelt.length](i)).join('\n')}\n`;
}

/** A kit of one megabyte, the most that is read. It says its slack, lip and rule, so that nothing has to be put together. */
export function largeKit() {
  const lines = [
    'cardwright: kit',
    'units: in',
    'grid: { square: 3, slack: 1/64, lip: 1/64 }',
    'materials: { greyboard: { thickness: 1/16 }, foam: { thickness: 1/2 } }',
    'sheets: { greyboard: [{ size: [16, 12] }], foam: [{ size: [24, 12] }] }',
    'print: { ruler: 1/16 }',
    'tiles:',
  ];
  let bytes = 0;
  for (let i = 1; bytes < 985_000; i++) {
    const tile = [
      `  wall ${i}:                      # one of many`,
      '    parts:',
      `      face: { of: greyboard, size: [3, 1 1/${8 + (i % 8)}] }`,
      `      core: { of: foam, size: [3, (square - 2 x thickness of greyboard)], lies: yes, note: wall number ${i} }`,
      '    build: { along: [face, core, face] }',
    ];
    lines.push(...tile);
    bytes += tile.join('\n').length + 1;
  }
  return `${lines.join('\n')}\n`;
}
