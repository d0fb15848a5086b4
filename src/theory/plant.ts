// What an axis command does to that axis's rate while the other axes are controlled by their own loops.
import { Matrix } from "ml-matrix";
import type { AxisGains } from "../airframe/airframe.js";
import type { Craft } from "../airframe/craft.js";
import { dutySlope } from "../airframe/duty.js";
import { type Delay, delayOf } from "../airframe/latency.js";
import type { WorkingPoint } from "../airframe/moving-filter.js";
import { rotorCommands, type Trim } from "../airframe/powered.js";
import { at } from "../base/at.js";
import { controllerPieces, wholeDelay } from "./controller.js";
import { addProduct, type ComplexArray, complexArray, multiplyBy, product, weighted } from "./frequency.js";
import { type HeldPlant, holdOfTwo } from "./hold.js";
import { linearPlant } from "./linear.js";
import { oncePer } from "./once.js";
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
  const mixer = dutyPerCommand(craft, trim);
  return { a, b: b.mmul(mixer), newer: newer?.mmul(mixer) ?? null };
}

/** Each rotor's duty per unit of roll, pitch and yaw command at a trim: the mixer, and what shapes duties behind it. */
export function dutyPerCommand(craft: Craft, trim: Trim): Matrix {
  const { mixer, airframe } = craft;
  const rows = AXES.map((axis) => [...mixer[axis]]);
  const { dutyTable, packCompensation } = airframe.controller;
  if (dutyTable === undefined && packCompensation === undefined) return new Matrix(rows).transpose();
  const slopes = rotorCommands(craft, trim).map((command) => dutySlope(airframe, command, trim.volts));
  return new Matrix(rows.map((row) => row.map((share, i) => share * at(slopes, i)))).transpose();
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

/** As openPlant, computed once for each array of frequencies: the physics is the same for every axis and every holding. */
export const sharedOpenPlant: typeof openPlant = (craft, trim, period = exactPeriod) => openPlants(craft)(trim)(period);

const openPlants = oncePer((craft: Craft) =>
  oncePer((trim: Trim) => oncePer((period: Period) => oncePer(openPlant(craft, trim, period)))),
);

/** Of these states against commands that are late, at each frequency (rad/s), sampled at a rate (Hz): [state][command]. */
export function delayedResponse(
  { a, b, newer }: HeldPlant,
  { steps }: Pick<Delay, "steps">,
  states: readonly number[],
  frequencies: Float64Array,
  rate: number,
): ComplexArray[][] {
  const late = wholeDelay(steps, rate, frequencies);
  if (newer === null) {
    const response = stateResponse(a, b, states, frequencies, 1 / rate);
    for (const g of response.flat()) multiplyBy(g, late);
    return response;
  }
  const lessLate = wholeDelay(steps - 1, rate, frequencies);
  const both = Matrix.zeros(b.rows, 2 * b.columns)
    .setSubMatrix(b, 0, 0)
    .setSubMatrix(newer, 0, b.columns);
  return stateResponse(a, both, states, frequencies, 1 / rate).map((row) => {
    const [older, newest] = [row.slice(0, b.columns), row.slice(b.columns)];
    for (const [k, g] of older.entries()) {
      multiplyBy(g, late);
      addProduct(g, at(newest, k), lessLate);
    }
    return older;
  });
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
  const open = sharedOpenPlant(craft, trim, period);
  return (frequencies) => closedPlant(craft, trim, open(frequencies), axis, holding, frequencies);
}

/** The same from an open plant on these frequencies. */
export function closedPlant(
  craft: Craft,
  trim: WorkingPoint,
  open: OpenPlant,
  axis: AxisName,
  holding: GainsByAxis,
  frequencies: Float64Array,
): ComplexArray {
  const own = AXES.indexOf(axis);
  const others = AXES.map((_, k) => k).filter((k) => k !== own);
  const feedback = others.map((k) => axisController(craft, trim, AXES[k], holding, frequencies));
  return closeAxis(open, own, others, feedback);
}

function axisController(
  craft: Craft,
  point: WorkingPoint,
  axis: AxisName,
  holding: GainsByAxis,
  frequencies: Float64Array,
): ComplexArray {
  const pieces = controllerPieces(craft.airframe, point, frequencies);
  const { p, i, d } = holding[axis];
  return weighted([p, pieces.p], [i, product(pieces.p, pieces.sum)], [axis === "yaw" ? 0 : d, pieces.d]);
}

/**
 * g - gK (1 + GK)^-1 g with two loops K closed: Cramer's rule on the 2 x 2 matrix 1 + GK. Written out: it is computed for
 * every frequency of every loop, and arrays for what lies between cost more than the numbers.
 */
function closeAxis(
  open: OpenPlant,
  own: number,
  [first, second]: readonly number[],
  [one, two]: readonly ComplexArray[],
): ComplexArray {
  const out = complexArray(one.re.length);
  const [g11, g12, g1] = [open[first][first], open[first][second], open[first][own]];
  const [g21, g22, g2] = [open[second][first], open[second][second], open[second][own]];
  const [gFirst, gSecond, g] = [open[own][first], open[own][second], open[own][own]];
  for (let k = 0; k < out.re.length; k++) {
    const [kRe, kIm, lRe, lIm] = [one.re[k], one.im[k], two.re[k], two.im[k]];
    const [toFirstRe, toFirstIm, toSecondRe, toSecondIm] = [g1.re[k], g1.im[k], g2.re[k], g2.im[k]];
    const m11Re = 1 + (g11.re[k] * kRe - g11.im[k] * kIm);
    const m11Im = g11.re[k] * kIm + g11.im[k] * kRe;
    const m12Re = g12.re[k] * lRe - g12.im[k] * lIm;
    const m12Im = g12.re[k] * lIm + g12.im[k] * lRe;
    const m21Re = g21.re[k] * kRe - g21.im[k] * kIm;
    const m21Im = g21.re[k] * kIm + g21.im[k] * kRe;
    const m22Re = 1 + (g22.re[k] * lRe - g22.im[k] * lIm);
    const m22Im = g22.re[k] * lIm + g22.im[k] * lRe;
    const detRe = m11Re * m22Re - m11Im * m22Im - (m12Re * m21Re - m12Im * m21Im);
    const detIm = m11Re * m22Im + m11Im * m22Re - (m12Re * m21Im + m12Im * m21Re);
    const firstRe = m22Re * toFirstRe - m22Im * toFirstIm - (m12Re * toSecondRe - m12Im * toSecondIm);
    const firstIm = m22Re * toFirstIm + m22Im * toFirstRe - (m12Re * toSecondIm + m12Im * toSecondRe);
    const secondRe = m11Re * toSecondRe - m11Im * toSecondIm - (m21Re * toFirstRe - m21Im * toFirstIm);
    const secondIm = m11Re * toSecondIm + m11Im * toSecondRe - (m21Re * toFirstIm + m21Im * toFirstRe);
    const byFirstRe = gFirst.re[k] * kRe - gFirst.im[k] * kIm;
    const byFirstIm = gFirst.re[k] * kIm + gFirst.im[k] * kRe;
    const bySecondRe = gSecond.re[k] * lRe - gSecond.im[k] * lIm;
    const bySecondIm = gSecond.re[k] * lIm + gSecond.im[k] * lRe;
    const backRe = byFirstRe * firstRe - byFirstIm * firstIm + (bySecondRe * secondRe - bySecondIm * secondIm);
    const backIm = byFirstRe * firstIm + byFirstIm * firstRe + (bySecondRe * secondIm + bySecondIm * secondRe);
    const square = detRe * detRe + detIm * detIm;
    out.re[k] = g.re[k] - (backRe * detRe + backIm * detIm) / square;
    out.im[k] = g.im[k] - (backIm * detRe - backRe * detIm) / square;
  }
  return out;
}
