/** How a run ended, as the shell sees it. */
export const ExitCode = {
  fine: 0,
  specWrong: 1,
  usage: 2,
  files: 3,
  ourBug: 70,
  interrupted: 130,
  terminated: 143,
} as const;

export type ExitCode = (typeof ExitCode)[keyof typeof ExitCode];
