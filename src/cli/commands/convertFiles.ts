import { basename, dirname, join, relative } from 'node:path';
import { checkUp } from '../../checkUp.ts';
import { type ConvertedKit, convertKit, type Reread, type Texts } from '../../mend/units/index.ts';
import {
  type Diagnostic,
  diagnose,
  inReadingOrder,
  isError,
  type NonEmpty,
  type Outcome,
  type Spec,
  type SpecFile,
} from '../../model/index.ts';
import { readSpec, spliced } from '../../spec/index.ts';
import type { Request } from '../arguments.ts';
import { readConversion, unitWanted } from '../conversionWishes.ts';
import { type Driver, driverOf } from '../driving.ts';
import type { ExitCode } from '../exitCode.ts';
import { exitCodeOf, fail } from '../failing.ts';
import { encodedAs } from '../mending.ts';
import { deliver, type Finished, refusals } from '../outputs.ts';
import { readFiles } from '../reading.ts';
import type { Voice } from '../voice.ts';
import { isTrouble, type World } from '../world.ts';

/** Whole files in the other unit. The kit is the product; what there is to say of it goes beside. */
export async function convertFiles(request: Request, world: World, voice: Voice): Promise<ExitCode> {
  const wishes = readConversion(request);
  const places = outputPlaces(request, world);
  const asked = [...wishes.diagnostics, ...places.diagnostics];
  if (wishes.value === undefined || places.value === undefined || asked.some(isError))
    return fail(asked, 'convert', voice);

  const driver = driverOf(voice, world);
  const spec = await readFiles(request.operands, world, driver);
  if (spec.value === undefined || spec.diagnostics.some(isError))
    return fail(spec.diagnostics, 'convert', voice);
  const to = unitWanted(wishes.value, spec.value);
  const read: Spec = spec.value;
  const reread: Reread = (texts) => readAgain(read, texts, world);
  const converted = driver.atOnce(convertKit.bind(undefined, read, { ...wishes.value, to }, reread));
  const said = [...spec.diagnostics, ...converted.diagnostics];
  if (converted.value === undefined) return giveUp(inReadingOrder(said), voice);

  const tooLarge = await newOnSheets(read, converted.value, driver);
  said.push(...tooLarge);
  if (tooLarge.length > 0 && !request.partial) return giveUp(inReadingOrder(said), voice);

  // The kit alone goes to standard output; where it goes to a file, its report is what there is to read.
  const { changes } = converted.value;
  const outputs = finished(read, converted.value, places.value, world);
  const goesToFile = outputs.some(({ path }) => path !== undefined);
  if (changes !== undefined && !voice.json) {
    const { printConversion } = await import('../../print/text/index.ts');
    const report = printConversion(changes, to, voice.look);
    await (goesToFile ? voice.product(report) : voice.remark(report));
  }
  const undelivered =
    voice.json && !goesToFile ? [] : await deliver(outputs, request, { driver, voice, world });
  said.push(...undelivered);
  if (voice.json) {
    const { kitDocument, printJson } = await import('../../print/json/index.ts');
    const files = outputs.flatMap(({ path }) =>
      path === undefined ? [] : [{ path, written: !request.dryRun && undelivered.length === 0 }],
    );
    await voice.product(printJson(kitDocument(converted.value, said, files)));
  }
  await voice.faults(inReadingOrder(said));
  return exitCodeOf(said);
}

/** What fitted its sheets before and does not now: a part that was rounded up, say. */
async function newOnSheets(
  spec: Spec,
  { changes }: ConvertedKit,
  driver: Driver,
): Promise<readonly Diagnostic[]> {
  if (changes === undefined) return [];
  const ofSheets = async (it: Spec): Promise<readonly Diagnostic[]> =>
    (await driver.through(checkUp(it, {}))).diagnostics.filter(
      (said) => isError(said) && said.code.startsWith('P'),
    );
  const known = new Set((await ofSheets(spec)).map(keyOf));
  return (await ofSheets(changes.after.spec)).filter((it) => !known.has(keyOf(it)));
}

