import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { parseAst } from 'vitest/node';

/** A room with a count of all that it does: rounds of loops, and calls of functions. */
export type Counted<Room> = Room & {
  /** Rounds and calls since the room was loaded. */
  done(): number;
};

/**
 * Loads a room anew with a count written into every function and every round of a loop, so that no work can be
 * forgotten. What the language does by itself (copying or searching a list) is not seen.
 *
 * @param entry  its index, from the folder of the sources
 */
export async function counted<Room>(entry: string): Promise<Counted<Room>> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'cardwright-counted-'));
  const file = path.join(folder, 'room.mjs');
  const { outputFiles } = await build({
    entryPoints: [new URL(`../../src/${entry}`, import.meta.url).pathname],
    bundle: true,
    format: 'esm',
    platform: 'node',
    write: false,
    logLevel: 'error',
  });
  const counting = `let counted = 0;\nexport const done = () => counted;\n`;
  fs.writeFileSync(file, counting + withCounts(outputFiles[0]!.text));
  const loaded: Counted<Room> = await import(pathToFileURL(file).href);
  fs.rmSync(folder, { recursive: true });
  return loaded;
}

/** What a run does before its first pause, and the most that it does between two pauses after it. */
export function stretchesOf(
  run: Iterator<unknown>,
  { done }: Counted<object>,
): { readonly first: number; readonly later: number } {
  const start = done();
  let isDone = run.next().done === true;
  let before = done();
  const first = before - start;
  let later = 0;
  while (!isDone) {
    isDone = run.next().done === true;
    later = Math.max(later, done() - before);
    before = done();
  }
  return { first, later };
}

/** The same program, each body of a function or loop beginning with a count. */
function withCounts(text: string): string {
  const inserted: { readonly at: number; readonly text: string }[] = [];
  const walk = (node: unknown): void => {
    if (Array.isArray(node)) node.forEach(walk);
    if (!isNode(node)) return;
    Object.values(node).forEach(walk);
    if (!counts.has(node.type) || !isNode(node.body)) return;
    const { type, start, end } = node.body;
    if (type === 'BlockStatement' || type === 'FunctionBody') {
      inserted.push({ at: start + 1, text: ' counted++; ' });
    } else {
      const [before, after] =
        node.type === 'ArrowFunctionExpression' ? ['(counted++, ', ')'] : ['{ counted++; ', '}'];
      // A body in brackets begins within them.
      inserted.push({ at: start, text: before }, { at: end, text: after });
    }
  };
  walk(parseAst(text));
  // From the end on, so that places stay valid; what is inserted at one place keeps its order.
  let counted = text;
  inserted
    .map((it, order) => ({ ...it, order }))
    .sort((a, b) => b.at - a.at || b.order - a.order)
    .forEach((it) => {
      counted = counted.slice(0, it.at) + it.text + counted.slice(it.at);
    });
  return counted;
}

const counts: ReadonlySet<string> = new Set([
  'FunctionDeclaration',
  'FunctionExpression',
  'ArrowFunctionExpression',
  'ForStatement',
  'ForOfStatement',
  'ForInStatement',
  'WhileStatement',
  'DoWhileStatement',
]);

interface SomeNode {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly body?: unknown;
}

function isNode(it: unknown): it is SomeNode {
  return typeof it === 'object' && it !== null && 'type' in it && 'start' in it && 'end' in it;
}
