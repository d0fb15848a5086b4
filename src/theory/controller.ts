// The axis controller in the z-domain, part by part as the loop computes it.
import type { Airframe, GainFactors } from "../airframe/airframe.js";
import { type Stage, stagesOf } from "../airframe/filter.js";
import { gainFactorsAt } from "../airframe/gain-schedule.js";
import { gyroChainAt, slopeChainAt, type WorkingPoint } from "../airframe/moving-filter.js";
import { cos, sin } from "../base/elementary.js";
import { type ComplexArray, complexArray, product, sampled, weighted } from "./frequency.js";
import { oncePer, recentBy } from "./once.js";

/** What a unit of each gain makes of the measured rate, signs as for error = command - rate. */
export interface ControllerPieces {
  readonly p: ComplexArray;
  readonly d: ComplexArray;
  /** What the integral makes of P's error: a unit of I acts as p times sum. */
  readonly sum: ComplexArray;
  /** What a schedule makes of P: the command meets it too. */
  readonly scale: number;
}

/**
 * P on the filtered rate; I sums it up, this period's included; D takes its difference through a chain of its own. On one
 * array of frequencies the same pieces for all airframes with these filters and, at this working point, these factors of their
 * gains. Filters that move stand where the working point has them.
 */
export function controllerPieces(airframe: Airframe, point: WorkingPoint, frequencies: Float64Array): ControllerPieces {
  const { rate, gainSchedule } = airframe.controller;
  const chains = [gyroChainAt, slopeChainAt].map((chainAt) => stagesOf(chainAt(airframe, point), airframe));
  const factors = gainSchedule === undefined ? null : gainFactorsAt(airframe, point.throttle);
  const key = `${rate} ${chains.map((stages) => stages.join(";")).join("|")}`;
  const keyed = factors === null ? key : `${key} ${factors.p} ${factors.i} ${factors.d}`;
  return piecesOn(frequencies)(keyed, () => {
    const [p, through] = chains.map((stages) => chainResponse(stages, rate, frequencies));
    const slope = product(difference(rate, frequencies), through);
    const pieces = { p, d: product(slope, p), sum: summation(rate, frequencies), scale: 1 };
    return factors === null ? pieces : scheduled(pieces, factors);
  });
}

const scheduled = ({ p, d, sum }: ControllerPieces, factors: GainFactors): ControllerPieces => ({
  p: weighted([factors.p, p]),
  d: weighted([factors.d, d]),
  sum: weighted([factors.i / factors.p, sum]),
  scale: factors.p,
});

/** What becomes of a commanded rate on its way into an axis's loop. */
export interface CommandPath {
  /** What it passes first. */
  readonly lowPass: ComplexArray;
  /** What is fed forward of it: fraction per (rad/s). */
  readonly feedForward: ComplexArray;
}

/** Null where commands act as they come and none is fed forward. */
export function commandPath(
  { controller }: Airframe,
  axis: "roll" | "pitch" | "yaw",
  frequencies: Float64Array,
): CommandPath | null {
  const { rate, commandLowPass, feedForward } = controller;
  if (commandLowPass === undefined && feedForward === undefined) return null;
  const { rate: ofRate, slope } = feedForward?.[axis] ?? { rate: 0, slope: 0 };
  const stages = stagesOf(commandLowPass ?? [], { controller });
  const one = sampled(frequencies, () => [1, 0]);
  return {
    lowPass: chainResponse(stages, rate, frequencies),
    feedForward: weighted([ofRate, one], [slope, difference(rate, frequencies)]),
  };
}

/** Sets of filters that are kept on each array of frequencies. */
const FILTERS = 8;
const piecesOn = oncePer((_: Float64Array) => recentBy<ControllerPieces>(FILTERS));

/** The textbook controller: P + I/s + D s, without filters or sampling. */
export const idealController = (frequencies: Float64Array): ControllerPieces => ({
  p: sampled(frequencies, () => [1, 0]),
  d: sampled(frequencies, (w) => [0, w]),
  sum: sampled(frequencies, (w) => [0, -1 / w]),
  scale: 1,
});

/** The sampled controller without filters, at a rate in Hz. */
export const sampledController = (rate: number, frequencies: Float64Array): ControllerPieces => ({
  p: sampled(frequencies, () => [1, 0]),
  d: difference(rate, frequencies),
  sum: summation(rate, frequencies),
  scale: 1,
});

/** (1 - 1/z) rate, the backward difference. */
const difference = (rate: number, frequencies: Float64Array): ComplexArray =>
  sampled(frequencies, (w) => {
    // 1 - e^(-jx) = 2 sin^2(x/2) + j sin x, which keeps its digits where x is small
    const half = sin(w / rate / 2);
    return [2 * half * half * rate, sin(w / rate) * rate];
  });

/** 1/(rate (1 - 1/z)), the sum that includes this period: 1/2 - j cot(x/2)/2. */
const summation = (rate: number, frequencies: Float64Array): ComplexArray =>
  sampled(frequencies, (w) => [0.5 / rate, (-0.5 * cos(w / rate / 2)) / sin(w / rate / 2) / rate]);

/** Whole periods of delay: z^-steps; the same array for all loops on these frequencies. */
export const wholeDelay = (steps: number, rate: number, frequencies: Float64Array): ComplexArray =>
  delaysOn(frequencies)(`${steps} ${rate}`, () =>
    sampled(frequencies, (w) => [cos((steps * w) / rate), -sin((steps * w) / rate)]),
  );

const DELAYS = 8; // kept on each array of frequencies
const delaysOn = oncePer((_: Float64Array) => recentBy<ComplexArray>(DELAYS));

function chainResponse(stages: readonly Stage[], rate: number, frequencies: Float64Array): ComplexArray {
  const through = complexArray(frequencies.length);
  through.re.fill(1);
  return stages.map((stage) => stageResponse(stage, rate, frequencies)).reduce(product, through);
}

function stageResponse([b0, b1, b2, a1, a2]: Stage, rate: number, frequencies: Float64Array): ComplexArray {
  return sampled(frequencies, (w) => {
    const x = w / rate;
    const [c1, s1, c2, s2] = [cos(x), sin(x), cos(2 * x), sin(2 * x)];
    const [nRe, nIm] = [b0 + b1 * c1 + b2 * c2, -(b1 * s1 + b2 * s2)];
    const [dRe, dIm] = [1 + a1 * c1 + a2 * c2, -(a1 * s1 + a2 * s2)];
    const square = dRe * dRe + dIm * dIm;
    return [(nRe * dRe + nIm * dIm) / square, (nIm * dRe - nRe * dIm) / square];
  });
}
