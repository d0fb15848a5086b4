// One number that nobody measured: its value, how far it may be off, and where both come from.
import { exp, ln } from "../base/elementary.js";

export interface Estimate {
  /** SI, or a plain number. */
  readonly value: number;
  /** Share of the value; about 95 of 100 such craft lie within it, as model files write ±. */
  readonly spread: number;
  /** As it stands in the comment beside the number. */
  readonly source: string;
}

/** Said of what rests on no published data. */
export const COMMON = "common practice, no source";

/** Spreads of independent factors as one, in the logarithm: shares in, share out. */
export const combined = (...shares: readonly number[]): number =>
  exp(Math.sqrt(shares.reduce((sum, share) => sum + ln(1 + share) * ln(1 + share), 0))) - 1;
