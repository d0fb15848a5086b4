// Why an axis has no starting tune, in the craft's terms: a change of the model or the sweep with which trials find one.

export interface StartCause {
  /** What to look at, as the file spells it: "frame", "sensing.low_pass". */
  readonly key: string;
  /** What the number behind it was multiplied by; 0: taken away altogether. */
  readonly factor: number;
  /** The cause, the change and what to do, in plain sentences. */
  readonly text: string;
  /** A tune that is safe with the change, in display units. */
  readonly p: number;
  readonly d: number;
}
