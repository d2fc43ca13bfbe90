import { atSpan, diagnose, type FaceSpec, type LetInSpec, type Placed, type Pole } from '../model/index.ts';
import type { Faults } from './faults.ts';
import { readFields, type Shape } from './fields.ts';
import { readPoints } from './outlines.ts';
import { readSideOf } from './rows.ts';
import { optional, Values } from './values.ts';
import type { Node } from './yaml/node.ts';

/** What a message calls the map behind a tile's `fittings`. */
export const whatIsLetIn = 'the fittings of a tile';

const shape: Shape = {
  where: 'a fitting let in',
  keys: ['into', 'at', 'inset', 'count', 'pole', 'deep'],
};

/** `disc magnet: { into: left of bed, at: [[1/2, 1/4]], pole: out }`, or a list of such. */
export function readLettingIn(node: Node, faults: Faults): readonly LetInSpec[] | undefined {
  if (node.kind !== 'list') {
    const one = readLetIn(node, faults);
    return one && [one];
  }
  const example = '[{ into: left of bed, at: [[1/2, 1/4]] }]';
  return new Values(faults).list(node, 'places', example, (it) => readLetIn(it, faults) ?? faults.tear());
}

function readLetIn(node: Node, faults: Faults): LetInSpec | undefined {
  const fields = readFields(node, shape, faults);
  if (fields === undefined) return undefined;
  const { amount } = new Values(faults);
  const into = optional(fields, 'into', (value) => readFaces(value, faults));
  const place = readPlace(node, fields, faults);
  const poles = optional(fields, 'pole', (value, key) => readPoles(value, key, faults));
  const deep = optional(fields, 'deep', amount);
  if (into === undefined && !fields.has('into')) {
    faults.report(diagnose('S80', atSpan(node.at), { lacks: 'into', beside: undefined }));
  }
  return into && place && { at: node.at, into, place, poles: poles ?? [], deep };
}

function readPlace(
  node: Node,
  fields: NonNullable<ReturnType<typeof readFields>>,
  faults: Faults,
): LetInSpec['place'] | undefined {
  const { amount } = new Values(faults);
  const [at, inset] = [fields.get('at'), fields.get('inset')];
  const count = optional(fields, 'count', amount);
  const second = at === undefined ? undefined : (inset ?? fields.get('count'));
  if (second !== undefined) {
    return faults.report(
      diagnose('S80', atSpan(second.key.at), { lacks: undefined, beside: second.key.text }),
    );
  }
  if (at !== undefined) return { kind: 'points', at: at.key.at, points: readPoints(at.value, faults) };
  if (inset !== undefined) return { kind: 'inset', at: inset.key.at, inset: amount(inset.value), count };
  return faults.report(diagnose('S80', atSpan(node.at), { lacks: 'at', beside: undefined }));
}

function readFaces(node: Node, faults: Faults): readonly FaceSpec[] | undefined {
  const items = node.kind === 'list' ? node.items : [node];
  const faces = items.map((item) => readSideOf(item, 'into: left of bed', faults));
  const whole = faces.filter((it) => it !== undefined);
  return whole.length === faces.length && whole.length > 0 ? whole : undefined;
}

function readPoles(node: Node, key: string, faults: Faults): readonly Placed<Pole>[] {
  const pole = new Values(faults).word<Pole>(['out', 'in']);
  const items = node.kind === 'list' ? node.items : [node];
  return items.map((item) => pole(item, key)).filter((it) => it !== undefined);
}
