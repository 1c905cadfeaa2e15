/** Where in a file something is. Line and column count from 1; 0 and 0 mean the file as a whole. */
export interface Place {
  /** Path as the user gave it. */
  file: string;
  line: number;
  /** Counted in UTF-16 code units, as editors do. */
  column: number;
}

/** One thing wrong with what a user handed in. */
export interface Problem extends Place {
  /** What is there, with its value. */
  seen: string;
  /** What should be there. */
  expected: string;
  /** What to do about it. */
  next: string;
}

/** No more than so many problems are listed; the rest are counted. */
export const PROBLEM_CAP = 20;

/**
 * The one error that users are meant to see.
 * `code` is `area/cause` and stays the same between versions; `message` and `detail` are prose.
 * Wrong input lists everything found at once in `problems`, at most {@link PROBLEM_CAP}; other errors
 * leave it empty and may name `places`.
 */
export class TautlineError extends Error {
  readonly code: string;
  readonly detail: string;
  readonly places: Place[];
  readonly problems: Problem[];

  constructor(
    code: string,
    message: string,
    more: { detail?: string; places?: Place[]; cause?: unknown } = {},
  ) {
    super(message, more.cause === undefined ? undefined : { cause: more.cause });
    this.name = 'TautlineError';
    this.code = code;
    this.detail = more.detail ?? '';
    this.places = more.places ?? [];
    this.problems = [];
  }

  /**
   * An error about a user's file.
   * @param problems all that were found, at least one; sorted by place here, those beyond the cap are
   *   counted in `detail`
   */
  static fromProblems(code: string, problems: Problem[], cause?: unknown): TautlineError {
    const sorted = [...problems].sort((a, b) => a.line - b.line || a.column - b.column);
    const shown = sorted.slice(0, PROBLEM_CAP);
    const hidden = sorted.length - shown.length;
    const first = shown[0]!;
    const more = sorted.length > 1 ? ` (and ${sorted.length - 1} more)` : '';
    const error = new TautlineError(code, `${formatPlace(first)}: ${first.seen}${more}`, {
      detail: hidden > 0 ? `${hidden} more problems not shown: mend these ${shown.length} first.` : '',
      places: shown.map(({ file, line, column }) => ({ file, line, column })),
      cause,
    });
    error.problems.push(...shown);
    return error;
  }
}

/** `file:line:column`, the form that editors and terminals make clickable. */
export function formatPlace(place: Place): string {
  return place.line > 0 ? `${place.file}:${place.line}:${place.column}` : place.file;
}

/** One problem or warning as three indented lines. */
export function formatProblem(problem: Problem): string {
  return (
    `${formatPlace(problem)}: ${problem.seen}\n` +
    `    expected: ${problem.expected}\n` +
    `    next:     ${problem.next}`
  );
}

/** Everything a user needs to see of an error, and no stack trace. Ends without a newline. */
export function formatProblems(error: unknown): string {
  if (!(error instanceof TautlineError)) return error instanceof Error ? error.message : String(error);
  const lines = error.problems.length > 0 ? error.problems.map(formatProblem) : [error.message];
  // A place that the message names already is not said twice.
  if (error.problems.length === 0)
    for (const place of error.places) {
      if (!error.message.includes(formatPlace(place))) lines.push(`    in ${formatPlace(place)}`);
    }
  if (error.detail !== '') lines.push(error.detail);
  lines.push(`(${error.code})`);
  return lines.join('\n');
}
