import { toFraction } from '../measure/index.ts';
import type { Length, MaterialPlan, SheetKind } from '../model/index.ts';

interface Shown {
  readonly pair: (length: Length, width: Length) => string;
  readonly thickness: (length: Length) => string;
}

/**
 * `Slice 2 blocks of 24 × 12, 2 in thick, into 3 layers each of 1/2 in, a cut taking 1/32 in: 13/32 in of each is left.
 * 5 layers are cut up, 1 is left whole.`: before its layers are sheets; one sentence for each kind of block.
 */
export function sliceWords({ demand, sheets }: MaterialPlan, { pair, thickness }: Shown): readonly string[] {
  const kinds = new Map<string, { readonly sheet: SheetKind; count: number }>();
  for (const { sheet, times } of sheets) {
    if (sheet.block === undefined) continue;
    const { length, width, block, isOffcut, label } = sheet;
    const key = [...[length, width, block.thick].map(toFraction), isOffcut, label].join(' ');
    const known = kinds.get(key);
    if (known === undefined) kinds.set(key, { sheet, count: times });
    else known.count += times;
  }
  const { material, rules } = demand;
  return [...kinds.values()].flatMap(({ sheet, count }) => {
    const { block, length, width } = sheet;
    if (block === undefined) return [];
    const { layers, thick, left } = block;
    const blocks = Math.ceil(count / layers);
    const whole = blocks * layers - count;
    const each = blocks === 1 ? '' : ' each';
    const kerf = rules.kerf.numerator === 0n ? '' : `, a cut taking ${thickness(rules.kerf)}`;
    const rest =
      left.numerator === 0n ? '' : `: ${thickness(left)} of ${blocks === 1 ? 'it' : 'each'} is left`;
    return [
      `Slice ${counted(blocks, 'block')} of ${pair(length, width)}, ${thickness(thick)} thick, into ` +
        `${counted(layers, 'layer')}${each} of ${thickness(material.thickness)}${kerf}${rest}.` +
        (whole === 0
          ? ''
          : ` ${counted(count, 'layer')} ${count === 1 ? 'is' : 'are'} cut up, ${whole} left whole.`),
    ];
  });
}

function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? '' : 's'}`;
}
