import type { ConversionRecord } from '../../measure/index.ts';
import { add, toFraction } from '../../measure/index.ts';
import type { Limit, Sensitivity } from '../../mend/index.ts';
import type { Batch, Diagnostic, Made, Severity, TileFit } from '../../model/index.ts';
import { costsOf, fittingsToBuy, type Work } from '../count/index.ts';
import { describeDemand, describeSettings, describeTiles } from './demand.ts';
import { describeDiagnostic } from './diagnostics.ts';
import { describeFit, partsIn } from './fit.ts';
import { describeLength, lengthOrNull } from './length.ts';
import { describePiles } from './piles.ts';
import { describeMaterialPlan, describePrice } from './plan.ts';
import type { Document, SchemaName } from './schema.ts';

/** The documents of the commands. Each has the same head: schema, version, diagnostics. */

export interface FileOut {
  readonly path: string;
  /** False for what a dry run only names. */
  readonly written: boolean;
}

export type AnyDocument = { readonly [Name in SchemaName]: Document<Name> }[SchemaName];

/** The version of every document, by its name. */
export const versions: { readonly [Name in SchemaName]: Document<Name>['version'] } = {
  cut: 1,
  check: 1,
  count: 1,
  masters: 1,
  drawer: 1,
  job: 1,
  state: 1,
  convert: 1,
  kit: 1,
  table: 1,
  twin: 1,
  explain: 1,
  new: 1,
  version: 1,
  failure: 1,
};

export const schemaNames = Object.keys(versions) as readonly SchemaName[]; // its keys are typed above

/** @param name as typed by the user */
export function isSchemaName(name: string): name is SchemaName {
  return Object.hasOwn(versions, name);
}

/** @param made undefined where nothing could be made; the diagnostics then say why */
export function cutDocument(
  made: Made | undefined,
  diagnostics: readonly Diagnostic[],
  files: readonly FileOut[] = [],
): Document<'cut'> {
  return {
    schema: 'cardwright/cut',
    version: versions.cut,
    settings: made === undefined ? null : describeSettings(made.batch.settings),
    diagnostics: diagnostics.map(describeDiagnostic),
    files: files.map(({ path, written }) => ({ path, written })),
    result:
      made === undefined
        ? null
        : {
            ...whatIsMade(made.batch),
            materials: made.plans.map((plan, i) => describeMaterialPlan(plan, made.savings?.[i])),
            piles: describePiles(made.batch),
          },
  };
}

export function checkDocument(
  made: Pick<Made, 'batch' | 'fits'> | undefined,
  diagnostics: readonly Diagnostic[],
  ranges?: readonly Sensitivity[],
): Document<'check'> {
  return {
    schema: 'cardwright/check',
    version: versions.check,
    settings: made === undefined ? null : describeSettings(made.batch.settings),
    diagnostics: diagnostics.map(describeDiagnostic),
    result:
      made === undefined
        ? null
        : {
            ...whatIsMade(made.batch),
            verdicts: verdictsOf(made.batch, made.fits),
            sensitivity: ranges?.map(describeRange) ?? null,
          },
  };
}

function describeRange({ material, now, most, least, cutOtherwise, trials }: Sensitivity) {
  const limit = (it: Limit | undefined) =>
    it === undefined ? null : { thickness: describeLength(it.thickness), tiles: [...it.tiles] };
  return {
    material,
    now: describeLength(now),
    most: limit(most),
    least: limit(least),
    cutOtherwise: cutOtherwise.map(({ tile, part, what }) => ({ tile: tile ?? null, part, what: [...what] })),
    trials: trials.map(({ thickness, faults, errors }) => ({
      thickness: describeLength(thickness),
      faults: faults.map(({ tile, fault }) => ({ tile, kind: fault.kind, parts: partsIn(fault) })),
      errors: errors.map(({ code, message }) => ({ code, message })),
    })),
  };
}

export function countDocument(
  batch: Batch | undefined,
  diagnostics: readonly Diagnostic[],
  work?: Work,
): Document<'count'> {
  return {
    schema: 'cardwright/count',
    version: versions.count,
    settings: batch === undefined ? null : describeSettings(batch.settings),
    diagnostics: diagnostics.map(describeDiagnostic),
    result:
      batch === undefined
        ? null
        : {
            ...whatIsMade(batch),
            materials: batch.materials.map((demand) => ({
              ...describeDemand(demand),
              count: demand.parts.reduce((sum, kind) => sum + kind.count, 0),
            })),
            evenings: (batch.evenings?.all ?? []).map(({ title, tiles }) => ({
              title,
              tiles: tiles.map(({ name, count }) => ({ name, count })),
            })),
            fittings: describeFittings(batch),
            work: work === undefined ? null : describeWork(work),
          },
  };
}

function describeFittings(batch: Batch) {
  const toBuy = new Map(fittingsToBuy(batch).map((it) => [it.fitting, it]));
  return (batch.fittings ?? []).map((fitting) => {
    const { name, label, note, diameter, depth, hasPoles, count, spares, uses, atHand, pack } = fitting;
    const missing = toBuy.get(fitting);
    return {
      name,
      label,
      note: note ?? null,
      diameter: lengthOrNull(diameter),
      depth: lengthOrNull(depth),
      poles: hasPoles,
      count,
      spares,
      uses: uses.map((it) => ({ ...it, tile: it.tile ?? null, part: it.part ?? null })),
      atHand: atHand === undefined ? null : { count: atHand.count, where: atHand.where ?? null },
      toBuy: {
        count: missing?.missing ?? 0,
        pack,
        packs: missing?.packs ?? 0,
        leftOver: missing?.leftOver ?? 0,
        cost: describePrice(missing?.cost),
      },
    };
  });
}

