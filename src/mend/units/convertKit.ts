import type { Diagnostic, Fix, Outcome, Spec, SpecFile } from '../../model/index.ts';
import { isError } from '../../model/index.ts';
import { spliced } from '../../spec/index.ts';
import { type Rewriting, rewritten } from './exact.ts';
import { implicationWritten, impliedIn } from './implied.ts';
import { remarksOn } from './remarks.ts';
import { everyTile, type Standing, standingOf, verdictsOf } from './standing.ts';
import type { ConversionWishes, Texts } from './wishes.ts';

/** Reads the files again, with some of them as these texts have them. */
export type Reread = (texts: Texts) => Outcome<Spec>;

export interface ConvertedKit {
  readonly files: readonly Rewriting[];
  /** What each file is to hold. */
  readonly texts: Texts;
  readonly before: Standing | undefined;
  /** Undefined where nobody had to look: exact sizes stand as they stood. */
  readonly after: Standing | undefined;
}

/**
 * Writes the named files anew in the other unit.
 *
 *   Spec ─rewritten→ texts in the other unit, exactly ─reread→ Spec ─what the grid implied→ texts
 */
export function convertKit(spec: Spec, wishes: ConversionWishes, reread: Reread): Outcome<ConvertedKit> {
  const files = spec.files.map((file) => rewritten(file, spec, wishes));
  const said = files.flatMap(({ diagnostics }) => diagnostics);
  if (said.some(isError)) return { value: undefined, diagnostics: said };
  const texts = new Map(files.map(({ file, edits }) => [file, spliced(file.source, edits)]));
  const exact = withImplied(spec, texts, wishes, reread);
  return {
    value: { files, texts: exact.texts, before: exact.before, after: exact.after },
    diagnostics: [...said, ...files.flatMap((it) => remarksOn(it, wishes.to)), ...exact.diagnostics],
  };
}

interface Exact {
  readonly texts: Texts;
  readonly before: Standing | undefined;
  readonly after: Standing | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

/** Says what the grid left unsaid, where another unit would change what that comes to, and with it a verdict. */
function withImplied(spec: Spec, texts: Texts, { to }: ConversionWishes, reread: Reread): Exact {
  const turned = spec.files.filter((file) => {
    const { slack, lip } = impliedIn(file);
    return file.units !== undefined && file.units !== to && (slack || lip);
  });
  if (turned.length === 0) return { texts, before: undefined, after: undefined, diagnostics: [] };
  const before = standingOf(spec).standing;
  const now = reread(texts);
  if (before === undefined || now.value === undefined)
    return { texts, before, after: undefined, diagnostics: now.diagnostics };
  const ruler = before.batch.settings.ruler.value;
  const after = standingOf(now.value, everyTile(now.value), ruler).standing;
  if (after === undefined || isAlike(before, after)) return { texts, before, after, diagnostics: [] };
  const said = new Map(texts);
  for (const [index, file] of spec.files.entries()) {
    const again = now.value.files[index];
    if (again === undefined || file.units === undefined || !turned.includes(file)) continue;
    const fix = implicationWritten(again, file.units, impliedIn(file));
    if (fix !== undefined) said.set(file, withFix(again, fix));
  }
  const then = reread(said);
  const stood = then.value && standingOf(then.value, everyTile(then.value), ruler).standing;
  if (stood === undefined) return { texts, before, after, diagnostics: [] };
  return { texts: said, before, after: stood, diagnostics: [] };
}

function withFix(file: SpecFile, fix: Fix): string {
  return spliced(file.source, [fix]);
}

/** True where every tile has the same verdicts. */
export function isAlike(a: Standing, b: Standing): boolean {
  const all = ({ fits }: Standing): string => fits.flatMap(verdictsOf).sort().join('\n\n');
  return all(a) === all(b);
}
