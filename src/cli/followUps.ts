import { type Code, type Diagnostic, isError } from '../model/index.ts';

/**
 * Leaves out what is missing only because the words that would have said it were not understood: a misspelt
 * `tiels:` is one fault, and not also a kit without tiles.
 *
 * A name that is near another one is a slip of its own, and stays.
 */
export function withoutFollowUps(diagnostics: readonly Diagnostic[]): readonly Diagnostic[] {
  const isMisread = diagnostics.some((it) => isError(it) && /^[SM]/.test(it.code));
  const isUnworked =
    isMisread || diagnostics.some((it) => isError(it) && (it.code.startsWith('E') || it.code === 'P11'));
  return diagnostics.filter(
    (it) =>
      !(isMisread && missingFromSpec.includes(it.code) && !it.message.includes('did you mean')) &&
      !(isUnworked && missingFromBatch.includes(it.code)),
  );
}

/** Codes that speak of something that no file says. */
const missingFromSpec: readonly Code[] = [
  'E01',
  'E04',
  'E05',
  'E06',
  'E18',
  'E19',
  'E21',
  'E22',
  'E24',
  'E25',
  'E26',
  'E28',
  'E29',
  'E30',
  'E35',
  'E40',
];

/** Codes that speak of sheets which may only have been set aside. */
const missingFromBatch: readonly Code[] = ['P04', 'P05'];
