import { z } from 'zod';

/**
 * The shape of every JSON document that the program prints; the only file that imports zod. Documents are
 * typed by these schemas and need no zod to be printed.
 *
 * A field may be added at any time. One that leaves, or changes its meaning, takes a new `version` along.
 */

const count = z.int().min(0);
const whole = z.int().min(1);
const side = z.enum(['length', 'width', 'any']);
const runs = z.enum(['length', 'width', 'unknown', 'none']);

const fraction = z.string().regex(/^-?\d+(\/[1-9]\d*)?$/);

const length = z
  .object({
    mm: fraction.describe('exact number of millimetres, a fraction in lowest terms'),
    rounded: z.number().describe('the same to a thousandth of a millimetre, halves up'),
  })
  .meta({ id: 'length' });

const span = {
  file: z.string(),
  line: whole,
  column: whole.describe('in code points, from 1'),
  length: count.describe('code points on that line'),
};

const price = z.object({ amount: z.string().describe('an exact fraction'), currency: z.string() });

const place = z
  .discriminatedUnion('kind', [
    z.object({ kind: z.literal('span'), ...span }),
    z.object({ kind: z.literal('file'), file: z.string() }),
    z.object({ kind: z.literal('argument'), argument: z.string() }),
    z.object({ kind: z.literal('facet'), file: z.string(), facet: count }),
    z.object({ kind: z.literal('none') }),
  ])
  .meta({ id: 'place' });

const diagnostic = z
  .object({
    code: z.string().regex(/^[A-Z]\d\d$/),
    severity: z.enum(['fatal', 'error', 'warning', 'note']),
    place,
    message: z.string(),
    hints: z.array(z.string()),
    related: z.array(z.object({ place, message: z.string() })),
    fix: z.object({ ...span, text: z.string().describe('what the characters there become') }).nullable(),
  })
  .meta({ id: 'diagnostic' });

const from = z.enum(['option', 'session', 'kit', 'built-in']).describe('who set it');

const settings = z
  .object({
    units: z.object({ value: z.enum(['in', 'mm', 'both']), from }),
    ruler: z.object({ value: z.array(length), from }),
    paper: z.object({
      value: z.object({ name: z.string(), width: length.nullable(), height: length.nullable() }),
      from,
    }),
    margin: z.object({ value: length, from }),
    slips: z.object({ value: z.boolean(), from }).describe('a slip for each pile of cut pieces'),
    effort: z.object({ value: z.object({ name: z.string(), steps: count }), from }),
  })
  .meta({ id: 'settings' });

function document<const Name extends string, Fields extends z.ZodRawShape>(name: Name, fields: Fields) {
  return z.object({
    schema: z.literal(`cardwright/${name}`),
    version: z.literal(1),
    diagnostics: z.array(diagnostic),
    ...fields,
  });
}

const tile = z
  .object({
    name: z.string(),
    label: z.string(),
    note: z.string().nullable(),
    count,
    footprint: z.object({ across: length, along: length }).nullable(),
  })
  .meta({ id: 'tile' });

const cutMark = z.object({ exact: length, scale: length });

const inBlank = z.object({ along: length, up: length });

const drawnSide = z.enum(['left', 'right', 'bottom', 'top']);

const enclosed = z.object({ least: length, most: length });

const longFace = z
  .enum(['good', 'other'])
  .describe('the face on which it has its full size; good: the one that is drawn');

const asFits = z
  .object({ most: count.nullable().describe('no more than so many are asked for; null: as many as fit') })
  .nullable()
  .describe('of what is made as often as it fits; null for what is counted');

