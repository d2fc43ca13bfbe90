import type {
  CutHabitsSpec,
  CuttingSpec,
  Expression,
  GridSpec,
  MaterialSpec,
  Named,
  PrintSpec,
  RackSpec,
  SheetSpec,
} from '../model/index.ts';
import { atSpan, diagnose, type EffortName, type Placed } from '../model/index.ts';
import type { Faults } from './faults.ts';
import { readFields, type Shape, wrongSort } from './fields.ts';
import { type NameRules, readNamed } from './names.ts';
import { readThree } from './rows.ts';
import { optional, Values } from './values.ts';
import type { Node } from './yaml/node.ts';

/** The sections of a file that describe the grid, the material, the cutting and the printing. */

const gridShape: Shape = {
  where: 'the grid',
  keys: ['square', 'slack', 'lip', 'tallest', 'glue line'],
};

export function readGrid(node: Node, faults: Faults): GridSpec | undefined {
  const fields = readFields(node, gridShape, faults);
  if (fields === undefined) return undefined;
  const { amount, pair } = new Values(faults);
  const square = optional(fields, 'square', (value) => {
    if (value.kind === 'list') {
      const both = pair(value);
      return both && { across: both.first, along: both.second };
    }
    const side = amount(value);
    return side && { across: side, along: side };
  });
  return {
    at: node.at,
    square,
    slack: optional(fields, 'slack', amount),
    lip: optional(fields, 'lip', amount),
    tallest: optional(fields, 'tallest', amount),
    glueLine: optional(fields, 'glue line', amount),
  };
}

export function readMeasures(
  node: Node,
  where: string,
  rules: NameRules | 'reference',
  faults: Faults,
): readonly Named<Expression>[] {
  return readNamed(node, where, rules, new Values(faults).amount, faults);
}

const materialShape: Shape = {
  where: 'a material',
  keys: [
    'thickness',
    'measured',
    'grain',
    'flutes',
    'good side',
    'tool',
    'kerf',
    'trim',
    'least strip',
    'least bend',
    'rounds',
  ],
};

export function readMaterials(node: Node, faults: Faults): readonly Named<MaterialSpec>[] {
  return readNamed(node, 'materials by name', 'thing', (value) => readMaterial(value, faults), faults);
}

function readMaterial(node: Node, faults: Faults): MaterialSpec | undefined {
  const fields = readFields(node, materialShape, faults);
  if (fields === undefined) return undefined;
  const { amount, flag } = new Values(faults);
  return {
    at: node.at,
    thickness: optional(fields, 'thickness', amount),
    measured: optional(fields, 'measured', amount),
    grain: optional(fields, 'grain', flag),
    flutes: optional(fields, 'flutes', flag),
    goodSide: optional(fields, 'good side', flag),
    ...readHabits(fields, faults),
  };
}

function readHabits(fields: NonNullable<ReturnType<typeof readFields>>, faults: Faults): CutHabitsSpec {
  const { amount, text, trim } = new Values(faults);
  return {
    tool: optional(fields, 'tool', text),
    kerf: optional(fields, 'kerf', amount),
    trim: optional(fields, 'trim', trim),
    leastStrip: optional(fields, 'least strip', amount),
    leastBend: optional(fields, 'least bend', amount),
    longestCut: optional(fields, 'longest cut', amount),
    rounds: optional(fields, 'rounds', amount),
  };
}

const sheetShape: Shape = {
  where: 'a sheet',
  keys: [
    'size',
    'grain',
    'flutes',
    'count',
    'price',
    'pack',
    'thick',
    'trim',
    'true edges',
    'label',
    'where',
    'note',
  ],
};

/** Sheets or offcuts, by the name of their material. */
export function readStock(node: Node, what: string, faults: Faults): readonly Named<readonly SheetSpec[]>[] {
  const { list } = new Values(faults);
  return readNamed(
    node,
    `${what} by material`,
    'reference',
    (value) => list(value, what, '[{ size: [24, 16] }]', (item) => readSheet(item, faults)),
    faults,
  );
}

