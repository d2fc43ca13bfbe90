import type { Batch, MaterialDemand } from '../model/index.ts';

/**
 * Reminders for the table, by what is on it. They remind and do not teach: the label, the data sheet and
 * the rules of the place come first, and the sheets say so.
 *
 * Source: common practice; knives after UK HSE, "Safe use of knives" (2021), in our own words; polystyrene
 * and solvent glue second-hand; the rest no source.
 */
export function cautionsFor(
  materials: readonly MaterialDemand[],
  fittings: Batch['fittings'] = [],
): readonly string[] {
  const hasTool = (word: string): boolean =>
    materials.some(({ rules }) => rules.tool?.toLowerCase().includes(word));
  const foams = materials.filter(({ material }) => /foam|styr|xps|eps/i.test(material.name));
  const hasFoam = foams.length > 0;
  // Where nobody says what the foam is cut with, it may be one.
  const mayBeWire = foams.some(({ rules }) => rules.tool === undefined);
  const wire = 'open a window, never leave it on alone, keep glue seams away from the wire.';
  const hasSaw = hasTool('saw');
  return [
    'Knife: a sharp blade, a steel rule, several light passes. Keep the other hand out of its path, and let a falling knife fall. Spent blades go into a closed tin.',
    ...(hasTool('wire') ? [`Hot wire: ${wire}`] : mayBeWire ? [`If you use a hot wire: ${wire}`] : []),
    ...(hasFoam ? ['Foam: solvent glue and spray paint can eat it. Try a scrap first.'] : []),
    'Glue and spray: read the label, give them air, keep flames away.',
    `Dust: ${hasSaw ? 'sawing and sanding' : 'sanding'} board or foam calls for a mask and a damp cloth.`,
    ...(fittings.some(({ hasPoles }) => hasPoles)
      ? [
          'Magnets: dangerous when swallowed, brittle when they snap together. Keep them from children and from pacemakers.',
        ]
      : []),
    'These are reminders only. Labels, data sheets, local rules and what a trained person showed you come first.',
  ];
}
