import { readdirSync, readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import {
  conversionRecord,
  convertToOne,
  rational,
  referenceTable,
  toFraction,
} from '../../../src/measure/index.ts';
import {
  atSpan,
  type Diagnostic,
  diagnose,
  type Job,
  type ListedEntry,
  nowhere,
} from '../../../src/model/index.ts';
import { workOf } from '../../../src/print/count/index.ts';
import {
  type AnyDocument,
  checkDocument,
  convertDocument,
  countDocument,
  cutDocument,
  drawerDocument,
  explainDocument,
  failureDocument,
  isSchemaName,
  jobDocument,
  jsonSchema,
  kitDocument,
  newDocument,
  printJson,
  type SchemaName,
  schemaNames,
  stateDocument,
  versionDocument,
  versions,
} from '../../../src/print/json/index.ts';
import { mastersDocument, trueBars } from '../../../src/print/masters/index.ts';
import { type TwinWishes, tableDocument, twinDocument, twinOf } from '../../../src/print/tables/index.ts';
import { frozenJob, jobPlanOf } from '../../../src/stock/index.ts';
import { mm } from '../../plan/byHand.ts';
import { mastersMade } from '../masters/evening.ts';
import { batch, savings, vineyard } from '../text/vineyard.ts';
import committed from './fields.json' with { type: 'json' };
import { fieldsIn, fieldsOf } from './fieldsOf.ts';

const fault: Diagnostic = {
  ...diagnose('M27', nowhere, { found: '2' }),
  place: atSpan({ source: { path: 'a.yaml', text: 'a: 1\r\nb: 日本 x\n' }, start: 9, end: 11 }),
  related: [{ place: { kind: 'file', path: 'b.yaml' }, message: 'also here' }],
  fix: { span: { source: { path: 'a.yaml', text: 'a: 1\n' }, start: 0, end: 1 }, text: 'b' },
};
const elsewhere: readonly Diagnostic[] = [
  { ...fault, place: { kind: 'argument', argument: '--rulre' }, fix: undefined },
  { ...fault, place: { kind: 'facet', path: 'm.stl', facet: 3 }, fix: undefined },
  { ...fault, place: nowhere },
];

const entry: ListedEntry = {
  kind: 'offcut',
  material: 'card',
  length: mm(200),
  width: mm(100),
  grain: 'unknown',
  flutes: undefined,
  count: 2,
  label: 'G1',
  where: undefined,
  note: 'bent',
  price: { amount: rational(12n, 5n), currency: 'EUR' },
  trim: undefined,
  trueEdges: true,
  at: { source: { path: 'd.yaml', text: '' }, start: 0, end: 0 },
  countAt: undefined,
};
const plan = jobPlanOf(vineyard, {
  madeBy: '0.1.0',
  inputs: [{ path: 'kit.yaml', digest: 'abc' }],
  asked: { files: ['kit.yaml'], make: ['wall=2'], evening: undefined },
  drawer: 'drawer.yaml',
  mark: '01234567',
});
const [cut] = plan.materials.flatMap(({ demand, pictures }) =>
  pictures.map((picture) => ({ material: demand.material.name, picture })),
);
if (cut === undefined) throw new Error('nothing is cut');
const sheets = [{ material: cut.material, number: 1 }];
const job: Job = {
  id: '1',
  plan,
  events: [
    { kind: 'cut', sheets },
    { kind: 'put away', entry: 1, sheets },
    { kind: 'recut', label: 'x', count: 1, material: cut.material, pictures: [cut.picture] },
  ],
};
const options = { ruler: [] };
const twinWishes: TwinWishes = {
  origin: 'corner',
  up: 'z',
  axes: 'right-handed',
  clearance: { left: mm(1), right: mm(1), front: mm(1), back: mm(1), bottom: mm(0), top: mm(0) },
  step: mm(1),
  units: 'mm',
};
const page = { files: { 'kit.yaml': 'cardwright: kit\n' } };
const samples: Readonly<Record<SchemaName, readonly AnyDocument[]>> = {
  cut: [
    cutDocument(vineyard, [fault], [{ path: 'out.pdf', written: true }]),
    cutDocument({ ...vineyard, savings }, []),
    cutDocument(undefined, [fault, ...elsewhere]),
  ],
  check: [checkDocument({ batch, fits: [] }, []), checkDocument(undefined, [fault])],
  count: [
    countDocument(batch, []),
    countDocument(batch, [], workOf(vineyard)),
    countDocument(undefined, [fault]),
  ],
  masters: [
    mastersDocument({ batch: mastersMade().batch, name: undefined, pitch: mm(20), bars: trueBars }, []),
    mastersDocument(undefined, [fault]),
  ],
  job: [jobDocument(frozenJob(job), 'seal')],
  state: [
    stateDocument(
      { job, changed: ['kit.yaml'], changes: ['cut'] },
      [fault],
      [{ path: 'j.json', written: true }],
    ),
    stateDocument(undefined, [fault]),
  ],
  drawer: [
    drawerDocument(
      { title: 'box', units: 'in', entries: [entry] },
      [],
      ['put in 1 x card'],
      [{ path: 'd.yaml', written: true }],
    ),
    drawerDocument(undefined, [fault]),
  ],
  convert: [
    convertDocument(
      ['2 3/8 in', '7 mm', '2,5'].map((text) => conversionRecord(convertToOne(text, options), options)),
      [fault],
    ),
  ],
  kit: [kitDocument(undefined, [fault])],
  table: [tableDocument(referenceTable({ step: mm(1), upTo: mm(3), ruler: [], halves: 'half up' }))],
  twin: [twinDocument(twinOf(batch, twinWishes), 'Vineyard', []), twinDocument(undefined, '', [fault])],
  explain: [
    explainDocument([
      {
        code: 'M27',
        severity: 'error',
        title: 'which unit',
        page: { why: 'so', failing: page, mended: page },
      },
      { code: 'M01', severity: 'error', title: 'other', page: undefined },
    ]),
  ],
  new: [newDocument('cardwright: kit\n', [{ path: 'kit.yaml', written: false }])],
  version: [versionDocument({ cardwright: '0.1.0', node: '20.19.0', platform: 'linux' })],
  failure: [failureDocument([fault, ...elsewhere], 2, 'cut'), failureDocument([], 70)],
};

/** What holds more than its schema names: versions by name, and a plan as the program keeps it. */
function isOpen(field: string): boolean {
  return /^(?:schemas|plan|events\[\])\./.test(field);
}

describe.each(schemaNames)('the document of %s', (name) => {
  it('obeys its exported schema, as an independent validator reads it', async () => {
    const validate = new Ajv2020({ strict: true, allErrors: true, allowUnionTypes: true }).compile(
      await jsonSchema(name),
    );
    for (const document of samples[name]) {
      validate(JSON.parse(printJson(document)));
      expect(validate.errors).toBe(null);
    }
  });

  it('says which document it is', () => {
    for (const document of samples[name]) {
      expect(document.schema).toBe(`cardwright/${name}`);
      expect(document.version).toBe(versions[name]);
    }
  });

  it('has no field that its schema is silent about', async () => {
    const known = fieldsOf(await jsonSchema(name));
    for (const document of samples[name]) {
      const unknown = fieldsIn(JSON.parse(printJson(document))).filter(
        (field) => !known.includes(field) && !isOpen(field),
      );
      expect(unknown).toEqual([]);
    }
  });

  it('loses no field without a new version; a field that is added goes into fields.json', async () => {
    const { version, fields } = committed[name];
    if (versions[name] === version) expect(fieldsOf(await jsonSchema(name))).toEqual(fields);
    else expect(versions[name]).toBeGreaterThan(version);
  });
});

it.each(['cut', 'check', 'count', 'convert'] as const)(
  '%s refuses a length that is a float',
  async (name) => {
    const validate = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(await jsonSchema(name));
    const spoilt = printJson(samples[name][0]!).replace(/"mm": "[^"]*"/, '"mm": 60.325');
    expect(validate(JSON.parse(spoilt))).toBe(false);
  },
);

it('keeps lengths exact, with a rounded number beside them', () => {
  const [first] = batch.materials;
  const described = countDocument(batch, []).result?.materials[0]?.parts[1];
  // Source: 2 7/8 in = 23/8 × 127/5 mm = 2921/40 mm, computed.
  expect(described?.width).toEqual({ mm: '2921/40', rounded: 73.025 });
  expect(toFraction(first!.parts[1]!.width)).toBe('2921/40');
});

it('places a fault by line and column in code points', () => {
  const [described] = failureDocument([fault], 1).diagnostics;
  // Worked out by eye: the second line is `b: 日本 x`; its fourth character is the first of the span.
  expect(described?.place).toEqual({ kind: 'span', file: 'a.yaml', line: 2, column: 4, length: 2 });
});

it('knows the names of its documents and no others', () => {
  expect(isSchemaName('cut')).toBe(true);
  expect(isSchemaName('toString')).toBe(false);
});

it('does not load the schema library to print a document', () => {
  const folder = new URL('../../../src/print/json/', import.meta.url);
  for (const file of readdirSync(folder)) {
    if (file === 'schema.ts') continue;
    const text = readFileSync(new URL(file, folder), 'utf8');
    expect(text).not.toMatch(/^import .*'zod'/m);
    expect(text).not.toMatch(/^(import|export) (?!type).*'\.\/schema\.ts'/m);
  }
});
