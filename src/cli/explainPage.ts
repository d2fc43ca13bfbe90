/**
 * The page that `explain CODE` prints. Its two examples are run by a test: the failing one must yield its
 * code (and no other error), the mended one must not.
 */
export interface ExplainPage {
  /** A few sentences: what it means, why it is refused or worth knowing, what to do. */
  readonly why: string;
  readonly failing: Example;
  readonly mended: Example;
}

/** Files in an empty folder, and the command run there. The first file is shown on the page. */
export interface Example {
  readonly files: Readonly<Record<string, string>>;
  /** Runs in the same folder that come first. */
  readonly before?: readonly (readonly string[])[];
  /** E.g. `['check', 'kit.yaml']`, without the program's name. */
  readonly run: readonly string[];
  readonly stdin?: string;
  /** What befalls the run from outside; the test's world makes it happen. */
  readonly meanwhile?:
    | 'Ctrl-C is pressed'
    | 'the process is asked to end'
    | 'a fault of our own'
    | 'standard output is a terminal'
    | 'standard output is full'
    | 'an editor saves the file';
}

/** The commonest example: one kit, checked. */
export function kit(text: string): Example {
  return { files: { 'kit.yaml': text }, run: ['check', 'kit.yaml'] };
}
