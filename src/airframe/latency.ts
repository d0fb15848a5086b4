// Latency in control periods, any fraction of one: the command of `steps` periods ago acts first, and within the period the
// next younger one takes over.
import type { Airframe } from "./airframe.js";

type Late = { readonly controller: Pick<Airframe["controller"], "latency" | "rate"> };

export interface Delay {
  /** Control periods by which the older command is late: the latency, rounded up. */
  readonly steps: number;
  /** Share of a control period, its end, under the command that is one period younger: 0 where the latency is whole periods. */
  readonly newerShare: number;
}

/** Share of a control period that is an error of rounding: 0.3 ms at 10 kHz is three periods, whatever doubles make of it. */
const ROUNDING = 1e-9;

export function delayOf({ controller: { latency, rate } }: Late): Delay {
  const periods = latency * rate;
  const nearest = Math.round(periods);
  if (Math.abs(periods - nearest) < ROUNDING) return { steps: nearest, newerShare: 0 };
  const steps = Math.ceil(periods);
  return { steps, newerShare: steps - periods };
}

export interface Takeover {
  /** Physics steps of a control period wholly under the older command; all of them where the latency is whole periods. */
  readonly olderSteps: number;
  /** Share of the physics step after them under the newer command. */
  readonly newerShare: number;
}

/** The same in physics steps, of which a control period has `substeps`. */
export function takeoverOf({ newerShare }: Delay, substeps: number): Takeover {
  const older = (1 - newerShare) * substeps;
  const olderSteps = Math.floor(older);
  return { olderSteps, newerShare: olderSteps < substeps ? olderSteps + 1 - older : 0 };
}
