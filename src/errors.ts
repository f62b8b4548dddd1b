/** Where in a file something was found. */
export interface Place {
  /** Name of the file as the user gave it. */
  source: string;
  /** 1-based line, where it is known. */
  line?: number;
  /** 1-based column (a cell of the table), where it is known. */
  column?: number;
  /** The offending text, where it is short enough to show. */
  text?: string;
}

/**
 * A file that cannot be understood. The message names the file and the line, says what is wrong and what to do.
 * `code` is stable and machine-readable (`no-table`, `empty-file`, `ambiguous-columns`, …).
 */
export class UnreadableError extends SyntaxError {
  override name = "UnreadableError";
  readonly code: string;
  readonly place: Place;

  constructor(code: string, message: string, place: Place) {
    const where = place.line === undefined ? place.source : `${place.source}, line ${place.line}`;
    super(`${where}: ${message}`);
    this.code = code;
    this.place = place;
  }
}

/** An error as plain data: what crosses a worker's border and stands in `campaign.json`. */
export interface ErrorData {
  code: string;
  message: string;
  line?: number;
  column?: number;
}
