import { expand } from '../../expand/index.ts';
import { isNegative, millimetres, rational, readMeasure, zero } from '../../measure/index.ts';
import {
  type Diagnostic,
  diagnose,
  isError,
  type Length,
  type Outcome,
  type Spec,
  type TileSide,
} from '../../model/index.ts';
import { printJson } from '../../print/json/index.ts';
import {
  type TwinWishes,
  twinDocument,
  twinOf,
  twinSheet,
  usualClearance,
} from '../../print/tables/index.ts';
import type { Request } from '../arguments.ts';
import { readConversion } from '../conversionWishes.ts';
import { driverOf } from '../driving.ts';
import type { ExitCode } from '../exitCode.ts';
import { fail } from '../failing.ts';
import { readOutputs, withDocument } from '../outputs.ts';
import { outputsOverInputs, readFiles } from '../reading.ts';
import type { Voice } from '../voice.ts';
import type { World } from '../world.ts';
import { deliverSheet } from './convertTable.ts';

/** Where each part of each tile stands, for whoever models it. */
export async function convertTwin(request: Request, world: World, voice: Voice): Promise<ExitCode> {
  const wishes = readTwin(request);
  const outputs = readOutputs(request, ['text', 'pdf', 'svg', 'json'], world);
  const asked = [...wishes.diagnostics, ...outputs.diagnostics];
  if (asked.some(isError) || wishes.value === undefined || outputs.value === undefined)
    return fail(asked, 'convert', voice);
  const driver = driverOf(voice, world);
  const spec = await readFiles(request.operands, world, driver);
  if (spec.value === undefined) return fail(spec.diagnostics, 'convert', voice);
  const over = outputsOverInputs(outputs.value, spec.value, world);
  if (over.length > 0) return fail(over, 'convert', voice);
  const read: Spec = spec.value;
  const expanded = driver.atOnce(expand.bind(undefined, read, {}));
  const said = [...spec.diagnostics, ...expanded.diagnostics];
  if (expanded.value === undefined || said.some(isError)) return fail(said, 'convert', voice);
  if (expanded.value.builds.length === 0) return fail([...said, nothingBuilt(read)], 'convert', voice);
  const { title } = expanded.value;
  const twin = twinOf(expanded.value, wishes.value);
  const all = withDocument(outputs.value, voice);
  const files = all.flatMap(({ path }) => (path === undefined ? [] : [{ path, written: !request.dryRun }]));
  const document = () => printJson(twinDocument(twin, title, said, files));
  return deliverSheet((look) => twinSheet(twin, title, look), all, document, request, world, voice);
}

/** A drawer, a shelf, or a kit whose tiles are heaps of parts. */
function nothingBuilt({ files }: Spec): Diagnostic {
  const [{ source }] = files;
  const hasTiles = files.some((it) => it.tiles.length > 0 || it.uses.some((used) => used.tiles.length > 0));
  const why = hasTiles
    ? 'none of the tiles that are made has a   build:   so no part of them has a place'
    : 'there is no tile in it';
  const place = { kind: 'argument', argument: source.path } as const;
  return diagnose('C36', place, { one: source.path, other: '--twin', why });
}

const sides: readonly TileSide[] = ['left', 'right', 'front', 'back', 'bottom', 'top'];

function readTwin(request: Request): Outcome<TwinWishes> {
  const said: Diagnostic[] = [];
  const round = readConversion({ ...request, to: request.to ?? 'mm' });
  const usual = usualClearance;
  let clearance: TwinWishes['clearance'] = {
    left: usual,
    right: usual,
    front: usual,
    back: usual,
    bottom: zero,
    top: zero,
  };
  for (const typed of request.clearance) {
    const { side, measure } = /^(?:(?<side>\w+)=)?(?<measure>.*)$/u.exec(typed)?.groups ?? {};
    const found = sides.find((it) => it === side?.toLowerCase());
    const length = clearanceOf(measure ?? '');
    if (typeof length === 'string' || (side !== undefined && found === undefined)) {
      const why = typeof length === 'string' ? length : `no side is called "${side}"`;
      const wanted = 'a measure, or SIDE=MEASURE, as in 0.2mm or top=0';
      const facts = { option: '--clearance', found: typed, wanted, why };
      said.push(diagnose('C35', { kind: 'argument', argument: `--clearance ${typed}` }, facts));
    } else if (found !== undefined) clearance = { ...clearance, [found]: length };
    else
      clearance = { left: length, right: length, front: length, back: length, bottom: length, top: length };
  }
  const { units } = request;
  return {
    value: {
      origin: request.origin === 'centre' ? 'centre' : 'corner',
      up: request.up === 'y' ? 'y' : 'z',
      axes: request.axes === 'left' ? 'left-handed' : 'right-handed',
      clearance,
      step: round.value?.step ?? millimetres(rational(1n, 10n)),
      units: units === 'both' || units === 'in' ? 'both' : 'mm',
    },
    diagnostics: [...said, ...round.diagnostics],
  };
}

/** A bare number is in millimetres here, as all of a twin is. */
function clearanceOf(text: string): Length | string {
  const reading = readMeasure(text);
  if (reading.kind === 'refused') return 'no measure is written so';
  const length = reading.kind === 'length' ? reading.length : millimetres(reading.number);
  return isNegative(length) ? 'a clearance is not below zero' : length;
}