const member = z.object({
  label: z.string(),
  tile: z.string().nullable().describe('null for a loose part'),
  part: z.string(),
  note: z.string().nullable(),
  each: count.describe('in one tile'),
  count: count.describe('in all'),
  asFits,
  at: z.object(span),
  turnedOver: count.describe('of count, so many stand with their other side out'),
  cutTo: z
    .object({ length: cutMark.nullable(), width: cutMark.nullable() })
    .nullable()
    .describe(
      'of sizes that are marks, the way round of the parts: what they are exactly, and on which rule',
    ),
  drawn: z
    .object({
      net: z.object({ length, width: length }),
      outlined: z.boolean().describe('it is no plain rectangle of its net size'),
      master: z.string().nullable().describe('what it is traced from'),
      mirrored: z.boolean(),
      leave: z.object({ left: length, right: length, bottom: length, top: length }).nullable(),
      bores: z
        .array(
          z.object({
            fitting: z.string(),
            diameter: length,
            deep: length.nullable().describe('null: right through'),
            into: z.union([
              z.object({
                kind: z.literal('face'),
                face: z.enum(['good', 'other']),
                along: length,
                up: length,
              }),
              z.object({
                kind: z.literal('edge'),
                side: drawnSide,
                along: length,
                up: length.describe('from the other side of the board towards its good one'),
              }),
            ]),
          }),
        )
        .describe('holes for fittings, as the part is drawn'),
      folds: z
        .object({
          panels: z.array(length).describe('outer sizes as the blank runs; of a tray length, width, height'),
          tabs: z.array(count).describe('which of the panels are tabs, from 0'),
          isTray: z.boolean(),
          walls: z
            .array(z.enum(['front', 'back', 'left', 'right']))
            .nullable()
            .describe('the walls of a room that the panels are, but for a tab; null where they are none'),
          developed: z.object({ least: length, most: length }).describe('how long the blank truly is'),
          lines: z.array(
            z.object({
              from: z.object({ along: length, up: length }),
              to: z.object({ along: length, up: length }),
              way: z.enum(['away', 'toward']).describe('which way it folds, seen from the good side'),
              by: z.enum(['score', 'crease', 'groove']),
              degrees: z.object({
                exact: z.string().nullable().describe('a fraction; null where a slope says it'),
                rounded: z.number(),
              }),
              slope: z.object({ rise: z.string(), run: z.string() }).nullable().describe('whole numbers'),
            }),
          ),
        })
        .nullable()
        .describe('how the part is folded up out of its blank; null where it stays flat'),
      inclined: z
        .object({
          size: z.enum(['length', 'width']).describe('which of its sizes follows from how it lies'),
          truly: enclosed.describe('what that is, before it is rounded outward'),
          roundedTo: length.nullable().describe('null where it is exact'),
          slope: z
            .object({
              run: length,
              rise: length,
              ends: z.enum(['plumb', 'square']),
              plumb: enclosed.describe('its thickness, measured upright'),
              gap: enclosed.describe('what square ends leave open at either end, measured level'),
            })
            .nullable(),
          bend: z
            .object({
              face: z.enum(['outer', 'middle', 'inner']).describe('the one that the size is that of'),
              over: z.array(z.string()),
              goodSideOut: z.boolean(),
              leastRadius: enclosed.nullable().describe('inside its tightest bend'),
            })
            .nullable(),
        })
        .nullable()
        .describe('of a part that slopes or is bent in its tile'),
      bevels: z
        .array(
          z.object({
            side: drawnSide,
            longFace,
            back: enclosed.describe('how much further in the edge lies on the other face'),
            thickness: length.describe('of the board'),
          }),
        )
        .describe('edges that are cut at a slant, as the part is drawn'),
      rebates: z
        .array(
          z.object({
            side: drawnSide,
            longFace,
            wide: length,
            stays: length.describe('of its thickness'),
          }),
        )
        .describe('edges that are cut down to less than its thickness, as the part is drawn'),
    })
    .nullable()
    .describe('of what is cut out of its blank, as the part is written; null where it is the blank'),
  shared: z
    .object({
      labels: z.array(z.string()).describe('of the two'),
      length,
      width: length,
      asDrawn: inBlank.describe('where the left bottom corner of its box lies in the blank'),
      turned: inBlank.describe('the same of the one that is turned half round'),
      parting: z
        .object({ from: inBlank, to: inBlank })
        .nullable()
        .describe('the straight cut that parts the two, if one does'),
      slant: z
        .object({
          below: length.describe(
            'where that cut lies on the face below; parting is its place on the upper one',
          ),
          faceDown: z.boolean().describe('the turned one lies face down'),
        })
        .nullable()
        .describe('of a cut that slants and is a bevel of both'),
      saved: fraction.describe('less than two blanks of their own, square millimetres, exact'),
    })
    .nullable()
    .describe('of a blank that two parts share, head to tail, the way round of the part; count is of blanks'),
});

const partKind = z
  .object({
    length,
    width: length,
    grain: side,
    flutes: side,
    goodSide: z.boolean(),
    count,
    members: z.array(member),
  })
  .meta({ id: 'parts' });

const demand = {
  name: z.string(),
  thickness: length,
  nominal: length,
  measured: length.nullable(),
  hasGrain: z.boolean(),
  hasFlutes: z.boolean(),
  tool: z.string().nullable(),
  kerf: length,
  leastStrip: length,
  longestCut: length.nullable(),
  rounds: count.nullable().describe('the most rounds of cuts; null for no limit'),
  worthKeeping: z.object({ long: length, short: length }).nullable(),
  parts: z.array(partKind),
};

const box = z
  .object({ left: length, bottom: length, length, width: length })
  .describe('from the datum, the left bottom corner of the squared-up sheet')
  .meta({ id: 'box' });

