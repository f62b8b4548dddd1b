/** The world as the command sees it; tests put their own in. */
export interface Io {
  /** Data: tables, CSV, JSON. */
  stdout: { write(text: string): unknown };
  /** Messages and progress. */
  stderr: { write(text: string): unknown };
  /** Folder that relative paths start from. */
  cwd: string;
  env: Readonly<Record<string, string | undefined>>;
  /** Whether stderr is a terminal. */
  isTTY: boolean;
  /** Width of the terminal. @default 80 */
  columns?: number;
  /** Aborted when the user stops the program. */
  signal?: AbortSignal;
}
