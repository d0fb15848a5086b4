// The poles of the whole sampled loop, all three axes closed: the slow, independent check of the frequency responses.
import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import type { AxisGains } from "../../src/airframe/airframe.js";
import type { Craft } from "../../src/airframe/craft.js";
import { type Stage, stagesOf } from "../../src/airframe/filter.js";
import { gainFactorsAt } from "../../src/airframe/gain-schedule.js";
import { delayOf } from "../../src/airframe/latency.js";
import { gyroChainAt, slopeChainAt } from "../../src/airframe/moving-filter.js";
import type { Trim } from "../../src/airframe/powered.js";
import type { HeldPlant } from "../../src/theory/hold.js";
import { AXES, type GainsByAxis, sampledPlant } from "../../src/theory/plant.js";

export interface Pole {
  readonly re: number;
  readonly im: number;
}

/** Poles in z of the loop under these gains; stable where all lie inside the unit circle. */
export function closedLoopPoles(craft: Craft, trim: Trim, gains: GainsByAxis): Pole[] {
  const loop = linearLoop(craft, trim, gains);
  const columns = Array.from({ length: loop.size }, (_, k) => {
    const state = new Float64Array(loop.size);
    state[k] = 1;
    return step(loop, state);
  });
  const { realEigenvalues, imaginaryEigenvalues } = new EigenvalueDecomposition(new Matrix(columns).transpose());
  return realEigenvalues.map((re, k) => ({ re, im: imaginaryEigenvalues[k] }));
}

/** Largest distance of a pole from the origin: under 1 the loop is stable. */
export const spectralRadius = (poles: readonly Pole[]): number =>
  poles.reduce((most, { re, im }) => Math.max(most, Math.sqrt(re * re + im * im)), 0);

/** Of the loop of one axis alone, how many poles lie outside the unit circle while that loop is broken. */
export function openLoopUnstable(craft: Craft, trim: Trim, axis: keyof GainsByAxis, holding: GainsByAxis): number {
  const poles = closedLoopPoles(craft, trim, { ...holding, [axis]: { p: 0, i: 0, d: 0 } });
  return poles.filter(({ re, im }) => re * re + im * im > 1 + ROUNDING).length;
}

/**
 * A broken axis keeps poles at 1 (its unused integral), which the eigenvalues of a large matrix miss by up to 1e-7; a growth
 * slower than this a control period is none that any flight shows.
 */
const ROUNDING = 1e-6;

interface LinearLoop {
  readonly plant: HeldPlant;
  readonly delay: number;
  readonly rate: number;
  readonly gyro: readonly Stage[];
  readonly slope: readonly Stage[];
  readonly gains: readonly AxisGains[];
  /** Plant states, commands on their way, then per axis: integral, filtered rate before, filter memories. */
  readonly size: number;
}

function linearLoop(craft: Craft, trim: Trim, gains: GainsByAxis): LinearLoop {
  const { controller } = craft.airframe;
  const plant = sampledPlant(craft, trim);
  const delay = delayOf(craft.airframe).steps;
  const [gyro, slope] = [gyroChainAt, slopeChainAt].map((chain) =>
    stagesOf(chain(craft.airframe, trim), craft.airframe),
  );
  const size = plant.a.rows + 3 * (delay + 2 + 2 * (gyro.length + slope.length));
  const factors = gainFactorsAt(craft.airframe, trim.throttle);
  const used = AXES.map((axis) => {
    const { p, i, d } = gains[axis];
    return { p: p * factors.p, i: i * factors.i, d: axis === "yaw" ? 0 : d * factors.d };
  });
  return { plant, delay, rate: controller.rate, gyro, slope, gains: used, size };
}

/** One control period without command or disturbance. */
function step(loop: LinearLoop, state: Float64Array): number[] {
  const { plant, delay } = loop;
  const states = plant.a.rows;
  const perAxis = (loop.size - states - 3 * delay) / 3;
  const turned = AXES.map((_, axis) => {
    const from = states + 3 * delay + axis * perAxis;
    return control(loop, loop.gains[axis], state[states - 3 + axis], state.subarray(from, from + perAxis));
  });
  const line = [...turned.map(({ command }) => command), ...state.subarray(states, states + 3 * delay)];
  const now = Matrix.columnVector([...state.subarray(0, states)]);
  const arriving = Matrix.columnVector(line.slice(3 * delay));
  const next = plant.a.mmul(now).add(plant.b.mmul(arriving));
  if (plant.newer !== null) next.add(plant.newer.mmul(Matrix.columnVector(line.slice(3 * delay - 3, 3 * delay))));
  return [...next.getColumn(0), ...line.slice(0, 3 * delay), ...turned.flatMap(({ memory }) => memory)];
}

/** The axis controller on one measured rate: its command and what it remembers. */
function control(loop: LinearLoop, gains: AxisGains, rate: number, memory: Float64Array) {
  const [integral, before] = memory;
  const split = 2 + 2 * loop.gyro.length;
  const gyro = filtered(loop.gyro, rate, memory.subarray(2, split));
  const gathered = integral - (gains.i / loop.rate) * gyro.out;
  const slope = filtered(loop.slope, (gyro.out - before) * loop.rate, memory.subarray(split));
  return {
    command: gathered - gains.p * gyro.out - gains.d * slope.out,
    memory: [gathered, gyro.out, ...gyro.memory, ...slope.memory],
  };
}

/** A chain of stages in transposed direct form, two memories each. */
function filtered(stages: readonly Stage[], input: number, memory: Float64Array): { out: number; memory: number[] } {
  let out = input;
  const next = stages.flatMap(([b0, b1, b2, a1, a2], s) => {
    const x = out;
    out = b0 * x + memory[2 * s];
    return [b1 * x - a1 * out + memory[2 * s + 1], b2 * x - a2 * out];
  });
  return { out, memory: next };
}