/** The fault and the part that it is about, whatever the figures. */
function keyOf({ code, message }: Diagnostic): string {
  return `${code} ${/"[^"]*"/u.exec(message)?.[0] ?? ''}`;
}

async function giveUp(said: readonly Diagnostic[], voice: Voice): Promise<ExitCode> {
  if (voice.json) {
    const { kitDocument, printJson } = await import('../../print/json/index.ts');
    await voice.product(printJson(kitDocument(undefined, said)));
  }
  await voice.faults(said);
  return exitCodeOf(said);
}

/** Where each of the named files goes; undefined: to standard output. */
type Places = (path: string) => string | undefined;

function outputPlaces(request: Request, world: World): Outcome<Places> {
  const { operands, force } = request;
  const [path, second] = request.output;
  const others =
    second === undefined ? [] : [diagnose('C16', { kind: 'file', path: second }, { path: second })];
  if (path === undefined || path === '-') {
    const many = diagnose('C37', { kind: 'none' }, { count: operands.length });
    return { value: () => undefined, diagnostics: [...others, ...(operands.length > 1 ? [many] : [])] };
  }
  const isFolder = /[/\\]$/u.test(path) || world.files.kindOf(path) === 'folder';
  if (!isFolder && operands.length > 1)
    others.push(diagnose('C37', { kind: 'argument', argument: `-o ${path}` }, { count: operands.length }));
  const place: Places = (it) => (isFolder ? join(path, basename(it)) : path);
  const paths = operands.map((it) => place(it) ?? it);
  return { value: place, diagnostics: [...others, ...refusals(paths, operands, force, world)] };
}

/** The named files as these texts have them, and those that they use as they are. */
function readAgain(spec: Spec, texts: Texts, { files }: World): Outcome<Spec> {
  const entry = (file: SpecFile) => ({
    path: file.source.path,
    bytes: new TextEncoder().encode(texts.get(file) ?? file.source.text),
  });
  const [first, ...others] = spec.files;
  const entries: NonEmpty<ReturnType<typeof entry>> = [entry(first), ...others.map(entry)];
  const known = entries.map(({ path }) => path);
  return readSpec(entries, (path) => {
    const as = known.find((it) => it !== path && files.isSame(it, path));
    if (as !== undefined) return { kind: 'same', as };
    const bytes = files.read(path);
    if (isTrouble(bytes)) return bytes;
    known.push(path);
    return { kind: 'bytes', bytes };
  });
}

/** What is to be written, with the paths of `uses` as they are seen from the new place. */
function finished(spec: Spec, { texts }: ConvertedKit, places: Places, world: World): readonly Finished[] {
  const named = spec.files.map((file) => ({ file, to: places(file.source.path) }));
  const moves = named.filter(
    ({ file, to }) => to !== undefined && dirname(to) !== dirname(file.source.path) && file.uses.length > 0,
  );
  const again = moves.length === 0 ? undefined : readAgain(spec, texts, world).value;
  return named.map(({ file, to }, index): Finished => {
    const moved = again?.files[index];
    const text =
      to === undefined || moved === undefined
        ? (texts.get(file) ?? file.source.text)
        : spliced(moved.source, usesSeenFrom(to, moved, named));
    const before = world.files.read(file.source.path);
    return { path: to, content: isTrouble(before) ? text : encodedAs(before, text) };
  });
}

function usesSeenFrom(
  to: string,
  { source, usesAt = [] }: SpecFile,
  named: readonly { readonly file: SpecFile; readonly to: string | undefined }[],
) {
  return usesAt.flatMap(({ value, at }) => {
    const target = join(dirname(source.path), value);
    const known = named.find(({ file }) => join(file.source.path) === target)?.to ?? target;
    const text = relative(dirname(to), known).replaceAll('\\', '/');
    const written = source.text.slice(at.start, at.end);
    return text === value ? [] : [{ span: at, text: written.replace(value, () => text) }];
  });
}
