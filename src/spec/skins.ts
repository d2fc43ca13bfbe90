import { type AddedSpec, atSpan, type BentFace, diagnose } from '../model/index.ts';
import type { Faults } from './faults.ts';
import { Values } from './values.ts';
import type { Node } from './yaml/node.ts';

const faces: readonly BentFace[] = ['outer', 'middle', 'inner'];

/** `over: [cheek 1, cheek 2]`, or one name: what a skin is bent over, and the face that its length is that of. */
export function readOver(
  node: Node,
  more: ReadonlyMap<string, Node>,
  faults: Faults,
): AddedSpec['place'] | undefined {
  const { list, reference, word } = new Values(faults);
  const [face, ends] = [more.get('face'), more.get('ends')];
  const of =
    node.kind === 'list'
      ? list(node, 'names', 'over: [cheek 1, cheek 2]', (item) => reference(item, 'over'))
      : [reference(node, 'over')].filter((it) => it !== undefined);
  if (node.kind === 'list' && node.items.length === 0) {
    faults.report(
      diagnose('S37', atSpan(node.at), {
        found: 0,
        wanted: 'one or more are wanted',
        comma: undefined,
        example: 'over: [cheek 1, cheek 2]',
      }),
    );
  }
  return of.length === 0
    ? undefined
    : {
        kind: 'over',
        at: node.at,
        of,
        face: face && word(faces)(face, 'face'),
        ends: ends && word(['plumb', 'square'] as const)(ends, 'ends'),
      };
}
