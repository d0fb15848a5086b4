// One trial: the rig of a variant flown at one pair of gains.
import { advance } from "./loop.js";
import * as m from "./memory.js";
import type { Rig } from "./rig.js";

/** Memory a flight writes into; one per worker, reused for every trial of a rig. */
export interface Scratch {
  readonly state: Float64Array;
  readonly trace: Float64Array; // rad/s of the axis under test at each sampling instant
}

/** What a trial leaves besides its trace; the sums run over the window only. */
export interface Flight {
  readonly heat: number; // A^2, summed over rotors, physics steps and control periods
  readonly limited: number; // control periods in which the torque demand was scaled down
  readonly commandMean: number; // fraction
  readonly commandRms: number; // about the mean, fraction
}

export const scratchFor = (rig: Rig): Scratch => ({
  state: new Float64Array(rig.start.length),
  trace: new Float64Array(rig.steps),
});

/** Flies `rig` at P (fraction per rad/s) and D (fraction per rad/s^2); sums over control periods [from, to). */
export function fly(rig: Rig, p: number, d: number, window: { from: number; to: number }, scratch: Scratch): Flight {
  const { state } = scratch;
  state.set(rig.start);
  state[m.P_GAIN + rig.axis] = p;
  state[m.D_GAIN + rig.axis] = d / rig.period;
  stretch(rig, scratch, 0, window.from);
  state.fill(0, m.HEAT, m.COMMAND_SQUARES + 1);
  stretch(rig, scratch, window.from, window.to);
  const count = window.to - window.from;
  const commandMean = state[m.COMMAND_SUM] / count;
  const flight = {
    heat: state[m.HEAT] / rig.shape.substeps,
    limited: state[m.LIMITED],
    commandMean,
    commandRms: Math.sqrt(Math.max(0, state[m.COMMAND_SQUARES] / count - commandMean * commandMean)),
  };
  stretch(rig, scratch, window.to, rig.steps);
  return flight;
}

function stretch(rig: Rig, scratch: Scratch, from: number, to: number): void {
  const { rotors, sensorStages, derivativeStages, delaySteps, substeps } = rig.shape;
  const counts = [rotors, sensorStages, derivativeStages, delaySteps, substeps] as const;
  advance(rig.craft, rig.drive.values, scratch.state, scratch.trace, ...counts, rig.axis, from, to);
}