function readSheet(node: Node, faults: Faults): SheetSpec | undefined {
  const fields = readFields(node, sheetShape, faults);
  if (fields === undefined) return undefined;
  const { amount, flag, price, size, text, trim, word } = new Values(faults);
  const runs = word(['length', 'width', 'unknown']);
  return {
    at: node.at,
    size: optional(fields, 'size', size),
    grain: optional(fields, 'grain', runs),
    flutes: optional(fields, 'flutes', runs),
    count: optional(fields, 'count', (value): Placed<Expression | 'as needed'> | undefined => {
      if (value.kind === 'text' && value.text === 'as needed') return { value: 'as needed', at: value.at };
      const counted = amount(value);
      return counted && { value: counted, at: value.at };
    }),
    price: optional(fields, 'price', price),
    pack: optional(fields, 'pack', amount),
    thick: optional(fields, 'thick', amount),
    trim: optional(fields, 'trim', trim),
    trueEdges: optional(fields, 'true edges', flag),
    label: optional(fields, 'label', text),
    where: optional(fields, 'where', text),
    note: optional(fields, 'note', text),
  };
}

/** Places to keep tiles in. */
export function readRacks(node: Node, faults: Faults): readonly Named<RackSpec>[] {
  const rack = (value: Node): RackSpec | undefined => {
    const fields = readFields(value, { where: 'a rack', keys: ['inside', 'clearance'] }, faults);
    if (fields === undefined) return undefined;
    return {
      at: value.at,
      inside: optional(fields, 'inside', (it) => readThree(it, faults)),
      clearance: optional(fields, 'clearance', new Values(faults).amount),
    };
  };
  return readNamed(node, 'racks by name', 'thing', rack, faults);
}

const cuttingShape: Shape = {
  where: 'the cutting',
  keys: ['kerf', 'trim', 'least strip', 'longest cut', 'rounds', 'effort', 'wander', 'worth keeping', 'only'],
};

const onlyShape: Shape = {
  where: 'the cutting of one material',
  keys: ['tool', 'kerf', 'trim', 'least strip', 'least bend', 'longest cut', 'rounds'],
  later: ['wander'],
};

export function readCutting(node: Node, faults: Faults): CuttingSpec | undefined {
  const fields = readFields(node, cuttingShape, faults);
  if (fields === undefined) return undefined;
  const { amount, pair } = new Values(faults);
  const only = (value: Node): CutHabitsSpec | undefined => {
    const habits = readFields(value, onlyShape, faults);
    return habits && readHabits(habits, faults);
  };
  return {
    at: node.at,
    ...readHabits(fields, faults),
    effort: optional(fields, 'effort', (value) => readEffort(value, faults)),
    wander: optional(fields, 'wander', amount),
    worthKeeping: optional(fields, 'worth keeping', (value) => {
      const both = pair(value);
      return both && { at: both.at, long: both.first, short: both.second };
    }),
    only:
      optional(fields, 'only', (value) =>
        readNamed(value, 'cutting by material', 'reference', only, faults),
      ) ?? [],
  };
}

function readEffort(node: Node, faults: Faults): Placed<EffortName | number> | undefined {
  if (node.kind === 'text' && /^\d+$/u.test(node.text)) {
    const steps = Number(node.text);
    if (steps >= 1 && steps <= mostSteps) return { value: steps, at: node.at };
    const known = ['quick', 'normal', 'thorough', `1 to ${mostSteps} steps`];
    return faults.report(
      diagnose('S39', atSpan(node.at), { found: node.text, key: 'effort', meant: '', known }),
    );
  }
  return new Values(faults).word<EffortName>(['quick', 'normal', 'thorough'])(node, 'effort');
}

const mostSteps = 1_000_000_000;

const printShape: Shape = { where: 'the printing', keys: ['ruler', 'paper', 'margin', 'units', 'slips'] };

export function readPrint(node: Node, faults: Faults): PrintSpec | undefined {
  const fields = readFields(node, printShape, faults);
  if (fields === undefined) return undefined;
  const { amount, flag, list, paper, word } = new Values(faults);
  return {
    at: node.at,
    slips: optional(fields, 'slips', flag),
    ruler: optional(fields, 'ruler', (value) => {
      const scales =
        value.kind === 'list' ? list(value, 'graduations', '[1/16, 1/32]', amount) : [amount(value)];
      if (value.kind === 'list' && value.items.length === 0) {
        return wrongSort(value, 'one graduation at least', '1/16 in', faults);
      }
      const [first, ...others] = scales.filter((it) => it !== undefined);
      return first && { at: value.at, scales: [first, ...others] as const };
    }),
    paper: optional(fields, 'paper', paper),
    margin: optional(fields, 'margin', amount),
    units: optional(fields, 'units', word(['in', 'mm', 'both'])),
  };
}
