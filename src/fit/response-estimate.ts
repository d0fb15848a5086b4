// A frequency response as it was measured, with its errors.
import type { ComplexArray } from "../theory/frequency.js";

/** By what the loop's own noise was kept out; the command alone where it was seen to matter little. */
export type Method = "commanded rate" | "loud against quiet" | "command alone";

export interface ResponseEstimate {
  readonly method: Method;
  /** rad/s, rising. */
  readonly frequencies: Float64Array;
  readonly value: ComplexArray;
  /** Between 0 and 1. */
  readonly coherence: Float64Array;
  /** Standard deviation of the value as a share of its amplitude, equal in amplitude and (in rad) in phase. */
  readonly error: Float64Array;
  /** Independent windows averaged. */
  readonly windows: number;
  /** Mean duty of the rotors over the windows, and pack voltage where it was logged. */
  readonly duty: number;
  readonly voltage: number | null;
}
