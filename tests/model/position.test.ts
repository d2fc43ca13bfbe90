import { describe, expect, it } from 'vitest';
import { lineOf, positionOf } from '../../src/model/index.ts';

const text = 'a: 1\r\nb: 🍇🍇x\n\nlast';
const source = { path: 'kit.yaml', text };
const at = (start: number, end = start) => positionOf({ source, start, end });

describe('positionOf', () => {
  it('starts at line 1, column 1', () => {
    expect(at(0, 1)).toEqual({ line: 1, column: 1, length: 1 });
  });

  it('counts an emoji as one column, though it takes two UTF-16 units', () => {
    const grapes = text.indexOf('🍇');
    expect(at(grapes, grapes + 4)).toEqual({ line: 2, column: 4, length: 2 });
    expect(at(text.indexOf('x'))).toEqual({ line: 2, column: 6, length: 0 });
  });

  it('takes CRLF for one line end, also from between its two characters', () => {
    expect(at(text.indexOf('b'))).toMatchObject({ line: 2, column: 1 });
    expect(at(text.indexOf('\n'))).toMatchObject({ line: 1 });
    expect(lineOf({ source, start: 0 })).toBe('a: 1');
  });

  it('finds the place behind the last character', () => {
    expect(at(text.length)).toEqual({ line: 4, column: 5, length: 0 });
    expect(lineOf({ source, start: text.length })).toBe('last');
  });

  it('measures only the first line of a span that runs over several', () => {
    expect(at(text.indexOf('x'), text.length)).toMatchObject({ line: 2, length: 1 });
  });
});
