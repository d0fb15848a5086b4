// What an axis command does to that axis's rate while the other axes are controlled by their own loops.
import { Matrix } from "ml-matrix";
import type { AxisGains } from "../airframe/airframe.js";
import type { Craft } from "../airframe/craft.js";
import { type Delay, delayOf } from "../airframe/latency.js";
import type { Trim } from "../airframe/trim.js";
import { at } from "../base/at.js";
import { controllerPieces, wholeDelay } from "./controller.js";
import { type ComplexArray, complexArray, product, quotient, weighted } from "./frequency.js";
import { type HeldPlant, holdOfTwo } from "./hold.js";
import { linearPlant } from "./linear.js";
import type { Response } from "./refine.js";
import { stateResponse } from "./response.js";

export type AxisName = "roll" | "pitch" | "yaw";
export const AXES: readonly AxisName[] = Object.freeze(["roll", "pitch", "yaw"]);

/** Gains of all three axes. Not read: those of the axis whose loop is broken, and D of yaw, which has none. */
export type GainsByAxis = Readonly<Record<AxisName, AxisGains>>;

/** Rotors and body over one control period, in which the newer duties take over where latency says; the body rates are the last states. */
export type Period = (craft: Craft, trim: Trim) => HeldPlant;

/** Exactly, by zero-order hold. */
export const exactPeriod: Period = (craft, trim) =>
  holdOfTwo(linearPlant(craft, trim), 1 / craft.airframe.controller.rate, delayOf(craft.airframe).newerShare);

/** The period with roll, pitch and yaw command (fraction) as inputs. */
export function sampledPlant(craft: Craft, trim: Trim, period: Period = exactPeriod): HeldPlant {
  const { a, b, newer } = period(craft, trim);
  const mixer = new Matrix(AXES.map((axis) => [...craft.mixer[axis]])).transpose();
  return { a, b: b.mmul(mixer), newer: newer?.mmul(mixer) ?? null };
}

/** Rate (rad/s) of each axis per unit of each command, [rate][command], latency included, while no loop is closed. */
export type OpenPlant = readonly (readonly ComplexArray[])[];

/** The open plant at each of these frequencies (rad/s). */
export function openPlant(
  craft: Craft,
  trim: Trim,
  period: Period = exactPeriod,
): (frequencies: Float64Array) => OpenPlant {
  const { rate } = craft.airframe.controller;
  const plant = sampledPlant(craft, trim, period);
  const rates = AXES.map((_, k) => plant.a.rows - AXES.length + k);
  return (frequencies) => delayedResponse(plant, delayOf(craft.airframe), rates, frequencies, rate);
}

/** Of these states against commands that are late, at each frequency (rad/s), sampled at a rate (Hz): [state][command]. */
export function delayedResponse(
  { a, b, newer }: HeldPlant,
  { steps }: Pick<Delay, "steps">,
  states: readonly number[],
  frequencies: Float64Array,
  rate: number,
): ComplexArray[][] {
  const late = wholeDelay(steps, rate, frequencies);
  if (newer === null)
    return stateResponse(a, b, states, frequencies, 1 / rate).map((row) => row.map((g) => product(g, late)));
  const lessLate = wholeDelay(steps - 1, rate, frequencies);
  const both = Matrix.zeros(b.rows, 2 * b.columns)
    .setSubMatrix(b, 0, 0)
    .setSubMatrix(newer, 0, b.columns);
  return stateResponse(a, both, states, frequencies, 1 / rate).map((row) =>
    row
      .slice(0, b.columns)
      .map((g, k) => weighted([1, product(g, late)], [1, product(at(row, b.columns + k), lessLate)])),
  );
}

/**
 * Rate (rad/s) of `axis` per unit of its command at each frequency (rad/s), latency included, with the other axes
 * closed by `holding`. The exact period differs from the loop's own second-order step by terms of (w T)^2, about 1e-4
 * at 50 Hz and 4 kHz. Holds while no command or duty limit is met and every rotor turns.
 */
export function plantResponse(
  craft: Craft,
  trim: Trim,
  axis: AxisName,
  holding: GainsByAxis,
  period: Period = exactPeriod,
): Response {
  const open = openPlant(craft, trim, period);
  return (frequencies) => closedPlant(craft, trim, open(frequencies), axis, holding, frequencies);
}

/** The same from an open plant on these frequencies. */
export function closedPlant(
  craft: Craft,
  trim: Pick<Trim, "throttle">,
  open: OpenPlant,
  axis: AxisName,
  holding: GainsByAxis,
  frequencies: Float64Array,
): ComplexArray {
  const own = AXES.indexOf(axis);
  const others = AXES.map((_, k) => k).filter((k) => k !== own);
  const feedback = others.map((k) => axisController(craft, trim.throttle, AXES[k], holding, frequencies));
  return closeAxis(open, own, others, feedback);
}

function axisController(
  craft: Craft,
  throttle: number,
  axis: AxisName,
  holding: GainsByAxis,
  frequencies: Float64Array,
): ComplexArray {
  const pieces = controllerPieces(craft.airframe, throttle, frequencies);
  const { p, i, d } = holding[axis];
  return weighted([p, pieces.p], [i, product(pieces.p, pieces.sum)], [axis === "yaw" ? 0 : d, pieces.d]);
}

/** g - gK (1 + GK)^-1 g with two loops K closed: Cramer's rule on the 2 x 2 matrix 1 + GK. */
function closeAxis(
  open: OpenPlant,
  own: number,
  [first, second]: readonly number[],
  [one, two]: readonly ComplexArray[],
): ComplexArray {
  const unit = complexArray(one.re.length);
  unit.re.fill(1);
  const m11 = weighted([1, unit], [1, product(open[first][first], one)]);
  const m22 = weighted([1, unit], [1, product(open[second][second], two)]);
  const m12 = product(open[first][second], two);
  const m21 = product(open[second][first], one);
  const determinant = weighted([1, product(m11, m22)], [-1, product(m12, m21)]);
  const [toFirst, toSecond] = [open[first][own], open[second][own]];
  const atFirst = weighted([1, product(m22, toFirst)], [-1, product(m12, toSecond)]);
  const atSecond = weighted([1, product(m11, toSecond)], [-1, product(m21, toFirst)]);
  const back = weighted(
    [1, product(product(open[own][first], one), atFirst)],
    [1, product(product(open[own][second], two), atSecond)],
  );
  return weighted([1, open[own][own]], [-1, quotient(back, determinant)]);
}
