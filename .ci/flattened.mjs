// The lexer and the parser of the yaml package hand each token on through four or five generators inside each other, of
// which every one is resumed for every token. Here their text is turned into plain calls: the lexer hands each token to
// the parser, which gathers in a list what it hands on. The same code in the same order, in half the time; whoever reads
// the tokens takes them all at once anyway. A text that is not as expected fails the build.

/** How many generators each file has, and how often it says that something is handed on. */
const known = { lexer: 18, parser: 14 };
const expected = { lexer: 8, parser: 8 };

export const flattenable = /[\\/]yaml[\\/]browser[\\/]dist[\\/]parse[\\/](lexer|parser)\.js$/;

/** @param name `lexer` or `parser` @param text of the package's file */
export function flattened(name, text) {
  const generators = [...text.matchAll(/^ {4}\*(\w+)\(/gm)].map(([, method]) => method);
  // A generator that is only called and not run does nothing.
  const idle = new RegExp(`^ +this\\.(?:${generators.join('|')})\\([^\\n]*\\);\\n`, 'gm');
  const plain = text
    .replace(idle, '')
    .replace(begins, (begun) => `${begun}\n        this.handedOn = [];`)
    .replace(reads, (_, lexemes) => `this.lexer.handOn = (lexeme) => this.next(lexeme);\n        ${lexemes};`)
    .replace(ends, '$&\n        return this.handedOn;')
    .replace(/^ {4}\*(?=\w+\()/gm, '    ')
    .replace(/\byield\* /g, '')
    .replace(/\byield ([^;]+);/g, name === 'lexer' ? 'this.handOn($1);' : 'this.handedOn.push($1);');
  const isAsExpected =
    generators.length === known[name] &&
    plain.split(name === 'lexer' ? 'this.handOn(' : 'this.handedOn').length - 1 === expected[name] &&
    !/\byield\b|^ {4}\*\w/m.test(withoutComments(plain));
  if (!isAsExpected)
    throw new Error(`the ${name} of yaml is not what it was: .ci/flattened.mjs has to be looked at`);
  return plain;
}

/** The parser's first method, from its beginning to its end. */
const begins = /^ {4}\*parse\(source, incomplete = false\) \{$/m;
const reads =
  /for \(const lexeme of (this\.lexer\.lex\(source, incomplete\))\)\n +yield\* this\.next\(lexeme\);/;
const ends = /if \(!incomplete\)\n +yield\* this\.end\(\);/;

function withoutComments(text) {
  return text.replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '');
}
