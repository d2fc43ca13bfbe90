import { atSpan, type Diagnostic, diagnose, type Made, nowhere, type Place } from '../../model/index.ts';
import { lackingIn, missingMark, type Typeface } from './type.ts';

/** A warning for each text of the user's that can't be set as it is. */
export function faultsOfTexts({ batch }: Made, face: Typeface): readonly Diagnostic[] {
  const texts = new Map<string, Place>();
  const add = (text: string | undefined, place: Place): void => {
    if (text !== undefined && !texts.has(text)) texts.set(text, place);
  };
  for (const text of [batch.title, ...batch.notes]) add(text, nowhere);
  for (const { label, note } of batch.tiles) for (const text of [label, note]) add(text, nowhere);
  for (const { material, parts, sheets } of batch.materials) {
    add(material.name, atSpan(material.at));
    for (const { at, label, part, tile, note } of parts.flatMap(({ members }) => members)) {
      for (const text of [label, part, tile, note]) add(text, atSpan(at));
    }
    for (const { at, label, where } of sheets) for (const text of [label, where]) add(text, atSpan(at));
  }
  return [...texts].flatMap(([text, place]) => {
    const lacking = lackingIn(face, text);
    if (lacking.length === 0) return [];
    const named = lacking.slice(0, 5).map((it) => `${it} (${codeOf(it)})`);
    const characters = `${named.join(', ')}${lacking.length > 5 ? ' and others' : ''}`;
    return [diagnose('O20', place, { text, characters, mark: missingMark })];
  });
}

function codeOf(character: string): string {
  return `U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`;
}
