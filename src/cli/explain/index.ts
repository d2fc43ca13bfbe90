import type { Code } from '../../model/index.ts';
import type { ExplainPage } from '../explainPage.ts';

type Letter = Code extends `${infer First}${number}` ? First : never;
type PagesOf<Room extends string> = Readonly<Record<Extract<Code, `${Room}${string}`>, ExplainPage>>;

/** A page for every code there is. Each room's pages are loaded when one of them is asked for. */
const pages: { readonly [Room in Letter | 'L']: () => Promise<PagesOf<Room>> } = {
  M: async () => (await import('./measure.ts')).measurePages,
  T: async () => (await import('./outline.ts')).outlinePages,
  S: async () => (await import('./spec.ts')).specPages,
  E: async () => (await import('./expand.ts')).expandPages,
  F: async () => (await import('./fit.ts')).fitPages,
  N: async () => (await import('./mend.ts')).mendPages,
  P: async () => (await import('./pack.ts')).packPages,
  L: async () => (await import('./plan.ts')).planPages,
  K: async () => (await import('./stock.ts')).stockPages,
  O: async () => (await import('./print.ts')).printPages,
  C: async () => (await import('./cli.ts')).cliPages,
};

export async function explainPage(code: Code): Promise<ExplainPage> {
  const letter = code.charAt(0) as Letter; // the letter of a code, by the type above
  const ofRoom: Readonly<Record<string, ExplainPage>> = await pages[letter]();
  const page = ofRoom[code];
  if (page === undefined) throw new Error(`${code} has no page`);
  return page;
}
