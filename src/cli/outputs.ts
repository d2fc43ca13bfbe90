import { dirname } from 'node:path';
import { type Diagnostic, diagnose, fine, type Outcome } from '../model/index.ts';
import type { Composed, PageChoice, Printed } from '../print/paged/index.ts';
import type { Request } from './arguments.ts';
import type { Driver } from './driving.ts';
import { faultsOfChoice } from './pageChoice.ts';
import { shellQuoted } from './shellQuoted.ts';
import type { Voice } from './voice.ts';
import type { Files, FileTrouble, NamedBytes, World } from './world.ts';

export type Form = 'text' | 'pdf' | 'svg' | 'json' | 'csv';

/** Where one form of the product goes. */
export interface Output {
  /** Undefined for standard output. */
  readonly path: string | undefined;
  readonly form: Form;
  /** A file for each page, in a folder of its own. */
  readonly isFolder?: true;
}

const endings: Readonly<Record<string, Form>> = {
  txt: 'text',
  text: 'text',
  pdf: 'pdf',
  svg: 'svg',
  json: 'json',
  csv: 'csv',
};
const endingOf: Readonly<Record<Form, string>> = {
  text: '.txt',
  pdf: '.pdf',
  svg: '.svg',
  json: '.json',
  csv: '.csv',
};

/**
 * Where everything goes, and all that speaks against it, before the long work begins. With --json the
 * document goes to standard output beside what is written to files.
 */
export function readOutputs(
  request: Request,
  forms: readonly Form[],
  world: World,
): Outcome<readonly Output[]> {
  const said: Diagnostic[] = [];
  const toStdout: Output = {
    path: undefined,
    form: formOf(request.format) ?? (request.json ? 'json' : 'text'),
  };
  const outputs: Output[] = request.output.flatMap((path): readonly Output[] => {
    if (path === '-') return [toStdout];
    const ending = /\.([^./\\]+)$/.exec(path)?.[1]?.toLowerCase() ?? '';
    if (forms.includes('svg') && isForFolder(path, ending, request, world))
      return [{ path, form: 'svg', isFolder: true }];
    const form = formOf(request.format) ?? (Object.hasOwn(endings, ending) ? endings[ending] : undefined);
    if (form !== undefined) return [{ path, form }];
    if (world.files.kindOf(path) === 'device') return [{ path, form: 'text' }];
    else
      said.push(
        diagnose('C14', pathArgument(path), { path, forms: forms.map((it) => endingOf[it]).join(', ') }),
      );
    return [];
  });
  if (request.output.length === 0) outputs.push(toStdout);
  for (const form of new Set(outputs.map((it) => it.form))) {
    if (forms.includes(form)) continue;
    const facts = { command: request.command, form, forms: forms.join(', ') };
    said.push(diagnose('C15', { kind: 'argument', argument: form }, facts));
  }
  if (world.stdout.isTerminal && outputs.some((it) => it.path === undefined && it.form === 'pdf')) {
    said.push(diagnose('C17', { kind: 'argument', argument: '--format pdf' }, {}));
  }
  const paths = outputs.flatMap(({ path }) => path ?? []);
  const folders = outputs.flatMap(({ path, isFolder }) => (isFolder && path !== undefined ? [path] : []));
  return {
    value: outputs,
    diagnostics: [...said, ...refusals(paths, request.operands, request.force, world, folders)],
  };
}

/** Several files go into a folder: one that is there, or is written as one, or is named where SVG is asked for. */
function isForFolder(path: string, ending: string, { format }: Request, { files }: World): boolean {
  if (format !== undefined && format !== 'svg') return false;
  // A folder in the place of a file that is named by its ending is told, not filled.
  if (files.kindOf(path) === 'folder' && !Object.hasOwn(endings, ending)) return true;
  return /[/\\]$/.test(path) || (format === 'svg' && ending !== 'svg');
}

function formOf(typed: string | undefined): Form | undefined {
  return typed !== undefined && Object.hasOwn(endingOf, typed) ? (typed as Form) : undefined; // a key of it
}

function pathArgument(path: string): { readonly kind: 'argument'; readonly argument: string } {
  return { kind: 'argument', argument: `-o ${path}` };
}

/** What speaks against writing to these paths. */
export function refusals(
  paths: readonly string[],
  inputs: readonly string[],
  force: boolean,
  { files }: World,
  folders: readonly string[] = [],
): readonly Diagnostic[] {
  return paths.flatMap((path, i): readonly Diagnostic[] => {
    const place = { kind: 'file', path } as const;
    if (paths.slice(0, i).some((it) => it === path || files.isSame(it, path))) {
      return [diagnose('C16', place, { path })];
    }
    if (folders.includes(path)) return folderRefusal(path, force, files);
    const trouble = files.refusal(path);
    if (trouble !== undefined) return [unwritable(path, trouble, files)];
    if (inputs.some((it) => files.isSame(it, path))) return [diagnose('C43', place, { path })];
    if (!force && files.kindOf(path) === 'file') return [diagnose('C41', place, { path })];
    return [];
  });
}