const sheet = z
  .object({
    length,
    width: length,
    trim: z.object({ left: length, right: length, bottom: length, top: length }),
    grain: runs,
    flutes: runs,
    available: z.union([count, z.literal('as needed')]),
    price: price.nullable().describe('of a pack'),
    pack: whole.describe('how many are sold together'),
    block: z
      .object({ thick: length, layers: whole, left: length.describe('how thick what is left of each is') })
      .nullable()
      .describe('what it is sliced from; null where it is as thick as it is bought'),
    isOffcut: z.boolean(),
    inDrawer: z.boolean().describe('it lies in the drawer of the session'),
    trueEdges: z.boolean(),
    label: z.string().nullable(),
    where: z.string().nullable(),
    note: z.string().nullable(),
  })
  .meta({ id: 'sheet' });

const point = z.object({ left: length, bottom: length });

const cutStep = {
  number: whole,
  piece: z.object({ name: z.string(), box, count: whole.describe('pieces like it, cut alike') }),
  marks: z.array(length).describe('running, from the datum edge of the piece, to the near side of each cut'),
  runs: z.array(
    z.object({
      size: length,
      count: whole,
      cuts: count,
      endsAt: length,
      gives: z.array(
        z.object({ what: z.enum(['part', 'strip', 'keep', 'scrap']), name: z.string(), count: whole }),
      ),
    }),
  ),
  remains: length.nullable(),
  lines: z.array(z.object({ from: point, to: point })),
};

const step = z
  .discriminatedUnion('kind', [
    z.object({
      kind: z.literal('square up'),
      number: whole,
      length,
      width: length,
      trims: z.object({ left: length, right: length, bottom: length, top: length }),
      diagonal: z.object({
        length,
        isExact: z.boolean(),
        error: length.describe('true diagonal less length, to a millionth of a millimetre'),
      }),
    }),
    z.object({
      kind: z.literal('label'),
      number: whole,
      labels: z.array(
        z.object({
          label: z.string(),
          count: whole,
          on: z.enum(['each', 'slip']).describe('slip: kept together with one slip of paper'),
        }),
      ),
    }),
    z.object({ kind: z.literal('rip'), ...cutStep }),
    z.object({ kind: z.literal('crosscut'), ...cutStep }),
  ])
  .meta({ id: 'step' });

const layout = z
  .object({
    first: whole.describe('number of the first sheet cut so, counted over the material'),
    times: whole,
    sheet,
    inside: box.describe('the squared-up sheet within the sheet as bought'),
    pieces: z.array(z.object({ label: z.string(), box, turned: z.boolean(), steps: z.array(whole) })),
    leftovers: z.array(z.object({ box, keep: z.string().nullable() })),
    strips: z.array(z.object({ name: z.string(), box })),
    steps: z.array(step),
  })
  .meta({ id: 'layout' });

const areaMm2 = fraction.describe('square millimetres, exact');

const changes = [
  'longer search',
  'turns freely',
  'smaller part',
  'less trim',
  'narrower strips',
  'thinner kerf',
  'fewer parts',
  'fewer tiles',
  'one more sheet',
  'other sheet',
] as const;

const saving = z
  .object({
    change: z.enum(changes),
    labels: z.array(z.string()).describe('of the parts that change; empty where no part does'),
    tile: z.string().nullable(),
    side: z.enum(['length', 'width']).nullable().describe('which size becomes smaller'),
    by: length.nullable().describe('how much smaller a size or a trim becomes'),
    to: length.nullable().describe('what kerf or least strip becomes'),
    count: whole.nullable().describe('how many parts or tiles fewer'),
    sheet: z.object({ length, width: length, label: z.string().nullable() }).nullable(),
    steps: whole.nullable().describe('for --effort'),
    sheets: count.describe('bought with this change, as laying it out has shown'),
    isLeast: z.boolean().describe('false where a smaller change of this sort may do'),
  })
  .meta({ id: 'saving' });

const why = z
  .object({
    area: z
      .object({
        sheets: areaMm2,
        parts: areaMm2,
        kept: areaMm2,
        scrap: areaMm2,
        trim: areaMm2,
        cuts: areaMm2,
      })
      .describe('of all sheets and offcuts used, and what becomes of it'),
    bought: count.describe('sheets, offcuts not counted'),
    savings: z.array(saving).describe('each by itself; the least intrusive sort first'),
    tried: z.array(z.enum(changes)),
    packings: count.describe('changed demands that were laid out; bounds ruled out the others'),
    ended: z.enum(['all tried', 'tired', 'nothing to save', 'parts missing']),
  })
  .meta({ id: 'why' });

