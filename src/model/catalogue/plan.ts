/**
 * The codes of `plan/`, letter L: none yet. A layout that reaches this room can be cut, and everything that
 * can be wrong with a demand has been said before. A code is never reused or renumbered.
 */
export const planCodes = {} as const;