function describeWork({ materials, glueJoints, areas, toBuy }: Work) {
  const lost = [areas.scrap, areas.trim, areas.cuts].reduce(add);
  return {
    materials: materials.map(({ cutLength, ...counts }) => ({
      ...counts,
      cutLength: describeLength(cutLength),
    })),
    glueJoints,
    area: {
      sheets: toFraction(areas.sheets),
      used: toFraction(areas.parts),
      kept: toFraction(areas.kept),
      lost: toFraction(lost),
    },
    toBuy: toBuy.map(({ material, sheet, count, packs, leftOver, cost, proof }) => ({
      material,
      length: describeLength(sheet.length),
      width: describeLength(sheet.width),
      count,
      pack: sheet.pack ?? 1,
      packs,
      leftOver,
      cost: describePrice(cost) ?? null,
      proof: proof.kind,
      within: proof.kind === 'within' ? proof.sheets : null,
      isCheapest: proof.kind === 'none' || proof.cost === undefined ? null : proof.cost.kind === 'cheapest',
    })),
    costs: costsOf(toBuy).map(({ amount, currency }) => ({ amount: toFraction(amount), currency })),
  };
}

export function convertDocument(
  conversions: readonly ConversionRecord[],
  diagnostics: readonly Diagnostic[],
  files: readonly FileOut[] = [],
): Document<'convert'> {
  return {
    schema: 'cardwright/convert',
    version: versions.convert,
    diagnostics: diagnostics.map(describeDiagnostic),
    conversions: conversions.map((it) =>
      'error' in it
        ? { input: it.input, error: { ...it.error } }
        : { ...it, onRuler: it.onRuler.map((mark) => ({ ...mark })) },
    ),
    files: files.map(({ path, written }) => ({ path, written })),
  };
}

/** A code as `explain` tells it; the page only where one code was asked for. */
export interface ExplainedCode {
  readonly code: string;
  readonly severity: Severity;
  readonly title: string;
  readonly page:
    | {
        readonly why: string;
        readonly failing: { readonly files: Readonly<Record<string, string>> };
        readonly mended: { readonly files: Readonly<Record<string, string>> };
      }
    | undefined;
}

export function explainDocument(codes: readonly ExplainedCode[]): Document<'explain'> {
  const filesOf = (example: { readonly files: Readonly<Record<string, string>> }) =>
    Object.entries(example.files).map(([file, text]) => ({ file, text }));
  return {
    schema: 'cardwright/explain',
    version: versions.explain,
    diagnostics: [],
    codes: codes.map(({ code, severity, title, page }) => ({
      code,
      severity,
      title,
      page:
        page === undefined
          ? null
          : { why: page.why, failing: filesOf(page.failing), mended: filesOf(page.mended) },
    })),
  };
}

/** @param text the starter kit */
export function newDocument(text: string, files: readonly FileOut[] = []): Document<'new'> {
  return {
    schema: 'cardwright/new',
    version: versions.new,
    diagnostics: [],
    text,
    files: files.map(({ path, written }) => ({ path, written })),
  };
}

export interface Runtime {
  readonly cardwright: string;
  readonly node: string;
  readonly platform: string;
}

export function versionDocument({ cardwright, node, platform }: Runtime): Document<'version'> {
  return {
    schema: 'cardwright/version',
    version: versions.version,
    diagnostics: [],
    cardwright,
    node,
    platform,
    schemas: { ...versions },
  };
}

/** For what goes wrong before a command has anything to show: usage, missing files, a fault of our own. */
export function failureDocument(
  diagnostics: readonly Diagnostic[],
  exitCode: number,
  command?: string,
): Document<'failure'> {
  return {
    schema: 'cardwright/failure',
    version: versions.failure,
    diagnostics: diagnostics.map(describeDiagnostic),
    exitCode,
    command: command ?? null,
  };
}

/** The text of a document, the same bytes everywhere; each length on one line, as a person would write it. */
export function printJson(document: AnyDocument): string {
  // A string in JSON holds no line break, so this can only match the objects of lengths.
  const text = JSON.stringify(document, null, 2).replaceAll(
    /\{\n +("mm": "[^"]*"),\n +("rounded": [^\n]*)\n +\}/g,
    '{ $1, $2 }',
  );
  return `${text}\n`;
}

function whatIsMade(batch: Batch) {
  return { title: batch.title, notes: [...batch.notes], tiles: describeTiles(batch.tiles) };
}

function verdictsOf({ tiles, materials }: Batch, fits: readonly TileFit[]) {
  const byTile = new Map(fits.map((fit) => [fit.build.tile, fit]));
  const verdictOn = (tile: string | undefined) => {
    const used = materials.flatMap(({ material, parts }) => {
      const members = parts.flatMap((kind) => kind.members).filter((member) => member.tile === tile);
      const count = members.reduce((sum, member) => sum + member.each, 0);
      return count === 0 ? [] : [{ name: material.name, parts: count }];
    });
    return {
      tile: tile ?? null,
      parts: used.reduce((sum, { parts }) => sum + parts, 0),
      materials: used,
      build: tile === undefined ? null : describeFit(byTile.get(tile)),
    };
  };
  const loose = verdictOn(undefined);
  return [...tiles.map(({ name }) => verdictOn(name)), ...(loose.parts === 0 ? [] : [loose])];
}
