/** A part that has to be told from all others on the bench. */
export interface Labelled {
  /** Undefined for a loose part. */
  readonly tile: { readonly name: string; readonly label: string | undefined } | undefined;
  /** The part's full name in its tile. */
  readonly part: string;
  /** What is printed in place of the part's name. */
  readonly label: string;
}

/**
 * The letters that stand for each tile: the first letters of its words (`retaining wall` is RW), of a single
 * word its first two (`terrace` is TE). Where two tiles would get the same, both take more letters of their
 * first word (RETW, REAW), and where that can't tell them apart, a number. A `label` of one short word is
 * taken as it stands. The order of the tiles changes nothing.
 */
export function tileLetters(
  tiles: readonly { readonly name: string; readonly label: string | undefined }[],
): ReadonlyMap<string, string> {
  const letters = new Map<string, string>();
  const taken = new Set<string>();
  const give = (name: string, code: string): void => {
    letters.set(name, code);
    taken.add(code.toUpperCase());
  };
  const byName = [...tiles].sort((a, b) => byCharacters(a.name, b.name));
  for (const { name, label } of byName) {
    if (label !== undefined && isShort(label) && !taken.has(label.toUpperCase())) give(name, label);
  }
  const waiting = byName
    .filter(({ name }) => !letters.has(name))
    .map((it) => ({ ...it, text: it.label ?? it.name }));
  const groups = grouped(waiting, ({ text }) => lettersOf(text, 1));
  for (const [code, group] of groups) {
    const [only, ...others] = group;
    if (only !== undefined && others.length === 0 && !taken.has(code)) {
      give(only.name, code);
      groups.delete(code);
    }
  }
  for (const group of groups.values()) {
    const codes = toldApart(group, taken);
    for (const [index, { name, text }] of group.entries()) {
      give(name, codes?.[index] ?? numbered(lettersOf(text, 1), taken));
    }
  }
  return letters;
}

/**
 * What is written on each part: short, telling tile and part, and different for all. Never what could be
 * read as something else on the sheet: a code, an offcut, a strip.
 *
 * @returns  one label for each of `parts`, in their order; which label a part gets does not depend on it
 */
export function labelsOf(
  parts: readonly Labelled[],
  letters: ReadonlyMap<string, string>,
): readonly string[] {
  const labels = new Map<Labelled, string>();
  const taken = new Set<string>();
  const inOrder = [...parts].sort(
    (a, b) => byCharacters(a.tile?.name ?? '', b.tile?.name ?? '') || byCharacters(a.part, b.part),
  );
  // Whoever may keep the plain label is settled first, so that `side 2` can't push a part of that name aside.
  const groups = grouped(inOrder, (it) => plainLabel(it, letters));
  for (const [plain, [first, ...others]] of groups) {
    if (first === undefined || others.length > 0) continue;
    labels.set(first, plain);
    taken.add(plain);
  }
  for (const [plain, group] of groups) {
    if (group.length === 1) continue;
    // One without a number beside one that has it could be either of the two.
    for (const part of group) {
      const label = numbered(plain, taken);
      labels.set(part, label);
      taken.add(label);
    }
  }
  return parts.map((part) => labels.get(part) ?? part.label);
}

function plainLabel({ tile, label }: Labelled, letters: ReadonlyMap<string, string>): string {
  const text = tile === undefined ? label : `${letters.get(tile.name) ?? tile.name} ${label}`;
  return isMisread(text) ? `part ${text}` : text;
}

/** Codes (E01), offcuts that are kept (keep 3), strips (strip B), and the words for what is in hand. */
function isMisread(text: string): boolean {
  return /^\s*([a-z]\d\d|keep\s+\d+|strip\s+[a-z]+|sheet|scrap|offcut)\s*$/i.test(text);
}

/** From 1, or from 2 where one goes by the plain name already. */
function numbered(plain: string, taken: ReadonlySet<string>): string {
  const head = isMisread(`${plain} 1`) ? `part ${plain}` : plain;
  let number = taken.has(plain) ? 2 : 1;
  while (taken.has(`${head} ${number}`)) number++;
  return `${head} ${number}`;
}

/** More and more letters of the first word, until the whole group is told apart; undefined if it never is. */
function toldApart(
  group: readonly { readonly text: string }[],
  taken: ReadonlySet<string>,
): readonly string[] | undefined {
  for (let most = 2; most <= mostLetters; most++) {
    const codes = group.map(({ text }) => lettersOf(text, most));
    if (new Set(codes).size === codes.length && codes.every((code) => !taken.has(code))) return codes;
  }
  return undefined;
}

/** Longer than this, a number tells better. */
const mostLetters = 5;

/** @param most  how many letters of the first word; a single word gives one more */
function lettersOf(text: string, most: number): string {
  const words = text.split(/[^\p{L}\p{N}]+/u).filter((word) => word !== '');
  const [first = text, ...others] = words;
  const head = [...first].slice(0, others.length === 0 ? most + 1 : most).join('');
  const code = `${head}${others.map((word) => [...word][0] ?? '').join('')}`;
  return [...code]
    .slice(0, mostLetters + 1)
    .join('')
    .toUpperCase();
}

function isShort(label: string): boolean {
  return /^[\p{L}\p{N}]{1,4}$/u.test(label);
}

function grouped<T>(things: readonly T[], keyOf: (thing: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const thing of things) {
    const group = groups.get(keyOf(thing));
    if (group === undefined) groups.set(keyOf(thing), [thing]);
    else group.push(thing);
  }
  return groups;
}

/** By code units: the same in every locale. */
export function byCharacters(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
