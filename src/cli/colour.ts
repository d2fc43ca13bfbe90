import type { Sink, World } from './world.ts';

export type ColourChoice = 'auto' | 'always' | 'never';

/** What is worth a colour; without colour, each gives its text back. */
export interface Paint {
  readonly error: (text: string) => string;
  readonly warning: (text: string) => string;
  readonly note: (text: string) => string;
  readonly strong: (text: string) => string;
  readonly faint: (text: string) => string;
}

/** Each stream is judged by itself: one may be a terminal and the other not. */
export async function paintFor(
  choice: ColourChoice,
  sink: Sink,
  environment: World['environment'],
): Promise<Paint> {
  if (!hasColour(choice, sink, environment)) return noPaint;
  const { Chalk } = await import('chalk');
  const { red, yellow, cyan, bold, dim } = new Chalk({ level: 1 });
  return { error: red, warning: yellow, note: cyan, strong: bold, faint: dim };
}

const asItIs = (text: string): string => text;

/** For what is no screen. */
export const noPaint: Paint = { error: asItIs, warning: asItIs, note: asItIs, strong: asItIs, faint: asItIs };

/**
 * --color over NO_COLOR over FORCE_COLOR over TERM=dumb over whether it is a terminal.
 *
 * @source no-color.org and force-color.org: present and not empty counts, whatever the value; `FORCE_COLOR=0`
 *         is Node's own reading for "none" (doc/api/tty.md) and is taken so
 */
function hasColour(choice: ColourChoice, sink: Sink, environment: World['environment']): boolean {
  if (choice !== 'auto') return choice === 'always';
  const { NO_COLOR, FORCE_COLOR, TERM } = environment;
  if (NO_COLOR) return false;
  if (FORCE_COLOR) return FORCE_COLOR !== '0';
  return TERM !== 'dumb' && sink.isTerminal;
}