const cutMaterial = z.object({
  ...demand,
  sheets: count.describe('sheets and offcuts used'),
  bound: z.object({
    sheets: count,
    argument: z.string(),
    cost: price
      .nullable()
      .describe('no way of cutting costs less; null unless sheets of different prices could be bought'),
    isForBlanks: z
      .boolean()
      .describe('it holds for these blanks alone: formed another way, two to a blank or not, fewer may do'),
  }),
  proof: z.object({
    kind: z.enum(['fewest', 'within', 'none']),
    within: count.nullable().describe('at most so many more than the fewest possible'),
    cost: z
      .object({
        kind: z.enum(['cheapest', 'dearer']),
        by: price.nullable().describe('at most so much dearer than the cheapest way there is'),
      })
      .nullable()
      .describe('null unless sheets of different prices could be bought'),
  }),
  searchSteps: count.describe('--effort with this number gives the same layouts'),
  widthsSetOut: count.describe('different ones'),
  settings: count.describe('widths set out one after the other, in the order below'),
  settingsByPicture: count.describe('the same, by one who finishes layout after layout by its own steps'),
  order: z
    .array(
      z.object({
        size: length,
        uses: z.array(
          z.object({
            sheet: whole.describe('`first` of the layout'),
            step: whole,
            piece: z.string().describe('what is in hand: sheet, or the name of a strip'),
            cuts: whole.describe('over all pieces in hand and all sheets cut so'),
          }),
        ),
      }),
    )
    .describe(
      'once all sheets are squared up: a width is set out, then the runs of that width are cut, in this order',
    ),
  layouts: z.array(layout),
  unplaced: z.array(z.object({ label: z.string(), count: whole })),
  fillers: z
    .array(
      z.object({
        labels: z.array(z.string()),
        count: count.describe('so many fit'),
        most: count.describe('no way of cutting what is left over gives more'),
        isEnough: z.boolean().describe('no more are asked for'),
        stoppedAt: count
          .nullable()
          .describe('filling stopped at so many pieces of a material, with room for more; else null'),
      }),
    )
    .describe('what is made as often as it fits, in the order in which it was filled in'),
  why: why.nullable().describe('null without --why'),
});

const files = z
  .array(z.object({ path: z.string(), written: z.boolean() }))
  .describe('files written, or that a dry run would write');

const made = { title: z.string(), notes: z.array(z.string()), tiles: z.array(tile) };

const conversion = z
  .union([
    z.object({
      input: z.string(),
      mm: fraction,
      text: z.string(),
      to: z.enum(['in', 'mm', 'ft', 'thou']),
      exact: z.string(),
      onRuler: z.array(
        z.object({
          stepMm: fraction,
          mm: fraction,
          errorMm: fraction.describe('true length less the mark'),
          isExact: z.boolean(),
          text: z.string(),
        }),
      ),
    }),
    z.object({
      input: z.string(),
      error: z.object({ code: z.string(), message: z.string(), hint: z.string() }),
    }),
  ])
  .meta({ id: 'conversion' });

const way = z.enum(['across', 'along', 'up']);
const tileSide = z.enum(['left', 'right', 'front', 'back', 'bottom', 'top']);
const axisBox = z.object({
  low: z.array(fraction).describe('x, y and z in mm'),
  high: z.array(fraction).describe('x, y and z in mm'),
});
const cutSize = z.enum(['length', 'width']);
const areaOffMm2 = fraction.describe(
  'what the area may be off at most; 0 where no curve or slope takes part',
);
const inEachWay = z.array(fraction).describe('across, along, up');

