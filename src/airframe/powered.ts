// The craft under given commands: what each rotor turns at and draws, and what the pack has left. Trim looks for the commands;
// where they are given, as in a worker, its linear algebra need not be loaded.
import { at } from "../base/at.js";
import type { Craft } from "./craft.js";
import { dutiesOf } from "./duty.js";
import { steadySpeed } from "./motor.js";

export interface Trim {
  readonly throttle: number; // collective command, fraction: the mean duty where nothing stands between
  /** Standing roll, pitch and yaw command that keeps the torques at zero, fraction. */
  readonly commands: readonly [number, number, number];
  readonly duties: readonly number[];
  readonly speeds: readonly number[]; // rad/s
  readonly currents: readonly number[]; // A, motor side
  readonly volts: number; // pack under load
}

/** What each rotor is commanded, fraction: the collective and its shares of the axis commands. */
export function rotorCommands(
  { arms, mixer }: Craft,
  { throttle, commands }: Pick<Trim, "throttle" | "commands">,
): number[] {
  const [roll, pitch, yaw] = commands;
  return arms.map((_, i) => throttle + at(mixer.roll, i) * roll + at(mixer.pitch, i) * pitch + at(mixer.yaw, i) * yaw);
}

/** Steady speeds and the loaded pack voltage at given commands. */
export function powered(craft: Craft, throttle: number, commands: readonly number[]): Trim {
  const { airframe } = craft;
  const [roll = 0, pitch = 0, yaw = 0] = commands;
  const given = rotorCommands(craft, { throttle, commands: [roll, pitch, yaw] });
  const { constant, resistance } = airframe.motor;
  const speedAt = (duty: number, volts: number) => steadySpeed(duty * volts, airframe.motor, craft.torqueStatic);
  const currentAt = (duty: number, speed: number, volts: number) => (duty * volts - constant * speed) / resistance;
  const dutiesAt = dutiesOf(airframe, throttle, given);
  const excess = (volts: number): number => {
    const duties = dutiesAt(volts);
    let drawn = 0;
    for (const duty of duties) drawn += duty * currentAt(duty, speedAt(duty, volts), volts);
    return craft.emf - airframe.pack.resistance * drawn - volts;
  };
  // More volts draw more, unless the pack is made up for: away from the root every step of the bisection is clear beforehand.
  const root = airframe.controller.packCompensation === undefined ? rootBelow(craft.emf, excess) : null;
  const isLow = (volts: number) =>
    root !== null && Math.abs(volts - root.at) > root.within ? volts < root.at : excess(volts) > 0;
  let low = 0;
  let high = craft.emf;
  while (high - low > 1e-13 * craft.emf) {
    const middle = 0.5 * (low + high);
    if (middle === low || middle === high) break;
    if (isLow(middle)) low = middle;
    else high = middle;
  }
  const duties = dutiesAt(high);
  const speeds = duties.map((duty) => speedAt(duty, high));
  const currents = duties.map((duty, i) => currentAt(duty, at(speeds, i), high));
  return { throttle, commands: [roll, pitch, yaw], duties, speeds, currents, volts: high };
}

/** Share of `top` within which a root is certain to lie: more than rounding moves it. */
const CERTAIN = 1e-12;

/** The root of a falling function, not above `top`, by secants; null where they do not come to it. */
function rootBelow(top: number, f: (x: number) => number): { readonly at: number; readonly within: number } | null {
  const within = CERTAIN * top;
  let [before, atBefore] = [top, f(top)];
  let here = top + atBefore;
  for (let round = 0; round < 10 && Math.abs(here - before) > 0.1 * within; round++) {
    const atHere = f(here);
    const next = here - (atHere * (here - before)) / (atHere - atBefore);
    [before, atBefore, here] = [here, atHere, next];
  }
  return f(here - within) > 0 && f(here + within) <= 0 ? { at: here, within } : null;
}

/** Rotor speed (rad/s) and current (A) of all rotors at one duty without a torque demand, as a throttle schedule needs it. */
export function levelAt(craft: Craft, duty: number): { readonly speed: number; readonly current: number } {
  const { speeds, currents } = powered(craft, duty, [0, 0, 0]);
  return { speed: at(speeds, 0), current: at(currents, 0) };
}
