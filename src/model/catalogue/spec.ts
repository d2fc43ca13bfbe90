import { entry } from './entry.ts';

type None = Record<string, never>;

/** The codes of `spec/`. A code is never reused or renumbered. */
export const specCodes = {
  // Files: S01 to S09
  S01: entry({
    severity: 'fatal',
    title: 'a file that can not be read',
    say: ({ path, reason }: { path: string; reason: string }) => `can't read "${path}": ${reason}`,
    hint: () =>
      'paths under uses: and drawer: go from the folder of the file that names them; cardwright drawer FILE --add   begins a drawer',
  }),
  S02: entry({
    severity: 'fatal',
    title: 'not a UTF-8 text',
    say: ({ what }: { what: 'binary' | 'UTF-16' | 'other'; line: number }) =>
      what === 'UTF-16'
        ? 'this is UTF-16 text; UTF-8 is wanted'
        : what === 'binary'
          ? 'this is not a text but some other kind of file'
          : 'this text is not UTF-8',
    hint: ({ what, line }) =>
      what === 'binary'
        ? 'a kit, a session, a shelf or a drawer, which are YAML texts'
        : what === 'UTF-16'
          ? 'save it as UTF-8'
          : `save it as UTF-8; the first doubtful character is on line ${line}`,
  }),
  S03: entry({
    severity: 'fatal',
    title: 'a file over 1 MB',
    say: ({ size }: { size: string }) => `the file has ${size} bytes; at most 1 000 000 are read`,
    hint: () => 'spread it over several files, and name them under uses:',
  }),
  S04: entry({
    severity: 'fatal',
    title: 'an empty file',
    say: (_: None) => 'the file is empty',
    hint: () => 'cardwright new   prints a kit to start from; cardwright drawer FILE --add   begins a drawer',
  }),
  S05: entry({
    severity: 'fatal',
    title: 'a character that can not be seen',
    say: ({ character }: { character: string }) => `here is ${character}, which can't be seen`,
    hint: () => 'delete it; it often comes along when a text is copied',
  }),
  S06: entry({
    severity: 'fatal',
    title: 'files that use each other',
    say: ({ chain }: { chain: readonly string[] }) => `these files use each other: ${chain.join(' → ')}`,
    hint: () => 'take what both need into a file of its own',
  }),
  S07: entry({
    severity: 'error',
    title: 'a session or a drawer that is used',
    say: ({ path, kind }: { path: string; kind: 'session' | 'drawer' }) =>
      `"${path}" is a ${kind}; only kits and shelves are used by others`,
    hint: ({ path, kind }) =>
      kind === 'session'
        ? 'name both on the command line, or move what is shared into a kit'
        : `drawer: ${path}   in a session`,
  }),
  S08: entry({
    severity: 'error',
    title: 'a path that only one computer knows',
    say: ({ path }: { path: string }) => `"${path}" is not a path from this file's folder`,
    hint: () => 'a path such as ../shared/cards.yaml',
  }),

  S09: entry({
    severity: 'error',
    title: 'a drawer that is none',
    say: ({ path, kind }: { path: string; kind: string }) =>
      `"${path}" is a ${kind}; behind "drawer" stands a drawer`,
    hint: () => 'a file that begins with  cardwright: drawer  and lists sheets and offcuts',
  }),

  // YAML: S10 to S27
  S10: entry({
    severity: 'fatal',
    title: 'a tab that indents',
    say: (_: None) => 'a tab stands where a line is indented',
    hint: () => 'indent with spaces, two for each level',
  }),
  S11: entry({
    severity: 'fatal',
    title: 'a quote that is not closed',
    say: ({ quote }: { quote: string }) => `this ${quote} is opened and never closed`,
    hint: () => 'measures need no quotes: [4", 3]; a text that has quotes ends with the same one',
  }),
  S12: entry({
    severity: 'fatal',
    title: 'a bracket without its partner',
    say: ({ bracket, missing }: { bracket: string; missing: 'opening' | 'closing' }) =>
      missing === 'closing' ? `this ${bracket} is never closed` : `this ${bracket} closes nothing`,
    hint: ({ bracket, missing }) => {
      const partner = { '[': ']', '{': '}', ']': '[', '}': '{' }[bracket] ?? '';
      return missing === 'closing'
        ? `${partner} at its end; lines inside it are indented further than its key`
        : `leave it out, or open with ${partner}`;
    },
  }),
  S13: entry({
    severity: 'fatal',
    title: 'a text that starts with a sign of YAML',
    say: ({ found, sign }: { found: string; sign: string }) =>
      `"${found}" starts with ${sign}, which means something else in YAML`,
    hint: ({ found }) => (found.includes("'") ? 'put it in double quotes' : `put it in quotes: '${found}'`),
  }),
  S14: entry({
    severity: 'fatal',
    title: 'something behind a quoted text',
    say: ({ found }: { found: string; inner: string }) => `${found} goes on behind its closing quote`,
    hint: ({ inner }) =>
      /^[\d.]/.test(inner)
        ? 'an inch mark needs no quotes: [4", 3]'
        : 'no quotes at all, or single quotes around all of it: \'the "old" wall\'',
  }),
  S15: entry({
    severity: 'fatal',
    title: 'a line that does not fit in',
    say: ({
      why,
    }: {
      why: 'indentation' | 'no colon' | 'dash behind a key' | 'two commas' | 'comma outside';
    }) =>
      why === 'no colon'
        ? 'this has no value; a colon and a space are missing'
        : why === 'dash behind a key'
          ? 'a list with dashes begins on the line below its key'
          : why === 'two commas'
            ? 'nothing stands between this comma and the one before it'
            : why === 'comma outside'
              ? 'this comma stands outside of all brackets'
              : 'this line does not line up with the ones around it',
    hint: ({ why }) =>
      why === 'no colon'
        ? 'KEY: VALUE'
        : why === 'dash behind a key'
          ? 'a new line, or a list in brackets: [first, second]'
          : why === 'two commas'
            ? 'one comma between two items'
            : why === 'comma outside'
              ? 'leave it out; commas stand between items in brackets'
              : 'keys of one map begin in the same column, and what belongs to a key further in',
  }),
  S16: entry({
    severity: 'error',
    title: 'a key that is there twice',
    say: ({ key }: { key: string }) => `"${key}" is here twice`,
    hint: () => 'join the two, or rename one',
  }),
  S17: entry({
    severity: 'fatal',
    title: 'a tag',
    say: ({ tag }: { tag: string }) => `"${tag}" is a YAML tag; tags are not read`,
    hint: () => 'leave it out, or put quotes around a text that starts with !',
  }),
  S18: entry({
    severity: 'fatal',
    title: 'an alias that holds itself',
    say: ({ name }: { name: string }) => `"*${name}" stands inside the very thing it repeats`,
    hint: () => 'write out what is meant',
  }),
  S19: entry({
    severity: 'fatal',
    title: 'aliases that repeat too much',
    say: (_: None) => 'the aliases of this file repeat it more than ten times over',
    hint: () => 'like: says that a part or a tile is the same as another one',
  }),
  S20: entry({
    severity: 'fatal',
    title: 'several documents',
    say: (_: None) => 'a second document begins here; a file holds one',
    hint: () => 'leave the --- out, or move what follows into a file of its own',
  }),
  S21: entry({
    severity: 'fatal',
    title: 'lists and maps too deep in each other',
    say: (_: None) => 'lists and maps lie more than 64 deep in each other',
    hint: () => 'no spec needs as many levels; is a bracket too much?',
  }),
  S22: entry({
    severity: 'error',
    title: 'a key that is no word',
    say: ({ found }: { found: string }) => `${found} stands where a key is wanted`,
    hint: () => 'a word, a colon and a space',
  }),
  S23: entry({
    severity: 'error',
    title: 'no space behind a colon',
    say: ({ found }: { found: string; instead: string }) => `"${found}" has no space behind its colon`,
    hint: ({ instead }) => instead,
  }),
  S24: entry({
    severity: 'warning',
    title: 'a text that may have been cut off by #',
    say: ({ text, lost }: { text: string; lost: string }) =>
      `the text ends at "${text}": "${lost}" is a remark to YAML`,
    hint: ({ text, lost }) =>
      text.includes('"') || lost.includes('"')
        ? 'quotes around the text, or a second space before the #'
        : `"${text} ${lost}" if it belongs to the text; a second space before the # if not`,
  }),
  S25: entry({
    severity: 'fatal',
    title: 'an unknown sign behind \\',
    say: ({ found }: { found: string }) => `"${found}" means nothing between double quotes`,
    hint: () => '\\\\ for a backslash, \\" for a quote; or single quotes',
  }),
  S26: entry({
    severity: 'fatal',
    title: 'a second colon in a line',
    say: ({ found }: { found: string }) => `"${found}" holds a second colon and a space`,
    hint: ({ found }) =>
      found.includes('"')
        ? 'quotes around a text, braces around a map'
        : `"${found}" in quotes if it is a text, { ${found} } if it is a map`,
  }),
  S27: entry({
    severity: 'fatal',
    title: 'a comma that is missing',
    say: ({ found, isBehind }: { found: string; isBehind: boolean }) =>
      isBehind ? `a comma is missing before "${found}"` : `a comma is missing in "${found}"`,
    hint: () => 'in brackets a comma stands between two items: { size: [3, 2], count: 2 }',
  }),

  // What a file may say: S30 to S47
  S30: entry({
    severity: 'fatal',
    title: 'a file that does not say what it is',
    say: (_: None) => 'the file does not say what it is',
    hint: () => 'cardwright: kit   (or session, shelf, drawer) as its first line',
  }),
  S31: entry({
    severity: 'fatal',
    title: 'an unknown kind of file',
    say: ({ found, meant }: { found: string; meant: string }) => `"${found}" is not a kind of file${meant}`,
    hint: () => 'kit, session, shelf or drawer',
  }),
  S32: entry({
    severity: 'error',
    title: 'what a file is stands too late',
    say: ({ first }: { first: string }) =>
      `"cardwright" comes after "${first}"; it is the first key of a file`,
    hint: () => 'move this line to the top',
  }),
  S33: entry({
    severity: 'error',
    title: 'not built yet',
    say: ({ what }: { what: string }) => `"${what}" belongs to the language but is not built yet`,
    hint: () => 'leave it out for now',
  }),
  S34: entry({
    severity: 'error',
    title: 'an unknown key',
    say: ({ key, where, meant }: { key: string; where: string; meant: string; known: readonly string[] }) =>
      `unknown key "${key}" in ${where}${meant}`,
    hint: ({ known }) => `known here: ${known.join(', ')}`,
  }),
  S35: entry({
    severity: 'error',
    title: 'a key of another kind of file',
    say: ({ key, kind }: { key: string; kind: string; kinds: readonly string[] }) =>
      `"${key}" has no place in a ${kind}`,
    hint: ({ kinds }) => `it belongs in a ${kinds.join(' or a ')}`,
  }),
  S36: entry({
    severity: 'error',
    title: 'a value of the wrong sort',
    say: ({ found, wanted }: { found: string; wanted: string; example: string }) =>
      `${found} stands where ${wanted} is wanted`,
    hint: ({ example }) => example,
  }),
  S37: entry({
    severity: 'error',
    title: 'more or fewer items than are wanted',
    say: ({
      found,
      wanted,
    }: {
      found: number;
      wanted: string;
      comma: string | undefined;
      missing?: string | undefined;
      example?: string;
    }) =>
      `${found === 0 ? 'nothing stands' : found === 1 ? 'one item stands' : `${found} items stand`} where ${wanted}`,
    hint: ({ comma, missing, example = '[3, 2 1/2]' }) =>
      comma !== undefined
        ? `a decimal comma? write ${comma}`
        : missing !== undefined
          ? `a comma is missing: ${missing}`
          : example,
  }),
  S38: entry({
    severity: 'error',
    title: 'a key without a value',
    say: ({ key }: { key: string; isCutOff: boolean }) => `nothing stands behind "${key}"`,
    hint: ({ isCutOff }) =>
      isCutOff
        ? 'a text that starts with # needs quotes; else leave the key out'
        : 'a value, with a space after the colon; or leave the key out',
  }),
  S39: entry({
    severity: 'error',
    title: 'a word that is not one of those allowed',
    say: ({ found, key, meant }: { found: string; key: string; meant: string; known: readonly string[] }) =>
      `"${key}" can't be "${found}"${meant}`,
    hint: ({ known }) => known.join(', '),
  }),
  S40: entry({
    severity: 'error',
    title: 'a flag that is neither yes nor no',
    say: ({ found, key }: { found: string; key: string }) => `"${key}" is yes or no, not "${found}"`,
    hint: ({ found, key }) =>
      /^(?:true|on|y)$/i.test(found)
        ? `${key}: yes`
        : /^(?:false|off|n)$/i.test(found)
          ? `${key}: no`
          : 'yes or no',
  }),
  S41: entry({
    severity: 'error',
    title: 'a name that can not be one',
    say: ({ name, why }: { name: string; why: string }) => `"${name}" can't be a name: ${why}`,
    hint: () => 'letters, digits, single spaces, hyphens and apostrophes, a letter first',
  }),
  S42: entry({
    severity: 'error',
    title: 'a word that is taken',
    say: ({ name, word }: { name: string; word: string }) =>
      name === word
        ? `"${word}" means something in the language, so it can't be a name`
        : `"${word}" means something in the language, so it can't be in the name "${name}"`,
    hint: () => 'another word',
  }),
  S43: entry({
    severity: 'error',
    title: 'a text that can not be printed',
    say: ({ why }: { what: string; why: string }) => `${why}`,
    hint: ({ what }) => `${what} in plain characters, on one line`,
  }),
  S44: entry({
    severity: 'error',
    title: 'a name that is too long',
    say: ({ length }: { length: number }) => `a name of ${length} characters; at most 80 are allowed`,
    hint: () => 'a shorter name, and the rest in note:',
  }),
  S45: entry({
    severity: 'error',
    title: 'a price that can not be read',
    say: ({ found }: { found: string }) => `"${found}" is not a price`,
    hint: () => 'an amount and three letters for the money: 2.40 EUR',
  }),
  S46: entry({
    severity: 'error',
    title: 'squares and a footprint',
    say: ({ tile }: { tile: string }) => `"${tile}" has both squares and a footprint`,
    hint: () => 'squares: [2, 1] of the grid, or footprint: [6, 3], but one of them',
  }),
  S47: entry({
    severity: 'error',
    title: 'none where nothing can be taken away',
    say: ({ key }: { key: string }) => `"${key}: none" takes away nothing, since this is like no other`,
    hint: ({ key }) => `leave ${key} out, or say what this is like: like: NAME`,
  }),

  // Builds: S48 to S50
  S48: entry({
    severity: 'error',
    title: 'more in a row than a tile can hold',
    say: ({ found, most }: { found: string; most: number }) => `"${found}" is not 1 to ${most} of a part`,
    hint: () => '2 x NAME',
  }),
  S49: entry({
    severity: 'error',
    title: 'a member of a build that is not one thing',
    say: ({ why }: { why: 'nothing' | 'two things' | 'no place' | 'two places' }) =>
      why === 'nothing'
        ? "this doesn't say what stands here"
        : why === 'two things'
          ? 'this is a second thing in the same place'
          : why === 'no place'
            ? "this doesn't say where it stands"
            : 'this is a second place for the same thing',
    hint: ({ why }) =>
      why === 'nothing' || why === 'two things'
        ? 'one of   part: NAME   gap: 1/4   up: [ ]   across: [ ]   along: [ ]   frame: { }'
        : 'one of   against: top of NAME   at: [1, 1, 1/4]',
  }),
  S50: entry({
    severity: 'error',
    title: 'a row of nothing',
    say: ({ way }: { way: string }) => `nothing stands in this row ${way}`,
    hint: () => 'name its parts in order, or leave the row out',
  }),
  S56: entry({
    severity: 'error',
    title: 'walls that do not meet',
    say: ({ walls }: { walls: readonly string[] }) =>
      walls.length === 0
        ? 'no wall stands in this frame'
        : `no corner is made by ${walls.join(' and ')} alone`,
    hint: () => 'a frame has two walls or more that meet:  frame: { front: wall, left: end }',
  }),

  // Sums: S60 to S69
  S51: entry({
    severity: 'error',
    title: 'one of several keys is wanted',
    say: ({ where, found, known }: { where: string; found: readonly string[]; known: readonly string[] }) =>
      found.length > 0
        ? `${where} says ${found.join(' and ')} at once`
        : known.length === 1
          ? `${where} lacks "${known[0]}"`
          : `${where} says nothing of what it is`,
    hint: ({ known }) => (known.length === 1 ? undefined : `one of ${known.join(', ')}`),
  }),
  S52: entry({
    severity: 'error',
    title: 'an arch is told by two measures',
    say: ({ found }: { found: readonly string[] }) =>
      `an arch is told by two of width, rise and radius; here ${found.length === 0 ? 'is none' : `${found.length === 1 ? 'is' : 'are'} ${found.join(', ')}`}`,
    hint: () => '{ width: 1 1/2, rise: 1/2, sides: 2 }',
  }),
  S53: entry({
    severity: 'error',
    title: 'a share that is none',
    say: ({ found }: { found: string }) => `"${found}" is not a share in a hundred`,
    hint: () => '5%, or a number of pieces: 2',
  }),
  S54: entry({
    severity: 'error',
    title: 'a slope that is not told whole',
    say: ({ why }: { why: 'no direction' | 'no rise' | 'rise and levels' }) =>
      why === 'no direction'
        ? 'a slope has to say to which side it rises'
        : why === 'no rise'
          ? 'a slope has to say by how much it rises'
          : 'a slope says by how much it rises, or from which level to which, not both',
    hint: () => 'slope: { to: back, rise: 3/4 }   or   slope: { to: back, levels: [valley, terrace] }',
  }),
  S55: entry({
    severity: 'error',
    title: 'a word without the one that it belongs to',
    say: ({ key, wants }: { key: string; wants: string }) =>
      `"${key}" is said of what stands "${wants}" something`,
    hint: ({ key, wants }) => `${wants}: [cheek 1, cheek 2], ${key}: …   or leave "${key}" out`,
  }),
  S60: entry({
    severity: 'error',
    title: 'a sum without its brackets',
    say: ({ found }: { found: string }) => `"${found}" is a sum without its brackets`,
    hint: ({ found }) => `(${found})`,
  }),
  S61: entry({
    severity: 'error',
    title: 'a bracket of a sum without its partner',
    say: ({ missing, cutBy }: { missing: 'opening' | 'closing'; cutBy: 'comma' | 'remark' | undefined }) =>
      missing === 'opening'
        ? 'this ) closes nothing'
        : cutBy === 'comma'
          ? 'this ( is not closed before the comma that ends the item'
          : cutBy === 'remark'
            ? 'this ( is not closed before the # that begins a remark'
            : 'this ( is not closed',
    hint: ({ missing, cutBy }) =>
      missing === 'opening'
        ? 'leave it out'
        : cutBy === 'comma'
          ? 'the ) before the comma, no commas inside'
          : 'a ) at its end',
  }),
  S62: entry({
    severity: 'error',
    title: 'a sign without spaces',
    say: ({ sign }: { sign: string; instead: string }) => `"${sign}" needs a space on both sides`,
    hint: ({ instead }) => instead,
  }),
  S63: entry({
    severity: 'error',
    title: 'a sum with something missing',
    say: ({ before, wanted }: { before: string; wanted: string }) =>
      before === '' ? `nothing stands where ${wanted} is wanted` : `${wanted} is missing behind "${before}"`,
    hint: () => '(square - 2 x thickness of card)',
  }),
  S64: entry({
    severity: 'error',
    title: 'a sum that is too long or too deep',
    say: ({ why, count }: { why: 'long' | 'deep'; count: number }) =>
      why === 'long'
        ? `a sum of ${count} characters; at most 500 are read`
        : `brackets lie ${count} deep in each other; at most 40 are read`,
    hint: () => 'give a piece of it a name under lengths:',
  }),
  S65: entry({
    severity: 'error',
    title: 'a sign that sums do not have',
    say: ({ found }: { found: string }) => `"${found}" has no meaning in a sum`,
    hint: ({ found }) => (/^[–—]$/.test(found) ? 'a minus: -' : '+ - x / and brackets'),
  }),
  S66: entry({
    severity: 'error',
    title: 'a rounding that is not at the end',
    say: ({ word }: { word: string }) => `"${word}" and its step are the last thing in a bracket`,
    hint: ({ word }) => `((core / bays ${word} 1/32) + 1/16)`,
  }),
  S67: entry({
    severity: 'error',
    title: 'two things side by side in a sum',
    say: ({ first, second }: { first: string; second: string }) =>
      `nothing stands between "${first}" and "${second}"`,
    hint: ({ first, second }) => `${first} x ${second}, or another sign with spaces around it`,
  }),
  S68: entry({
    severity: 'error',
    title: 'neither a measure nor a name nor a sum',
    say: ({ found }: { found: string }) => `"${found}" is neither a measure nor a name nor a sum`,
    hint: () => '2 3/8 in, or a name, or a sum in round brackets',
  }),
  S69: entry({
    severity: 'error',
    title: 'a size that can not be asked for',
    say: ({ found, meant }: { found: string; meant: string }) =>
      `"${found} of" asks for nothing known${meant}`,
    hint: () => 'thickness of, length of, width of, smaller of, larger of',
  }),
  S57: entry({
    severity: 'error',
    title: 'courses that say too little',
    say: (it: NoCourses) => {
      if (it.why === 'one way') return `courses that run ${it.way} can't be stacked ${it.way}, too`;
      const what = it.name === 'long' ? 'bricks in a course' : 'courses';
      return it.found === undefined
        ? `how many ${what} there are is not said: "${it.name}" is missing`
        : `"${it.found}" is no number of ${what} in digits, from 1 to 10 000`;
    },
    hint: ({ why }) =>
      why === 'one way'
        ? 'run: across  and  stack: up  are what they do unless they say otherwise'
        : '{ courses: brick, half: half brick, long: 6, high: 4 }',
  }),
  // Written anew in place: S70 and S71
  S70: entry({
    severity: 'error',
    title: 'a length in one place, a plain number in another',
    say: ({ found }: { found: string }) =>
      `"${found}" is a length in one place and a plain number in another, so it can't be converted`,
    hint: () => 'write it twice, once under lengths and once under numbers',
  }),
  S71: entry({
    severity: 'error',
    title: 'a measure that can not be written anew in place',
    say: ({ found }: { found: string }) =>
      `"${clippedFound(found)}" holds escapes or runs over lines, so its measures can't be written anew in place`,
    hint: () => 'write it on one line, without backslashes or doubled quotes',
  }),
  S80: entry({
    severity: 'error',
    title: 'a fitting that is let in nowhere, or in two ways',
    say: ({ lacks, beside }: { lacks: string | undefined; beside: string | undefined }) =>
      lacks === undefined
        ? `"${beside}" stands beside "at", which says already where each of them is`
        : `it is not said where this fitting goes: "${lacks}" is missing`,
    hint: () => '{ into: left of bed, at: [[3/4, 1/8]] }, or   inset: 1/4   for one in each corner',
  }),
  S81: entry({
    severity: 'warning',
    title: 'tiles that no evening makes',
    say: ({ what }: { what: string }) => `${what}: asked for, but made on no evening`,
    hint: () => 'make: rest  on the last evening, or fewer under  make:',
  }),
  S82: entry({
    severity: 'warning',
    title: 'two evenings of one title',
    say: ({ title, first, second }: { title: string; first: number; second: number }) =>
      `evenings ${first} and ${second} are both called "${title}"; by that title the first is meant`,
    hint: ({ second }) => `another title, or  --evening ${second}  for the second`,
  }),
} as const;

type NoCourses =
  | { readonly why: 'one way'; readonly way: string }
  | { readonly why: 'how many'; readonly name: 'long' | 'high'; readonly found: string | undefined };

function clippedFound(text: string): string {
  const line = text.replace(/\s+/gu, ' ');
  return line.length <= 60 ? line : `${line.slice(0, 57)}…`;
}
