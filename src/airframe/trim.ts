// Steady flight: the duties, speeds and pack voltage at which no torque is left, at a given collective
// duty or at the one that carries the weight. Newton's method on the same equations the loop integrates.

import { LuDecomposition, Matrix } from "ml-matrix";
import { at } from "../base/at.js";
import type { Airframe } from "./airframe.js";
import { type Craft, craftUnder, GRAVITY, STANDARD_DAY } from "./craft.js";
import { idleCommand } from "./duty.js";
import { powered, type Trim } from "./powered.js";

/** Trim at a collective duty; the craft may climb or sink. */
export function trimAt(craft: Craft, throttle: number): Trim {
  const commands = newton([0, 0, 0], (c) => torques(craft, powered(craft, throttle, c)));
  return powered(craft, throttle, commands);
}

/** Trim in hover, or null where full throttle does not carry the weight. */
export function hoverTrim(craft: Craft): Trim | null {
  const weight = craft.mass * GRAVITY;
  if (thrust(craft, trimAt(craft, 1)) <= weight) return null;
  let low = idleCommand(craft.airframe);
  let high = 1;
  while (high - low > 1e-12) {
    const middle = 0.5 * (low + high);
    if (thrust(craft, trimAt(craft, middle)) < weight) low = middle;
    else high = middle;
  }
  return trimAt(craft, high);
}

/** Share of full throttle to which a hover is searched from a guess. */
const FROM_GUESS = 1e-10;

/** As `hoverTrim`, to 1e-10 of full throttle, from a throttle near it: a fifth of the work, for many craft that are alike. */
export function hoverTrimFrom(craft: Craft, guess: number): Trim | null {
  const weight = craft.mass * GRAVITY;
  const excess = (throttle: number) => thrust(craft, trimAt(craft, throttle)) - weight;
  if (excess(1) <= 0) return null;
  let [low, high] = [idleCommand(craft.airframe), 1];
  let [before, here] = [Math.min(1, guess * 1.02), guess];
  let atBefore = excess(before);
  for (let round = 0; round < 60 && high - low > FROM_GUESS; round++) {
    const atHere = excess(here);
    if (atHere < 0) low = Math.max(low, here);
    else high = Math.min(high, here);
    // Secant, or bisection where it leaves the bracket.
    const next = here - (atHere * (here - before)) / (atHere - atBefore);
    [before, atBefore] = [here, atHere];
    here = next > low && next < high ? next : 0.5 * (low + high);
    if (Math.abs(here - before) < FROM_GUESS) break;
  }
  return trimAt(craft, here);
}

/** One plain sentence where the craft cannot hover on a full pack at sea level, else null. */
export function hoverFault(airframe: Airframe): string | null {
  const craft = craftUnder(airframe, STANDARD_DAY);
  const most = thrust(craft, trimAt(craft, 1)) / GRAVITY;
  if (most > craft.mass) return null;
  return `full throttle lifts ${(most * 1000).toFixed(0)} g, the craft weighs ${(craft.mass * 1000).toFixed(0)} g`;
}

const thrust = (craft: Craft, trim: Trim): number =>
  trim.speeds.reduce((sum, speed) => sum + craft.thrustStatic * speed * speed, 0);

/** Roll, pitch and yaw torque in steady flight, N m. */
function torques(craft: Craft, trim: Trim): number[] {
  let [roll, pitch, yaw] = [0, 0, 0];
  for (const [i, [x, y]] of craft.arms.entries()) {
    const squared = at(trim.speeds, i) * at(trim.speeds, i);
    roll += y * craft.thrustStatic * squared;
    pitch -= x * craft.thrustStatic * squared;
    yaw -= at(craft.spins, i) * craft.torqueStatic * squared;
  }
  return [roll, pitch, yaw];
}

function newton(start: readonly number[], f: (x: readonly number[]) => number[]): number[] {
  let x = [...start];
  for (let round = 0; round < 20; round++) {
    const value = f(x);
    if (value.every((torque) => torque === 0)) break;
    const jacobian = Matrix.zeros(value.length, x.length);
    for (let column = 0; column < x.length; column++) {
      const shifted = f(x.map((v, k) => (k === column ? v + 1e-6 : v)));
      for (const [row, torque] of value.entries()) jacobian.set(row, column, (at(shifted, row) - torque) / 1e-6);
    }
    const factors = new LuDecomposition(jacobian);
    // Rotors that stand still answer no command: there is nothing to trim with.
    if (factors.isSingular()) break;
    const step = factors.solve(Matrix.columnVector(value)).getColumn(0);
    x = x.map((v, k) => v - at(step, k));
    if (Math.max(...step.map(Math.abs)) < 1e-13) break;
  }
  return x;
}
