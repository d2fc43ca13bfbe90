import {
  atSpan,
  type Diagnostic,
  diagnose,
  type Side,
  type Span,
  type StandingPart,
} from '../../model/index.ts';

/** What two pieces of one part would be, each where it stands. */
interface Unlike {
  readonly tile: string;
  readonly part: string;
  /** Where the part says what follows. */
  readonly at: Span;
  /** The size that differs; undefined: it is their outline. */
  readonly size: Side | undefined;
  readonly pieces: readonly [StandingPart, StandingPart];
  readonly comesTo: (piece: StandingPart) => string;
}

/** A part is one thing however often it stands: tells which two of its pieces are not, and shows both. */
export function notAlike({ tile, part, at, size, pieces, comesTo }: Unlike): Diagnostic {
  const [here, there] = pieces.map((it) => ({ name: it.name, is: comesTo(it) })) as [
    { name: string; is: string },
    { name: string; is: string },
  ]; // two of two
  const related = pieces.map((it) => ({ place: atSpan(it.at), message: `"${it.name}": ${comesTo(it)}` }));
  // What slopes, bends or stands under something is as large as that makes it.
  const follows = pieces.some(({ inclined, outline }) => inclined !== undefined || outline !== undefined);
  return diagnose('E55', atSpan(at), { tile, part, size, here, there, follows }, { related });
}