const build = z.object({
  footprint: z.object({ across: length, along: length }),
  height: length.nullable(),
  slack: length,
  lip: length,
  extent: z.object({ across: length, along: length, up: length }),
  faults: z.array(
    z.object({
      kind: z.string(),
      parts: z.array(z.string()),
      way: way.nullable(),
      side: tileSide.nullable(),
      extent: length.nullable(),
      room: length.nullable(),
      amount: length.nullable(),
      right: z.array(
        z.object({
          parts: z.array(
            z.object({
              part: z.string(),
              size: z.enum(['length', 'width', 'run']).describe('run: how far it slopes'),
            }),
          ),
          now: length,
          right: length,
        }),
      ),
    }),
  ),
  parts: z.array(
    z.object({
      name: z.string(),
      part: z.string(),
      clads: z.string().nullable().describe('the part whose side it covers, of a strip'),
      material: z.string(),
      facing: tileSide,
      turnedOver: z.boolean().describe('its good side looks the other way than as it is drawn'),
      low: inEachWay,
      high: inEachWay,
    }),
  ),
  marks: z.array(
    z.object({
      part: z.string(),
      size: cutSize,
      exact: length,
      mark: length,
      scale: length,
      chosen: z.boolean().describe('another mark of the first rule is nearer'),
    }),
  ),
  contacts: z.array(
    z.object({
      part: z.string(),
      other: z.string(),
      way: way.describe('other lies on the high side of part, that way'),
      slant: z
        .object({ way, sameSide: z.boolean().describe('other lies on the high side that way, too') })
        .nullable()
        .describe('the second way of a face that is slanted; null where it is square'),
      areaMm2: fraction,
      areaOffMm2,
    }),
  ),
  faces: z.array(z.object({ material: z.string(), side: tileSide, areaMm2: fraction, areaOffMm2 })),
  gluing: z.array(z.object({ what: z.string(), onto: z.array(z.string()), afterDrying: z.boolean() })),
  unchecked: z
    .array(z.enum(['front', 'back', 'left', 'right']))
    .describe('sides of which a curve leaves open whether they are at their level'),
  turns: z.array(z.object({ turned: z.enum(['not', 'right', 'about', 'left']), mirrored: z.boolean() })),
  rack: z.object({ rack: z.string(), stack: count, sideBySide: count }).nullable(),
  fittings: z
    .array(
      z.object({
        fitting: z.string(),
        side: z.enum(['left', 'right', 'front', 'back', 'bottom', 'top']).describe('to which its hole opens'),
        middle: z.array(fraction).length(3).describe('of the opening, in mm: across, along, up'),
        diameter: length.describe('of the hole'),
        deep: length,
        pole: z.enum(['out', 'in']).nullable(),
      }),
    )
    .describe('those that are let in'),
  thinnestWall: length
    .nullable()
    .describe('the least that stays beside or behind a hole; null without holes'),
  takenWhole: z
    .array(z.string())
    .describe('pieces, bent or trays, that something is cut into of which these verdicts know nothing'),
  wander: z.array(z.object({ way, least: length, most: length, room: length })),
});

const limit = z
  .object({ thickness: length, tiles: z.array(z.string()) })
  .describe('the last thickness that does, and the tiles that stop closing beyond it');

const enclosure = z
  .object({ lo: length, hi: length })
  .describe('two lengths around one that may have no rational form; equal where it has one')
  .meta({ id: 'enclosure' });
const spot = z.object({ x: length, y: length }).meta({ id: 'spot' });
const segment = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('line'), from: spot, to: spot }),
  z.object({
    kind: z.literal('arc'),
    from: spot,
    to: spot,
    centre: spot,
    turn: z.enum(['left', 'right']),
    radius: length.nullable().describe('null where it is not rational'),
  }),
  z.object({
    kind: z.literal('curve'),
    from: spot,
    leaving: spot,
    arriving: spot,
    to: spot,
  }),
]);

const pile = z.object({
  tile: z.string().nullable().describe('null for what belongs to no tile'),
  letters: z.string().nullable().describe('what the labels of its pieces begin with'),
  name: z.string().describe('as it is printed'),
  note: z.string().nullable(),
  count: whole.nullable().describe('so many tiles it is for'),
  evening: z
    .object({ number: whole, of: whole, title: z.string() })
    .nullable()
    .describe('null where all is made in one'),
  pieces: z.array(
    z.object({
      material: z.string(),
      label: z.string(),
      note: z.string().nullable(),
      length,
      width: length,
      count: whole.describe('spares included'),
      spares: count,
    }),
  ),
  fittings: z.array(z.object({ label: z.string(), count: whole.describe('spares included'), spares: count })),
});

const master = z.object({
  name: z.string(),
  size: z.object({ length: enclosure, width: enclosure }),
  hasHands: z.boolean(),
  parts: z.array(
    z.object({
      label: z.string(),
      tile: z.string().nullable(),
      part: z.string(),
      material: z.string(),
      count: count.describe('0 of what is made as often as it fits: that is known once it is laid out'),
      asFits,
      holes: count.describe('so many holes of each are traced from it; 0: the part itself is'),
      hand: z.enum(['left', 'right']).describe('left: traced with the printed face up'),
      grain: side.describe('which side of the master runs with the grain'),
    }),
  ),
  rim: z.array(segment).describe('against the clock'),
  holes: z.array(z.array(segment)).describe('with the clock'),
  offsets: z.array(z.object({ along: length, bottom: enclosure, top: enclosure, isCorner: z.boolean() })),
  compass: z.array(z.object({ centre: spot, radius: enclosure, from: spot, to: spot, isWhole: z.boolean() })),
});

const listed = z
  .object({
    kind: z.enum(['sheet', 'offcut']),
    material: z.string(),
    length,
    width: length,
    grain: z.enum(['length', 'width', 'unknown']).nullable(),
    flutes: z.enum(['length', 'width', 'unknown']).nullable(),
    count: z.union([count, z.literal('as needed')]),
    label: z.string().nullable(),
    where: z.string().nullable(),
    note: z.string().nullable(),
    price: price.nullable(),
    pack: whole.describe('how many were sold together'),
    thick: length.nullable().describe('how thick a block is that is still to be sliced'),
    trueEdges: z.boolean(),
  })
  .meta({ id: 'listed' });

