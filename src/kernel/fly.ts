// One trial: the rig of a variant flown at one pair of gains; and many of them, side by side where there is a vector kernel.
import { advance } from "./loop.js";
import * as m from "./memory.js";
import type { Rig } from "./rig.js";
import type { VectorKernel } from "./vector.js";

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

/** Control periods over which is summed, `to` exclusive. */
export interface Window {
  readonly from: number;
  readonly to: number;
}

/** P in fraction per (rad/s), D in fraction per (rad/s^2), one of each per trial. */
export interface Gains {
  readonly p: Float64Array;
  readonly d: Float64Array;
}

/** Flies a rig at many gains; a trial's trace is good until `onTrial` returns. */
export type FlyMany = (
  gains: Gains,
  window: Window,
  onTrial: (index: number, trace: Float64Array, flight: Flight) => void,
) => void;

export const scratchFor = (rig: Rig): Scratch => ({
  state: new Float64Array(rig.start.length),
  trace: new Float64Array(rig.steps),
});

/** Flies `rig` at P (fraction per rad/s) and D (fraction per rad/s^2); sums over control periods [from, to). */
export function fly(rig: Rig, p: number, d: number, window: Window, { state, trace }: Scratch): Flight {
  state.set(rig.start);
  state[m.P_GAIN + rig.axis] = p;
  state[m.D_GAIN + rig.axis] = d / rig.period;
  const counts = m.countsOf(rig.shape);
  inThree(window, rig.steps, (tally, from, to) => {
    advance(rig.craft, rig.drive.values, state, trace, ...counts, rig.axis, tally, from, to);
  });
  return flightOf(rig, window, (place) => state[place]);
}

/** The same bits with a kernel and without. */
export function flyManyOf(rig: Rig, kernel: VectorKernel | null): FlyMany {
  return kernel === null ? inTurn(rig) : abreast(rig, kernel);
}

function inTurn(rig: Rig): FlyMany {
  const scratch = scratchFor(rig);
  return ({ p, d }, window, onTrial) => {
    for (let i = 0; i < p.length; i++) onTrial(i, scratch.trace, fly(rig, p[i], d[i], window, scratch));
  };
}

function abreast(rig: Rig, { lanes, mount }: VectorKernel): FlyMany {
  const mounted = mount(rig);
  return ({ p, d }, window, onTrial) => {
    for (let first = 0; first < p.length; first += lanes) {
      const count = Math.min(lanes, p.length - first);
      mounted.restart();
      for (let lane = 0; lane < lanes; lane++) {
        // Lanes to spare fly the last point once more.
        const i = first + Math.min(lane, count - 1);
        mounted.set(lane, m.P_GAIN + rig.axis, p[i]);
        mounted.set(lane, m.D_GAIN + rig.axis, d[i] / rig.period);
      }
      inThree(window, rig.steps, mounted.advance);
      for (let lane = 0; lane < count; lane++) {
        const flight = flightOf(rig, window, (place) => mounted.get(lane, place));
        onTrial(first + lane, mounted.traces[lane], flight);
      }
    }
  };
}

/** Before the window, in it with the tally on, and after it. */
function inThree({ from, to }: Window, steps: number, fly: (tally: 0 | 1, from: number, to: number) => void): void {
  fly(0, 0, from);
  fly(1, from, to);
  fly(0, to, steps);
}

function flightOf(rig: Rig, { from, to }: Window, state: (place: number) => number): Flight {
  const commandMean = state(m.COMMAND_SUM) / (to - from);
  const meanSquare = state(m.COMMAND_SQUARES) / (to - from);
  return {
    heat: state(m.HEAT) / rig.shape.substeps,
    limited: state(m.LIMITED),
    commandMean,
    commandRms: Math.sqrt(Math.max(0, meanSquare - commandMean * commandMean)),
  };
}
