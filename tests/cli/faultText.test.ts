import { describe, expect, it } from 'vitest';
import { noPaint } from '../../src/cli/colour.ts';
import { faultText } from '../../src/cli/faultText.ts';
import { atSpan, type Diagnostic, type Source } from '../../src/model/index.ts';

const look = { width: 80, ascii: false };
const plain = (diagnostics: readonly Diagnostic[], of = look): string => faultText(diagnostics, of, noPaint);

function source(text: string, path = 'kit.yaml'): Source {
  return { path, text };
}

/** A fault under the first `words` of a text. */
function fault(of: Source, words: string, beside: Partial<Diagnostic> = {}): Diagnostic {
  const start = of.text.indexOf(words);
  return {
    code: 'C40',
    severity: 'error',
    place: atSpan({ source: of, start, end: start + words.length }),
    message: 'it is not so',
    hints: [],
    related: [],
    fix: undefined,
    ...beside,
  };
}

describe('a fault on the screen', () => {
  it('has its place, the line, carets, what would do, and where to read more', () => {
    const text = plain([
      fault(source('a: 1\ncut: { sqaure: 3 }\n'), 'sqaure', { hints: ['square', 'or nothing'] }),
    ]);
    expect(text).toBe(
      [
        'kit.yaml:2:8: error C40: it is not so',
        '  2 | cut: { sqaure: 3 }',
        '    |        ^^^^^^',
        '  try   square',
        '  try   or nothing',
        '  more  cardwright explain C40',
        '1 error',
        '',
      ].join('\n'),
    );
  });

  it('keeps its carets under the words behind tabs', () => {
    expect(carets(source('a:\t\tsqaure: 3\n'))).toBe('    |           ^^^^^^');
  });

  it('keeps its carets under the words behind wide characters', () => {
    // Each takes two columns of a terminal (Unicode EastAsianWidth W; emoji presentation).
    expect(carets(source('漢字 🍇: sqaure\n'))).toBe(`    | ${' '.repeat(9)}^^^^^^`);
  });

  it('keeps its carets under the words behind marks that take no column of their own', () => {
    expect(carets(source('cafe\u0301: sqaure\n'))).toBe(`    | ${' '.repeat(6)}^^^^^^`);
  });

  it('points behind the end of a line where something is missing there', () => {
    const of = source('title:\n');
    expect(
      plain([fault(of, '\n')])
        .split('\n')
        .slice(1, 3),
    ).toEqual(['  1 | title:', '    |       ^']);
  });

  it('takes a long line around the fault only', () => {
    const of = source(`${'left '.repeat(60)}sqaure${' right'.repeat(60)}\n`);
    const [, line = '', under = ''] = plain([fault(of, 'sqaure')]).split('\n');
    expect(line.length).toBeLessThan(80);
    expect(line).toMatch(/^ {2}1 \| ….*…$/);
    expect(line.indexOf('sqaure')).toBe(under.indexOf('^'));
    expect(under.match(/\^+/)?.[0]).toHaveLength(6);
  });

  it('marks as much of a fault as is shown of it', () => {
    const of = source('x'.repeat(500));
    const [, line = '', under = ''] = plain([fault(of, 'x'.repeat(500))]).split('\n');
    expect(under.length).toBeLessThanOrEqual(line.length);
  });

  it('lets no command of the user’s text reach the terminal', () => {
    const of = source('a: \x1b[31msqaure\u202e\n', 'k\x1b[2Jit.yaml');
    const text = plain([fault(of, 'sqaure', { message: 'found "\x07\u009b"' })]);
    expect(text).not.toMatch(/[\x00-\x09\x0b-\x1f\x7f-\x9f\u202e]/);
    expect(text).toContain('\\u{1b}[31msqaure');
    const [, line = '', under = ''] = text.split('\n');
    expect(line.indexOf('sqaure')).toBe(under.indexOf('^'));
  });

  it('sorts by place, and counts at the end', () => {
    const of = source('one: two\nthree: four\n');
    const text = plain([
      fault(of, 'four'),
      fault(of, 'three', { severity: 'warning' }),
      fault(of, 'one', { severity: 'note' }),
      fault(of, 'two'),
    ]);
    expect(text.match(/kit\.yaml:\d+:\d+: \w+/g)).toEqual([
      'kit.yaml:1:1: note',
      'kit.yaml:1:6: error',
      'kit.yaml:2:1: warning',
      'kit.yaml:2:8: error',
    ]);
    expect(text.trimEnd().split('\n').at(-1)).toBe('2 errors, 1 warning, 1 note');
  });

  it('names the other places that matter', () => {
    const other = source('wall: 1\n', 'shelf.yaml');
    const related = [{ place: atSpan({ source: other, start: 0, end: 4 }), message: 'it is this one too' }];
    const text = plain([fault(source('use: wall\n'), 'wall', { related })]);
    expect(text).toContain('  also  shelf.yaml:1:1: it is this one too\n  1 | wall: 1\n    | ^^^^\n');
  });

  it('prints a mended line as it is to be written', () => {
    const of = source('a: 1\r\ngrid: { sqaure: 3 }\r\n');
    const start = of.text.indexOf('sqaure');
    const fix = { span: { source: of, start, end: start + 6 }, text: 'square' };
    expect(plain([fault(of, 'sqaure', { fix })])).toContain('\n  write grid: { square: 3 }\n');
  });

  it('keeps to ASCII where no more is promised, but leaves the user’s words', () => {
    const of = source('a: größe\n');
    const said = { message: 'found "½ größe" × 2 3⁄8″ → no', hints: ['5⅜'] };
    const text = plain([fault(of, 'größe', said)], { width: 80, ascii: true });
    expect(text).toContain('found "½ größe" x 2 3/8 in -> no');
    expect(text).toContain('  try   5 3/8');
    expect(text).toContain('  1 | a: größe');
  });

  it('stops telling after a hundred, and says how many are left', () => {
    const of = source('x\n'.repeat(150));
    const faults = Array.from({ length: 150 }, (_, i) =>
      fault(of, 'x', { place: atSpan({ source: of, start: 2 * i, end: 2 * i + 1 }) }),
    );
    const lines = plain(faults).trimEnd().split('\n');
    expect(lines.filter((it) => it.includes(': error '))).toHaveLength(100);
    expect(lines.slice(-2)).toEqual(['50 more are not shown', '150 errors']);
  });
});

function carets(of: Source): string {
  return plain([fault(of, 'sqaure')]).split('\n')[2] ?? '';
}
