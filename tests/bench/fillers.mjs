// An evening of one material for the bench: parts that are all of different sizes, and tiny fillers in what they leave.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';

/**
 * Writes the session into a folder.
 *
 * @param fillers  so many of them; 0 for the same evening without
 * @param limits   true: within limits on strips and cuts, which take longer to keep
 * @returns        its path
 */
export function eveningWithFillers(folder, { fillers, limits }) {
  // Sixteenths, all different; parts of them stand for those of a kit that nobody drew to a grid.
  const parts = Array.from({ length: 60 }, (_, i) => {
    const [length, width] = [40 + ((i * 37) % 151), 20 + ((i * 23) % 127)];
    return `  part ${i}: { of: foam, size: [${length}/16, ${width}/16], count: ${1 + (i % 5)} }`;
  });
  const tiny = Array.from(
    { length: fillers },
    (_, i) =>
      `  filler ${i}: { of: foam, size: [${11 + i * 2}/128, ${9 + i * 3}/128], count: as fits${i === 0 ? ' up to 200' : ''} }`,
  );
  const within = limits ? 'cutting: { least strip: 1/16, longest cut: 40 }\n' : '';
  const path = join(folder, `fillers ${fillers} ${limits}.yaml`);
  writeFileSync(
    path,
    `cardwright: session\nunits: in\nmaterials: { foam: { thickness: 1/2, kerf: 1/32 } }\nsheets: { foam: [{ size: [39, 27], trim: 1/8 }] }\n${within}loose:\n${[...parts, ...tiny].join('\n')}\n`,
  );
  return path;
}
