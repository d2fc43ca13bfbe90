export const flattenable: RegExp;
export function flattened(name: 'lexer' | 'parser', text: string): string;
