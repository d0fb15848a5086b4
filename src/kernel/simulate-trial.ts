// One trial: the rig of a variant simulated at one pair of gains; or many of them, in lanes where there is a vector kernel.
import type { Recording, Window } from "../response/answer.js";
import { type Pass, type PassName, type Traced, traceOf } from "../response/reader.js";
import { advance } from "./loop.js";
import * as m from "./memory.js";
import type { Rig } from "./rig.js";
import { countsOfKind, isWithin, segmentsOf } from "./segments.js";
import type { VectorKernel } from "./vector.js";

/** Memory that a trial writes into; one per worker, reused for every trial of a rig. */
export interface Scratch {
  readonly state: Float64Array;
  readonly trace: Float64Array; // rad/s of the axis under test at each sampling instant
}

/** Results of a trial besides its trace. */
export type TrialSums = Omit<Recording, keyof Traced>;

/** P in fraction per (rad/s), D in fraction per (rad/s^2), one of each per trial. */
export interface Gains {
  readonly p: Float64Array;
  readonly d: Float64Array;
}

/** Simulates a rig at many gains; a trial's recording is valid until `onTrial` returns. */
export type SimulateMany = (
  gains: Gains,
  window: Window,
  onTrial: (index: number, recording: Recording) => void,
) => void;

export const scratchFor = (rig: Rig): Scratch => ({
  state: new Float64Array(rig.start.length),
  trace: new Float64Array(rig.steps),
});

/** Simulates `rig` at P (fraction per rad/s) and D (fraction per rad/s^2). */
export function simulateTrial(rig: Rig, p: number, d: number, window: Window, { state, trace }: Scratch): TrialSums {
  state.set(rig.start);
  state[m.P_GAIN + rig.axis] = p;
  state[m.D_GAIN + rig.axis] = d / rig.period;
  const { craft, drive, axis } = rig;
  const counts = m.countsOf(rig.shape);
  let served = 0;
  for (const { from, to, kind, counted } of segmentsIn(rig, window)) {
    const before = state[m.SERVED_SUM];
    advance(craft, drive.values, state, trace, ...counts, axis, ...countsOfKind(kind), from, to);
    if (counted) served += state[m.SERVED_SUM] - before;
  }
  return trialSums(rig, window, served, (place) => state[place]);
}

/** The same bits with a kernel and without. */
export function simulateManyOf(rig: Rig, kernel: VectorKernel | null): SimulateMany {
  return kernel === null ? oneByOne(rig) : inLanes(rig, kernel);
}

function oneByOne(rig: Rig): SimulateMany {
  const scratch = scratchFor(rig);
  const recorded = traceOf(scratch.trace);
  return ({ p, d }, window, onTrial) => {
    for (let i = 0; i < p.length; i++) onTrial(i, { ...recorded, ...simulateTrial(rig, p[i], d[i], window, scratch) });
  };
}

function inLanes(rig: Rig, { lanes, mount }: VectorKernel): SimulateMany {
  const mounted = mount(rig);
  const served = new Float64Array(lanes);
  // Passes already carried out on the current traces: each pass reads all lanes at once.
  const read = new Set<PassName>();
  const recordings = mounted.traces.map((trace, lane): Traced => {
    const carryOut = (pass: Pass): void => {
      if (read.has(pass.name)) return;
      read.add(pass.name);
      mounted.carryOut(pass);
    };
    return { trace, reader: { carryOut, sum: (place) => mounted.sum(lane, place) } };
  });
  const addServed = (sign: 1 | -1): void => {
    for (let lane = 0; lane < lanes; lane++) served[lane] += sign * mounted.get(lane, m.SERVED_SUM);
  };
  return ({ p, d }, window, onTrial) => {
    const segments = segmentsIn(rig, window);
    for (let first = 0; first < p.length; first += lanes) {
      const count = Math.min(lanes, p.length - first);
      mounted.restart();
      served.fill(0);
      read.clear();
      for (let lane = 0; lane < lanes; lane++) {
        // Spare lanes repeat the last point.
        const i = first + Math.min(lane, count - 1);
        mounted.set(lane, m.P_GAIN + rig.axis, p[i]);
        mounted.set(lane, m.D_GAIN + rig.axis, d[i] / rig.period);
      }
      for (const segment of segments) {
        if (segment.counted) addServed(-1);
        mounted.advance(segment);
        if (segment.counted) addServed(1);
      }
      for (let lane = 0; lane < count; lane++) {
        const sums = trialSums(rig, window, served[lane], (place) => mounted.get(lane, place));
        onTrial(first + lane, Object.assign(recordings[lane], sums));
      }
    }
  };
}

/** The trial's segments, and whether each lies in the window. */
const segmentsIn = (rig: Rig, window: Window) =>
  segmentsOf(rig.steps, rig.drive.disturbed, window, window.effort === true).map((segment) => ({
    ...segment,
    counted: isWithin(segment, window),
  }));

function trialSums(
  rig: Rig,
  { from, to, effort }: Window,
  served: number,
  state: (place: number) => number,
): TrialSums {
  const common = { fastest: state(m.FASTEST), limited: to - from - served };
  if (effort !== true) return { ...common, effort: null };
  const mean = state(m.COMMAND_SUM) / (to - from);
  const meanSquare = state(m.COMMAND_SQUARES) / (to - from);
  const commandRms = Math.sqrt(Math.max(0, meanSquare - mean * mean));
  return { ...common, effort: { heat: state(m.HEAT) / rig.shape.substeps, commandRms } };
}
