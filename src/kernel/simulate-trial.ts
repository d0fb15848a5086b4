// One trial: the rig of a variant simulated at one pair of gains; or many of them, in lanes where there is a vector kernel.
import type { Recording, Window } from "../response/answer.js";
import { type Pass, type PassName, type Traced, traceOf } from "../response/reader.js";
import { advance } from "./loop.js";
import * as m from "./memory.js";
import type { Rig } from "./rig.js";
import { countsOfKind, isWithin, segmentsOf } from "./segments.js";
import type { LoadedRig, VectorKernel } from "./vector.js";

/** Memory that a trial writes into; one per worker, reused for every trial of a rig. */
export interface Scratch {
  readonly state: Float64Array;
  readonly trace: Float64Array; // rad/s of the axis under test at each sampling instant
}

/** Results of a trial besides its trace. */
export type TrialSums = Omit<Recording, keyof Traced>;

/** P in fraction per (rad/s), D in fraction per (rad/s^2), one of each per trial; I in fraction per rad where it is not the model's. */
export interface Gains {
  readonly p: Float64Array;
  readonly d: Float64Array;
  readonly i?: Float64Array;
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

/** The gains of the axis under test as the loop takes them: place and value of each. */
function* gainsInto({ axis, rate, period }: Rig, p: number, d: number, i: number | undefined) {
  yield [m.P_GAIN + axis, p] as const;
  yield [m.D_GAIN + axis, d / period] as const;
  if (i !== undefined) yield [m.I_GAIN + axis, i / rate] as const;
}

/** Simulates `rig` at P (fraction per rad/s), D (fraction per rad/s^2) and, where it is not the model's, I (fraction per rad). */
export function simulateTrial(
  rig: Rig,
  p: number,
  d: number,
  window: Window,
  { state, trace }: Scratch,
  i?: number,
): TrialSums {
  state.set(rig.start);
  for (const [place, gain] of gainsInto(rig, p, d, i)) state[place] = gain;
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
  return ({ p, d, i }, window, onTrial) => {
    for (let at = 0; at < p.length; at++)
      onTrial(at, { ...recorded, ...simulateTrial(rig, p[at], d[at], window, scratch, i?.[at]) });
  };
}

function inLanes(rig: Rig, { mount }: VectorKernel): SimulateMany {
  const { wide, narrow } = mount(rig);
  const [many, few] = [wide, narrow].map((loaded) => ({ lanes: loaded.lanes, simulate: simulatingIn(loaded, rig) }));
  return (gains, window, onTrial) => {
    const { length } = gains.p;
    for (let first = 0; first < length; ) {
      const { lanes, simulate } = length - first > few.lanes ? many : few;
      const last = Math.min(first + lanes, length);
      simulate(gains, first, last, window, onTrial);
      first = last;
    }
  };
}

/** Simulates the trials from one place to before another, as many as there are lanes at most. */
type SimulateSome = (
  gains: Gains,
  from: number,
  to: number,
  window: Window,
  onTrial: Parameters<SimulateMany>[2],
) => void;

function simulatingIn(mounted: LoadedRig, rig: Rig): SimulateSome {
  const { lanes } = mounted;
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
  return ({ p, d, i }, from, to, window, onTrial) => {
    mounted.restart();
    served.fill(0);
    read.clear();
    for (let lane = 0; lane < lanes; lane++) {
      // Spare lanes repeat the last point.
      const at = Math.min(from + lane, to - 1);
      for (const [place, gain] of gainsInto(rig, p[at], d[at], i?.[at])) mounted.set(lane, place, gain);
    }
    for (const segment of segmentsIn(rig, window)) {
      if (segment.counted) addServed(-1);
      mounted.advance(segment);
      if (segment.counted) addServed(1);
    }
    for (let lane = 0; lane < to - from; lane++) {
      const sums = trialSums(rig, window, served[lane], (place) => mounted.get(lane, place));
      onTrial(from + lane, Object.assign(recordings[lane], sums));
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