const frozenBox = z.looseObject({ left: length, bottom: length, length, width: length });
const jobSheet = z.object({ material: z.string(), number: whole });

const picture = z
  .looseObject({
    first: whole.describe('number of the first sheet cut so, as printed'),
    times: whole,
    sheet: z.looseObject({
      length,
      width: length,
      trim: z.object({ left: length, right: length, bottom: length, top: length }),
      grain: runs,
      flutes: runs,
      available: z.union([count, z.literal('as needed')]),
      isOffcut: z.boolean(),
      trueEdges: z.boolean(),
      price: z.looseObject({ amount: fraction, currency: z.string() }).optional(),
      pack: whole.optional(),
      block: z.looseObject({ thick: length, layers: whole, left: length }).optional(),
      label: z.string().optional(),
      where: z.string().optional(),
      note: z.string().optional(),
    }),
    isOwn: z.boolean().describe('the sheet is a leftover of this job'),
    inside: frozenBox,
    pieces: z.array(
      z.looseObject({
        label: z.string(),
        parts: z.array(z.string()).optional().describe('labels of the parts that share this blank'),
        box: frozenBox,
        turned: z.boolean(),
      }),
    ),
    leftovers: z.array(z.looseObject({ box: frozenBox, keep: z.string().optional() })),
  })
  .meta({ id: 'picture' });

const jobMaterial = z.looseObject({
  demand: z.looseObject({
    material: z.looseObject({ name: z.string(), thickness: length }),
    parts: z.array(
      z.looseObject({
        length,
        width: length,
        count: whole,
        members: z.array(z.looseObject({ label: z.string(), part: z.string(), count: whole })),
      }),
    ),
    sheets: z.array(z.looseObject({ length, width: length })),
    rules: z.looseObject({ kerf: length, leastStrip: length }),
  }),
  pictures: z.array(picture),
  unplaced: z.array(z.object({ label: z.string(), count: whole })),
});

const job = {
  id: z.string(),
  seal: z.string().describe('SHA-256 of the plan as JSON without spaces; it tells when the plan was edited'),
  plan: z
    .looseObject({
      title: z.string(),
      madeBy: z.string(),
      inputs: z.array(z.object({ path: z.string(), digest: z.string() })),
      asked: z.looseObject({ files: z.array(z.string()), make: z.array(z.string()) }),
      drawer: z.string().optional(),
      settings: z.looseObject({}),
      tiles: z.array(z.looseObject({ name: z.string(), label: z.string(), count })),
      materials: z.array(jobMaterial),
      mark: z.string().describe('what stands at the foot of each page that was printed of it'),
    })
    .describe(
      'never changes but by planning anew; an object with mm is a length, whatever holds at is a place in a file',
    ),
  events: z.array(
    z.discriminatedUnion('kind', [
      z.object({ kind: z.literal('cut'), sheets: z.array(jobSheet) }),
      z.object({
        kind: z.literal('put away'),
        entry: whole.describe('number of the entry in the journal of the drawer'),
        sheets: z.array(jobSheet),
      }),
      z.object({
        kind: z.literal('recut'),
        label: z.string(),
        count: whole,
        material: z.string(),
        pictures: z.array(picture),
      }),
    ]),
  ),
};

const sheetState = z.object({
  number: whole,
  sheet: z.object({ length, width: length, label: z.string().nullable() }),
  what: z.enum(['sheet', 'offcut']),
  inDrawer: z.boolean(),
  cutAgain: z.boolean().describe('it is a leftover of the job, laid out for spoiled pieces'),
  cut: z.boolean(),
  putAway: z.boolean(),
  labels: z.array(z.object({ label: z.string(), count: whole })),
  keeps: z.array(z.object({ label: z.string(), length, width: length })),
});

