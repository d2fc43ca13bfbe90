import fc from 'fast-check';

/** Kits of one or two tiles, rows of parts and gaps with sums, names and counts: some close, some do not. */

interface Member {
  readonly kind: 'board' | 'foam' | 'gap';
  /** In sixty-fourths of an inch. */
  readonly size: number;
  readonly written: 'plain' | 'named' | 'sum' | 'own unit';
}

const member: fc.Arbitrary<Member> = fc.record({
  kind: fc.constantFrom('board', 'foam', 'foam', 'gap'),
  size: fc.integer({ min: 8, max: 64 }),
  written: fc.constantFrom('plain', 'plain', 'named', 'sum', 'own unit'),
});

export interface AnyKit {
  readonly tiles: readonly (readonly Member[])[];
  readonly board: number;
  readonly isShort: readonly number[];
  readonly slack: 'said' | 'unsaid';
}

export const anyKit: fc.Arbitrary<AnyKit> = fc.record({
  tiles: fc.array(fc.array(member, { minLength: 1, maxLength: 4 }), { minLength: 1, maxLength: 2 }),
  board: fc.integer({ min: 2, max: 8 }),
  isShort: fc.array(fc.integer({ min: 0, max: 2 }), { minLength: 2, maxLength: 2 }),
  slack: fc.constantFrom('said', 'unsaid'),
});

/** Sixty-fourths of an inch as a rule is read. */
export function sixtyFourths(count: number): string {
  const [whole, rest] = [Math.floor(count / 64), count % 64];
  let [top, bottom] = [rest, 64];
  while (top > 0 && top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  if (top === 0) return `${whole}`;
  return whole === 0 ? `${top}/${bottom}` : `${whole} ${top}/${bottom}`;
}

export function textOf({ tiles, board, isShort, slack }: AnyKit): string {
  const lengths: string[] = ['unit: 1'];
  const amount = ({ size, written }: Member, name: string): string => {
    switch (written) {
      case 'plain':
        return sixtyFourths(size);
      case 'named':
        lengths.push(`${name}: ${sixtyFourths(size)}`);
        return name;
      case 'sum':
        return `(unit + ${sixtyFourths(size)} - unit)`;
      case 'own unit':
        return `${sixtyFourths(size)} in`;
    }
  };
  const described = tiles.map((members, tile) => {
    const sized = members.map((it, at) => ({ ...it, text: amount(it, `size ${'abcd'[at]}${'pq'[tile]}`) }));
    const total = members.reduce((sum, it) => sum + (it.kind === 'board' ? board : it.size), 0);
    const room = total + (isShort[tile] ?? 0);
    const parts = sized.flatMap(({ kind, text }, at) =>
      kind === 'gap'
        ? []
        : kind === 'board'
          ? [`      p${at}: { of: greyboard, size: [2, 1] }`]
          : [`      p${at}: { of: foam, size: [2, ${text}], lies: yes }`],
    );
    const row = sized.map(({ kind, text }, at) => (kind === 'gap' ? `gap ${text}` : `p${at}`)).join(', ');
    return [
      `  tile ${'pq'[tile]}:`,
      `    footprint: [2, ${sixtyFourths(room)}]   # its own`,
      '    parts:',
      ...(parts.length === 0 ? ['      p9: { of: foam, size: [1, 1], by eye: 2 }'] : parts),
      `    build: { along: [${row}] }`,
    ].join('\n');
  });
  return [
    'cardwright: kit   # of any sort',
    'units: in',
    ...(slack === 'said' ? ['grid: { square: 3, slack: 1/64, lip: 1/64 }'] : []),
    `materials: { greyboard: { thickness: ${sixtyFourths(board)} }, foam: { thickness: 1/2 } }`,
    'sheets: { greyboard: [{ size: [24, 12] }], foam: [{ size: [24, 12], count: 9 }] }',
    `lengths: { ${lengths.join(', ')} }`,
    'numbers: { bays: 3 }',
    'tiles:',
    ...described,
    'print: { ruler: 1/64 }',
    '',
  ].join('\n');
}
