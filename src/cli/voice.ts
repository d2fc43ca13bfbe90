import { type Diagnostic, isError } from '../model/index.ts';
import type { Manner } from './arguments.ts';
import { paintFor } from './colour.ts';
import { inAscii, type Look, lookOf } from './terminal.ts';
import type { World } from './world.ts';

/** What a command says, each thing to its own stream: the product to stdout, messages to stderr. */
export interface Voice {
  readonly json: boolean;
  /** How text on standard output wants to be. */
  readonly look: Look;
  /** Only a terminal is shown how far the search is. */
  readonly showsProgress: boolean;
  product(chunk: string | Uint8Array): Promise<void>;
  /** Says nothing in JSON, where the document holds them. */
  faults(diagnostics: readonly Diagnostic[]): Promise<void>;
  /** A word to whoever sits before a terminal and waits. */
  aside(text: string): Promise<void>;
  /** A word beside the product, which --quiet and --json leave out. */
  remark(text: string): Promise<void>;
}

export function voiceOf({ json, quiet, color }: Manner, world: World): Voice {
  const { stdout, stderr, environment } = world;
  const aside = (): Look => lookOf(stderr, environment);
  return {
    json,
    get look() {
      return lookOf(stdout, environment);
    },
    get showsProgress() {
      return !quiet && stderr.isTerminal;
    },
    product: (chunk) => stdout.write(chunk),
    faults: async (diagnostics) => {
      const told = quiet ? diagnostics.filter(isError) : diagnostics;
      if (json || told.length === 0) return;
      const { faultText } = await import('./faultText.ts');
      await stderr.write(faultText(told, aside(), await paintFor(color, stderr, environment)));
    },
    aside: async (text) => {
      if (!quiet && stderr.isTerminal) await stderr.write(`${aside().ascii ? inAscii(text) : text}\n`);
    },
    remark: async (text) => {
      if (!quiet && !json) await stderr.write(`${aside().ascii ? inAscii(text) : text}\n`);
    },
  };
}