/** What an earlier print left in a folder; only that is ever replaced. */
const ofAnEarlierPrint = /^(?:page|layout|master)-\d+\.svg$/;

function folderRefusal(path: string, force: boolean, files: Files): readonly Diagnostic[] {
  const place = { kind: 'file', path } as const;
  const kind = files.kindOf(path);
  if (kind === 'file') return [unwritable(path, { kind: 'unreadable', reason: 'it is a file' }, files)];
  const trouble = files.refusal(path);
  if (trouble !== undefined && trouble.kind !== 'folder') return [unwritable(path, trouble, files)];
  const names = files.namesIn(path);
  const other = names.find((it) => !ofAnEarlierPrint.test(it));
  if (other !== undefined) return [diagnose('C45', place, { path, other })];
  return names.length > 0 && !force ? [diagnose('C41', place, { path })] : [];
}

/** Names the folder that is missing, if one is, and the way to it. */
function unwritable(path: string, trouble: FileTrouble, files: Files): Diagnostic {
  const place = { kind: 'file', path } as const;
  const folder = dirname(path);
  if (trouble.kind !== 'missing' || files.kindOf(folder) !== 'nothing')
    return diagnose('C42', place, { path, reason: trouble.reason });
  const hints = [`mkdir -p ${shellQuoted(folder)}`, 'a path in a folder that is there'];
  return diagnose('C42', place, { path, reason: `there is no folder "${folder}"` }, { hints });
}

/** With --json the document is given beside the files. */
export function withDocument(outputs: readonly Output[], { json }: Pick<Voice, 'json'>): readonly Output[] {
  const hasOne = outputs.some(({ path }) => path === undefined);
  return json && !hasOne ? [...outputs, { path: undefined, form: 'json' }] : outputs;
}

/** Pages as the form that an output has; what draws them is loaded when it is asked for. */
export async function drawnPages(
  output: Output,
  all: Composed,
  choice: PageChoice | undefined,
  driver: Driver,
): Promise<Outcome<Finished['content']>> {
  const { choosePages } = await import('../print/paged/index.ts');
  const composed = choice === undefined ? all : choosePages(all, choice);
  const { content, ...counted } = await drawnAs(output, composed, driver);
  const faults = faultsOfChoice(choice, counted, output);
  return faults.length > 0 ? { value: undefined, diagnostics: faults } : fine(content);
}

async function drawnAs(
  { form, isFolder }: Output,
  composed: Composed,
  driver: Driver,
): Promise<Printed<Finished['content']>> {
  if (form === 'pdf') return driver.stretches((await import('../print/pdf/index.ts')).printPdf(composed));
  const { printSvg } = await import('../print/svg/index.ts');
  const { content, ...counted } = await driver.stretches(printSvg(composed));
  if (!isFolder) return { ...counted, content: content[0]?.text ?? '' };
  const files = content.map(({ name, text }) => ({ name, bytes: new TextEncoder().encode(text) }));
  return { ...counted, content: files };
}

/** An output with its bytes. */
export interface Finished {
  readonly path: string | undefined;
  readonly content: string | Uint8Array | readonly NamedBytes[];
}

/** Writes what is finished; in a dry run it only names what would be written. */
export async function deliver(
  finished: readonly Finished[],
  { dryRun }: Pick<Request, 'dryRun'>,
  { driver, voice, world }: { readonly driver: Driver; readonly voice: Voice; readonly world: World },
): Promise<readonly Diagnostic[]> {
  const toFiles = dryRun
    ? []
    : finished.flatMap(({ path, content }) => (path === undefined ? [] : [{ path, content }]));
  const said = await writeAll(toFiles, driver, voice, world);
  for (const { path, content } of finished) {
    if (dryRun && !voice.json) await voice.product(`would write ${path ?? 'to standard output'}\n`);
    else if (path === undefined && !isFolderful(content)) await voice.product(content);
  }
  return said;
}

/** Folders first: they take long, and as long as nothing else was written, stopping leaves nothing. */
async function writeAll(
  all: readonly { readonly path: string; readonly content: Finished['content'] }[],
  driver: Driver,
  voice: Voice,
  { files, signals }: World,
): Promise<readonly Diagnostic[]> {
  const said: Diagnostic[] = [];
  const written: string[] = [];
  const tell = async (path: string, trouble: FileTrouble | undefined): Promise<void> => {
    if (trouble !== undefined) said.push(unwritable(path, trouble, files));
    else {
      written.push(path);
      await voice.remark(`wrote ${path}`);
    }
  };
  // Files are quick: from the first of them on a signal comes too late, and all are written.
  const release = signals.listen();
  try {
    for (const { path, content } of all) {
      if (!isFolderful(content)) continue;
      const left = written.length === 0 ? undefined : `written was ${written.join(', ')}`;
      await tell(path, await driver.lasting(files.writeFolder(path, content), left));
    }
    for (const { path, content } of all) {
      if (isFolderful(content)) continue;
      const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
      await tell(path, files.write(path, bytes));
    }
  } finally {
    release();
  }
  return said;
}

function isFolderful(content: Finished['content']): content is readonly NamedBytes[] {
  return typeof content !== 'string' && !(content instanceof Uint8Array);
}
