/** What a command gives back; the program writes it and sets the exit code. */
export interface Result {
  readonly json: unknown;
  readonly text: string;
  /** 0 all well, 1 problems in the job. */
  readonly code: 0 | 1;
}
