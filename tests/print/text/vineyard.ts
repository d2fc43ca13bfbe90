import type { Batch, Made, MaterialLayouts, Savings } from '../../../src/model/index.ts';
import {
  crosscut,
  demand,
  emptyFile,
  inch,
  inRow,
  kind,
  layouts,
  leftOver,
  member,
  part,
  rip,
  settings,
  sheet,
  trimmed,
} from '../../plan/byHand.ts';
import { plan } from '../../plan/planned.ts';

/** An evening of the vineyard, laid out by hand: three materials, a kerf, an offcut, small parts. */

const square = kind(inch(3), inch(3), [member('TE top card', 4, 'terrace'), member('CI rim', 1, 'cistern')]);
const core = kind(inch(3), inch(2, 7, 8), [member('RW board', 4, 'retaining wall')]);
const wall = kind(inch(3), inch(1, 1, 2), [
  member('RW face', 2, 'retaining wall'),
  member('RW back', 2, 'retaining wall'),
]);
const edging = kind(inch(1, 1, 4), inch(1, 1, 4), [{ ...member('edging', 24), tile: undefined }]);

const greyboard: MaterialLayouts = layouts(
  demand(
    [square, core, wall, edging],
    [
      sheet(inch(16), inch(12), { trim: trimmed(inch(0, 1, 8)) }),
      sheet(inch(8), inch(5), { isOffcut: true, label: 'G1', where: 'shoe box' }),
    ],
    { worthKeeping: { long: inch(3), short: inch(1, 1, 2) } },
  ),
  [
    {
      sheet: 1,
      times: 1,
      tree: rip(
        inch(3),
        inRow(crosscut, 2, inch(3), part(0), leftOver),
        inRow(crosscut, 2, inch(3), rip(inch(1, 1, 2), part(2), leftOver), leftOver),
      ),
    },
    {
      sheet: 0,
      times: 1,
      tree: rip(
        inch(3),
        inRow(crosscut, 3, inch(3), part(0), inRow(crosscut, 2, inch(1, 1, 2), part(2, true), leftOver)),
        rip(
          inch(2, 7, 8),
          inRow(crosscut, 4, inch(3), part(1), leftOver),
          inRow(rip, 2, inch(1, 1, 4), inRow(crosscut, 12, inch(1, 1, 4), part(3), leftOver), leftOver),
        ),
      ),
    },
  ],
);

const stones = kind(inch(0, 1, 2), inch(0, 1, 4), [
  member('RW stones', 48, 'retaining wall'),
  member('TE stones', 12, 'terrace'),
]);
const fill = kind(inch(3), inch(3), [member('TE fill', 4, 'terrace'), member('CI fill', 1, 'cistern')]);
const kerf = inch(0, 1, 32);

const foam: MaterialLayouts = layouts(
  demand(
    [stones, fill],
    [sheet(inch(24), inch(12))],
    { kerf, tool: 'hot wire', worthKeeping: { long: inch(3), short: inch(1, 1, 2) } },
    { name: 'foam', thickness: inch(0, 1, 2), nominal: inch(0, 1, 2) },
  ),
  [
    {
      sheet: 0,
      times: 1,
      tree: rip(
        inch(3),
        inRow(crosscut, 5, inch(3), part(1), leftOver),
        inRow(rip, 2, inch(0, 1, 4), inRow(crosscut, 30, inch(0, 1, 2), part(0), leftOver), leftOver),
      ),
    },
  ],
  { proof: { kind: 'within', sheets: 1 } },
);

const bed = kind(inch(3), inch(3), [member('TE bed', 20, 'terrace'), member('CI bed', 10, 'cistern')], {
  flutes: 'length',
});

const twinwall: MaterialLayouts = layouts(
  demand(
    [bed],
    [sheet(inch(24), inch(6), { flutes: 'length' })],
    { worthKeeping: { long: inch(3), short: inch(1, 1, 2) } },
    { name: 'twinwall', thickness: inch(0, 3, 16), nominal: inch(0, 3, 16), hasFlutes: true },
  ),
  [
    {
      sheet: 0,
      times: 3,
      tree: inRow(
        rip,
        1,
        inch(3),
        inRow(crosscut, 5, inch(3), part(0), leftOver),
        inRow(crosscut, 5, inch(3), part(0), leftOver),
      ),
    },
  ],
);

const all = [greyboard, twinwall, foam];

export const batch: Batch = {
  title: 'Vineyard, first evening',
  notes: ['the drain holes are cut after gluing'],
  tiles: [
    {
      name: 'terrace',
      label: 'terrace',
      letters: 'TE',
      note: undefined,
      count: 4,
      footprint: { across: inch(3), along: inch(3) },
    },
    {
      name: 'cistern',
      label: 'cistern',
      letters: 'CI',
      note: undefined,
      count: 1,
      footprint: { across: inch(3), along: inch(3) },
    },
    {
      name: 'retaining wall',
      label: 'retaining wall',
      letters: 'RW',
      note: undefined,
      count: 2,
      footprint: { across: inch(3), along: inch(3) },
    },
  ],
  materials: all.map((it) => it.demand),
  builds: [],
  wander: undefined,
  settings,
};

/** One saving of every sort, whether or not it would be one. */
export const savings: readonly Savings[] = [
  {
    bought: 3,
    found: [
      { change: { kind: 'longer search', steps: 1000 }, sheets: 2, isLeast: true },
      { change: { kind: 'turns freely', part: 0 }, sheets: 2, isLeast: true },
      {
        change: { kind: 'smaller part', part: 2, side: 'width', by: inch(0, 1, 16) },
        sheets: 1,
        isLeast: false,
      },
      { change: { kind: 'less trim', by: inch(0, 1, 16) }, sheets: 2, isLeast: true },
      { change: { kind: 'narrower strips', to: inch(0, 1, 8) }, sheets: 2, isLeast: true },
      { change: { kind: 'thinner kerf', to: inch(0) }, sheets: 2, isLeast: true },
      { change: { kind: 'fewer parts', part: 3, count: 2 }, sheets: 2, isLeast: true },
      { change: { kind: 'fewer tiles', tile: 'terrace', count: 1 }, sheets: 2, isLeast: true },
      { change: { kind: 'one more sheet', sheet: 1 }, sheets: 2, isLeast: true },
      { change: { kind: 'other sheet', sheet: sheet(inch(24), inch(6)) }, sheets: 2, isLeast: true },
    ],
    tried: ['longer search', 'turns freely', 'smaller part'],
    packings: 9,
    ended: 'tired',
  },
  { bought: 3, found: [], tried: ['turns freely', 'fewer parts'], packings: 0, ended: 'all tried' },
  { bought: 1, found: [], tried: [], packings: 0, ended: 'nothing to save' },
];

export const vineyard: Made = {
  spec: { files: [emptyFile] },
  batch,
  fits: [],
  layouts: all,
  plans: plan(all, settings),
};
