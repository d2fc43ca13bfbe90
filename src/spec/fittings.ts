import type { Expression, FittingSpec, FittingsAtHandSpec, Named } from '../model/index.ts';
import type { Faults } from './faults.ts';
import { readFields, type Shape } from './fields.ts';
import { readNamed } from './names.ts';
import { optional, Values } from './values.ts';
import type { Node } from './yaml/node.ts';

/** What is not cut from a sheet: what there is of it, how many are at hand, how many a thing takes. */

const fittingShape: Shape = {
  where: 'a fitting',
  keys: ['diameter', 'depth', 'clearance', 'least wall', 'poles', 'pack', 'price', 'label', 'note'],
};

/** The fittings by name, as a kit, a shelf or a session describes them. */
export function readFittings(node: Node, faults: Faults): readonly Named<FittingSpec>[] {
  return readNamed(node, 'fittings by name', 'free', (value) => readFitting(value, faults), faults);
}

function readFitting(node: Node, faults: Faults): FittingSpec | undefined {
  const fields = readFields(node, fittingShape, faults);
  if (fields === undefined) return undefined;
  const { amount, flag, price, text } = new Values(faults);
  return {
    at: node.at,
    diameter: optional(fields, 'diameter', amount),
    depth: optional(fields, 'depth', amount),
    clearance: optional(fields, 'clearance', amount),
    leastWall: optional(fields, 'least wall', amount),
    poles: optional(fields, 'poles', flag),
    pack: optional(fields, 'pack', amount),
    price: optional(fields, 'price', price),
    label: optional(fields, 'label', text),
    note: optional(fields, 'note', text),
  };
}

/** How many of each lie in the drawer: a number, or one with where they are kept. */
export function readFittingsAtHand(node: Node, faults: Faults): readonly Named<FittingsAtHandSpec>[] {
  const shape: Shape = { where: 'fittings in the drawer', keys: ['count', 'where', 'note'] };
  const { amount, text } = new Values(faults);
  const kept = (value: Node): FittingsAtHandSpec | undefined => {
    const nothingElse = { at: value.at, where: undefined, note: undefined };
    if (value.kind === 'text') return { ...nothingElse, count: amount(value) };
    const fields = readFields(value, shape, faults);
    if (fields === undefined) return undefined;
    return {
      at: value.at,
      count: optional(fields, 'count', amount),
      where: optional(fields, 'where', text),
      note: optional(fields, 'note', text),
    };
  };
  return readNamed(node, 'fittings by name', 'free', kept, faults);
}

/** What a message calls the map behind `takes`. */
export const whatIsTaken = 'the fittings that are taken';

/** `takes: { disc magnet: 4 }`: so many of each fitting, wherever they sit. */
export function readTakes(node: Node, faults: Faults): readonly Named<Expression>[] {
  const { amount } = new Values(faults);
  return readNamed(node, whatIsTaken, 'reference', (it) => amount(it), faults);
}
