/**
 * The codes of `print/`, letter O: O01–O19 text and JSON (none can occur: every batch can be written down),
 * O20–O39 PDF. A code is never reused or renumbered.
 */
export const printCodes = {} as const;
