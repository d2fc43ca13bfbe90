import type { Length, MaterialPlan, SheetPlan, WidthUse } from '../model/index.ts';

export interface OrderSigns {
  readonly length: (length: Length) => string;
  /** Between the first and the last of sheets that are cut alike. */
  readonly range: string;
  /** What stands before their numbers, as it stands above their pictures. */
  readonly sheet: 'No.' | 'sheet';
}

/** A width to set out, and where it is cut. */
export interface OrderRow {
  readonly set: string;
  /** `No. 1 steps 2, 4; No. 2 step 2` */
  readonly cut: string;
}

/** `9 settings`, and what the order of work saves. */
export function settingsWords({ order, settingsByPicture }: MaterialPlan): string {
  const settings = order.length === 1 ? '1 setting' : `${order.length} settings`;
  if (!hasOrder({ order, settingsByPicture })) return settings;
  return `${settings} in the order of work below (${settingsByPicture} picture by picture)`;
}

/** An order over all pictures is told where it spares settings; else the pictures' own steps are the order. */
export function hasOrder({
  order,
  settingsByPicture,
}: Pick<MaterialPlan, 'order' | 'settingsByPicture'>): boolean {
  return order.length < settingsByPicture;
}

export const orderLead =
  'Square up all sheets first. Then set out one width after the other, and make all cuts of that width in the ' +
  'steps named before you set out the next; write the labels of a step before its first cut.';

export function orderRows({ order, sheets }: MaterialPlan, signs: OrderSigns): readonly OrderRow[] {
  return order.map(({ size, uses }) => ({
    set: signs.length(size),
    cut: bySheet(uses)
      .map(([sheet, steps]) => {
        const which = sheets.length === 1 ? '' : `${nameOf(numbersOf(sheet, sheets, signs), signs)} `;
        return `${which}${steps.length === 1 ? 'step' : 'steps'}\u00a0${steps.join(',\u00a0')}`;
      })
      .join('; '),
  }));
}

function nameOf(numbers: string, { sheet, range }: OrderSigns): string {
  return `${sheet === 'sheet' && numbers.includes(range) ? 'sheets' : sheet}\u00a0${numbers}`;
}

function bySheet(uses: readonly WidthUse[]): readonly (readonly [number, readonly number[]])[] {
  const found = new Map<number, number[]>();
  for (const { sheet, step } of uses) found.set(sheet, [...(found.get(sheet) ?? []), step]);
  return [...found];
}

function numbersOf(first: number, sheets: readonly SheetPlan[], { range }: OrderSigns): string {
  const times = sheets.find((it) => it.first === first)?.times ?? 1;
  return times === 1 ? `${first}` : `${first}${range}${first + times - 1}`;
}
