import type { Made, Outline, PartMember, Settings } from '../../../src/model/index.ts';
import {
  arched,
  circle,
  polygon,
  rectangle,
  through,
  withCuts,
  withMarks,
} from '../../../src/outline/index.ts';
import { at, inch as inches, made, mm } from '../../outline/drawing.ts';
import { demand, emptyFile, here, inch, kind, member, settings, sheet } from '../../plan/byHand.ts';

/** Masters of the tests: small and large, straight and curved, with and without hands. */
export const outlines = {
  drain: made(arched({ width: inches(3, 2), rise: inches(1, 2) }, inches(2))),
  shoulder: withMarks(
    made(
      withCuts(made(through([at(0, 60), at(40, 55), at(90, 20), at(130, 12)], ['flat', 'flat'])), [
        {
          kind: 'hole',
          outline: made(circle(mm(12))),
          place: { centre: at(14, 26) },
          repeat: undefined,
        },
      ]),
    ),
    [
      { kind: 'centre line', runs: 'length' },
      { kind: 'cross', at: at(60, 10) },
    ],
  ),
  long: made(through([at(0, 30), at(150, 160), at(320, 90), at(420, 260)], ['free', 'flat'])),
  wedge: made(polygon([at(0, 0), at(9, 0), at(0, 5)])),
  board: made(rectangle(inches(3), inches(3))),
} as const satisfies Record<string, Outline>;

export function tracedMember(label: string, count: number, master: string, isMirrored = false): PartMember {
  return {
    ...member(label, count),
    drawn: {
      outline: undefined,
      master,
      isMirrored,
      net: { length: inch(3), width: inch(2) },
      leave: undefined,
      roundedTo: undefined,
    },
  };
}

/** An evening whose parts are traced from these masters: two hands of the shoulder, one part of every other. */
export function mastersMade(
  all: Readonly<Record<string, Outline>> = outlines,
  more: Partial<Settings> = {},
): Pick<Made, 'spec' | 'batch'> {
  const kinds = Object.keys(all).map((name, i) =>
    kind(
      inch(3 + i),
      inch(2),
      [
        tracedMember(`A ${name}`, 4, name),
        ...(name === 'shoulder' ? [tracedMember(`B ${name}`, 2, name, true)] : []),
      ],
      { grain: 'length' },
    ),
  );
  const [first, ...others] = kinds;
  return {
    spec: { files: [emptyFile] },
    batch: {
      title: 'Night',
      notes: [],
      tiles: [],
      materials: first === undefined ? [] : [demand([first, ...others], [sheet(inch(30), inch(20))])],
      masters: Object.entries(all).map(([name, outline]) => ({ name, at: here, outline })),
      builds: [],
      wander: undefined,
      settings: { ...settings, ...more },
    },
  };
}