export const schemas = {
  cut: document('cut', {
    settings: settings.nullable(),
    result: z
      .object({
        ...made,
        materials: z.array(cutMaterial),
        piles: z
          .array(pile)
          .nullable()
          .describe(
            'what is laid together once all is cut, a slip for each; null where no slips are asked for',
          ),
      })
      .nullable(),
    files,
  }),
  check: document('check', {
    settings: settings.nullable(),
    result: z
      .object({
        ...made,
        verdicts: z.array(
          z.object({
            tile: z.string().nullable(),
            parts: count.describe('in one tile'),
            materials: z.array(z.object({ name: z.string(), parts: count })),
            build: build.nullable().describe('how it stands; null without a build'),
          }),
        ),
        sensitivity: z
          .array(
            z.object({
              material: z.string(),
              now: length,
              most: limit.nullable(),
              least: limit.nullable(),
              cutOtherwise: z
                .array(
                  z.object({
                    tile: z.string().nullable().describe('null for a loose part'),
                    part: z.string(),
                    what: z.array(z.enum(['length', 'width', 'outline', 'bevels', 'rebates', 'holes'])),
                  }),
                )
                .describe('parts that are cut otherwise where it is a tenth thicker or thinner'),
              trials: z
                .array(
                  z.object({
                    thickness: length,
                    faults: z.array(
                      z.object({ tile: z.string(), kind: z.string(), parts: z.array(z.string()) }),
                    ),
                    errors: z.array(z.object({ code: z.string(), message: z.string() })),
                  }),
                )
                .describe('what else goes wrong a tenth thinner and thicker, or as far as all closes'),
            }),
          )
          .nullable()
          .describe(
            'between which thicknesses every tile closes that closes now; null where it was not asked for',
          ),
      })
      .nullable(),
  }),
  count: document('count', {
    settings: settings.nullable(),
    result: z
      .object({
        ...made,
        materials: z.array(z.object({ ...demand, count })),
        evenings: z.array(
          z.object({ title: z.string(), tiles: z.array(z.object({ name: z.string(), count })) }),
        ),
        fittings: z.array(
          z.object({
            name: z.string(),
            label: z.string(),
            note: z.string().nullable(),
            diameter: length.nullable(),
            depth: length.nullable(),
            poles: z.boolean(),
            count: whole.describe('over the whole batch, spares included'),
            spares: count,
            uses: z.array(
              z.object({
                tile: z.string().nullable().describe('null for a loose part and the session'),
                part: z.string().nullable().describe('null for the tile, or the session, itself'),
                each: whole,
                count,
              }),
            ),
            atHand: z
              .object({ count, where: z.string().nullable() })
              .nullable()
              .describe('null where no drawer counts fittings'),
            toBuy: z.object({
              count: count.describe('what is missing'),
              pack: whole.describe('how many are sold together'),
              packs: count,
              leftOver: count.describe('of the packs, what is not needed'),
              cost: price.nullable().describe('of all packs'),
            }),
          }),
        ),
        work: z
          .object({
            materials: z.array(
              z.object({
                name: z.string(),
                sheets: count,
                pieces: count,
                settings: count,
                cuts: count,
                cutLength: length,
                missing: count.describe('parts that no sheet is left for'),
              }),
            ),
            glueJoints: count,
            area: z.object({ sheets: areaMm2, used: areaMm2, kept: areaMm2, lost: areaMm2 }),
            toBuy: z.array(
              z.object({
                material: z.string(),
                length,
                width: length,
                count: whole.describe('sheets that are cut'),
                pack: whole.describe('how many are sold together'),
                packs: whole.describe('how many packs are bought'),
                leftOver: count.describe('sheets of the packs that are not cut'),
                cost: price.nullable().describe('of all packs'),
                proof: z.enum(['fewest', 'within', 'none']).describe('of all sheets of the material'),
                within: count.nullable(),
                isCheapest: z.boolean().nullable().describe('null where there is no choice of prices'),
              }),
            ),
            costs: z.array(price).describe('one sum a currency'),
          })
          .nullable()
          .describe('what only layouts tell; null where nothing was laid out'),
      })
      .nullable(),
  }),
  masters: document('masters', {
    settings: settings.nullable(),
    result: z

      .object({
        title: z.string(),
        pitch: length,
        bars: z.object({ across: length, up: length }).describe('what a bar of 100 mm measures on paper'),
        masters: z.array(master),
      })
      .nullable(),
    files,
  }),
  drawer: document('drawer', {
    result: z
      .object({
        title: z.string().nullable(),
        units: z.enum(['in', 'mm']).nullable(),
        entries: z.array(listed).describe('as the drawer is after the changes'),
        fittings: z.array(
          z.object({ name: z.string(), count, where: z.string().nullable(), note: z.string().nullable() }),
        ),
        changes: z.array(z.string()).describe('what was changed, or a dry run would change, in words'),
      })
      .nullable(),
    files,
  }),
  job: document('job', job),
  state: document('state', {
    result: z
      .object({
        title: z.string(),
        drawer: z.string().nullable(),
        changed: z.array(z.string()).describe('files that changed since the job was made'),
        changes: z.array(z.string()).describe('what was done, or a dry run would do, in words'),
        materials: z.array(z.object({ name: z.string(), sheets: z.array(sheetState) })),
      })
      .nullable(),
    files,
  }),
  convert: document('convert', { conversions: z.array(conversion), files }),
  kit: document('kit', {
    result: z
      .object({
        to: z.enum(['in', 'mm']),
        kits: z.array(
          z.object({
            file: z.string(),
            converted: count.describe('measures that are written in the other unit'),
            kept: count.describe('measures that name a unit of their own and keep it'),
            text: z.string().describe('what the file holds, or would hold'),
          }),
        ),
        rounding: z
          .object({
            step: length,
            together: count.describe('sizes that were chosen together'),
            drift: length.describe('of these in all'),
            proved: z.boolean().describe('no choice has less drift'),
            ruledOut: z.object({ bySums: count, byRuns: count }),
            oneByOne: z
              .array(z.string())
              .describe('tiles that would not stand with each size rounded by itself'),
            bentArcs: z
              .array(z.object({ line: whole, off: length }))
              .describe(
                'arcs that were half a circle and are none any more; off: chord less twice the rise or radius',
              ),
            sizes: z.array(z.object({ line: whole, was: length, is: length })),
          })
          .nullable(),
        parts: z.array(
          z.object({
            tile: z.string().nullable(),
            part: z.string(),
            was: z.object({ length, width: length }),
            is: z.object({ length, width: length }),
          }),
        ),
        largestDrift: length,
        tiles: z.array(
          z.object({
            tile: z.string(),
            before: z.array(z.string()),
            now: z.array(z.string()),
            worse: z.boolean(),
          }),
        ),
      })
      .nullable(),
    files,
  }),
  table: document('table', {
    step: length,
    unit: z.enum(['in', 'mm']),
    rounding: z.object({ to: length, halves: z.enum(['half up', 'half even']) }),
    rows: z.array(
      z.object({ size: length, text: z.string(), exact: z.string(), nearest: z.string(), mark: length }),
    ),
    files,
  }),
  twin: document('twin', {
    result: z
      .object({
        title: z.string(),
        origin: z.enum(['corner', 'centre']),
        up: z.enum(['z', 'y']),
        axes: z.enum(['right-handed', 'left-handed']),
        step: length,
        clearance: z.object({
          left: length,
          right: length,
          front: length,
          back: length,
          bottom: length,
          top: length,
        }),
        tiles: z.array(
          z.object({
            tile: z.string(),
            envelope: axisBox,
            printable: axisBox,
            parts: z.array(
              z.object({
                name: z.string(),
                material: z.string(),
                exact: axisBox,
                rounded: axisBox.describe('each face to the nearest step'),
                facing: tileSide,
                turnedOver: z.boolean(),
                shaped: z.boolean().describe('it fills less than its box'),
              }),
            ),
            byEye: z.array(z.object({ part: z.string(), count, size: z.array(length) })),
          }),
        ),
      })
      .nullable(),
    files,
  }),
  explain: document('explain', {
    codes: z.array(
      z.object({
        code: z.string(),
        severity: z.enum(['fatal', 'error', 'warning', 'note']),
        title: z.string(),
        page: z
          .object({
            why: z.string(),
            failing: z.array(z.object({ file: z.string(), text: z.string() })),
            mended: z.array(z.object({ file: z.string(), text: z.string() })),
          })
          .nullable(),
      }),
    ),
  }),
  new: document('new', { text: z.string(), files }),
  version: document('version', {
    cardwright: z.string(),
    node: z.string(),
    platform: z.string(),
    schemas: z.record(z.string(), whole).describe('version of each document by name'),
  }),
  failure: document('failure', {
    exitCode: z.int(),
    command: z.string().nullable(),
  }),
} as const;

export type SchemaName = keyof typeof schemas;

export type Document<Name extends SchemaName> = z.infer<(typeof schemas)[Name]>;

/** The JSON Schema (draft 2020-12) of a document, as `schema NAME` prints it. */
export function toJsonSchema(name: SchemaName): object {
  return {
    title: `cardwright ${name}`,
    ...z.toJSONSchema(schemas[name], { io: 'input', target: 'draft-2020-12' }),
  };
}

export function faultsOf(name: SchemaName, document: unknown): readonly SchemaFault[] {
  const read = schemas[name].safeParse(document);
  if (read.success) return [];
  return read.error.issues.map((it): SchemaFault => {
    const way = it.path.map((step) => (typeof step === 'number' ? step : String(step)));
    return { way, wanted: it.code === 'invalid_type' ? kindWords[it.expected] : undefined };
  });
}

/** What of a document does not obey its schema. */
export interface SchemaFault {
  /** From the outermost value inwards: `plan`, `materials`, 0. */
  readonly way: readonly (string | number)[];
  /** What kind of value should stand there, where it is another. */
  readonly wanted: string | undefined;
}

const kindWords: Readonly<Record<string, string>> = {
  string: 'a text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'an object',
  record: 'an object',
};
