// One trial simulated with everything the page shows or plays of it recorded: rates, rotor speeds, commanded rate.
import { advance } from "../../kernel/loop.js";
import * as m from "../../kernel/memory.js";
import { divergedAt } from "../../response/respond.js";
import type { PlainTrials } from "../../run/plain.js";

const SAMPLE = 0.001; // s, between two recorded samples

/** s */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

export interface Recording {
  readonly period: number; // s, between samples
  readonly axis: m.AxisPlace; // the one under test
  /** rad/s: roll, pitch, yaw, as sensed from the body itself. */
  readonly rates: readonly [Float64Array, Float64Array, Float64Array];
  /** rad/s, commanded on the axis under test. */
  readonly command: Float64Array;
  /** rad/s, one per rotor. */
  readonly speeds: readonly Float64Array[];
  /** rad/s of the axis under test, every control period: what the measures are read from. */
  readonly trace: Float64Array;
}

/**
 * Runs the map's own loop at SI gains in short segments and records its state between them. A trial that diverges is
 * recorded up to its divergence.
 */
export function recorded({ rig, question }: PlainTrials, p: number, d: number): Recording {
  const each = Math.max(1, Math.round(SAMPLE / rig.period));
  const count = Math.ceil(rig.steps / each);
  const samples = () => new Float64Array(count);
  const rates = [samples(), samples(), samples()] as const;
  const command = samples();
  const speeds = Array.from({ length: rig.shape.rotors }, samples);
  const state = Float64Array.from(rig.start);
  state[m.P_GAIN + rig.axis] = p;
  state[m.D_GAIN + rig.axis] = d / rig.period;
  const trace = new Float64Array(rig.steps);
  const counts = m.countsOf(rig.shape);
  for (let k = 0; k < count; k++) {
    for (const [a, rate] of rates.entries()) rate[k] = state[m.BODY_RATE + a] as number;
    for (const [i, speed] of speeds.entries()) speed[k] = state[m.STATE_SIZE + i] as number;
    command[k] = question.command[k * each] as number;
    const to = Math.min(rig.steps, (k + 1) * each);
    const disturbed = k * each < rig.drive.disturbed.to && to > rig.drive.disturbed.from ? 1 : 0;
    advance(rig.craft, rig.drive.values, state, trace, ...counts, rig.axis, disturbed, 0, k * each, to);
  }
  const divergence = divergedAt(trace);
  const upToDivergence = (series: Float64Array) =>
    divergence === null ? series : series.subarray(0, Math.max(2, Math.floor(divergence / each)));
  return {
    period: each * rig.period,
    axis: rig.axis,
    rates: [upToDivergence(rates[0]), upToDivergence(rates[1]), upToDivergence(rates[2])],
    command: upToDivergence(command),
    speeds: speeds.map(upToDivergence),
    trace,
  };
}
