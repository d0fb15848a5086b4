// What is possible but unlikely in a model. Nothing here is refused, and thresholds are wide: a warning that cries wolf is read once.
import type { Airframe } from "../airframe/airframe.js";
import type { Doubt, Figures } from "./doubt.js";
import type { SheetWarning } from "./format.js";
import { highUp, hoverThrottle, loading, oddInertia, offCentre, tall, thrust } from "./frame-doubts.js";
import { latency, noise, slowFilters, vibration } from "./loop-doubts.js";
import { bell, lag, losses, merit, propellerInertia, sag, tipSpeed, torqueArm } from "./rotor-doubts.js";

/** The key to look at, and the doubt; in the order of the model file. */
const RULES: readonly (readonly [key: string, doubt: Doubt])[] = [
  ["frame", offCentre],
  ["frame", highUp],
  ["frame", oddInertia],
  ["frame", tall],
  ["frame", loading],
  ["frame", thrust],
  ["frame", hoverThrottle],
  ["propeller.ct", merit],
  ["propeller.cp", torqueArm],
  ["propeller.inertia", propellerInertia],
  ["motor.kv", tipSpeed],
  ["motor.resistance", losses],
  ["motor.bell_inertia", bell],
  ["motor", lag],
  ["pack.resistance", sag],
  ["sensing.noise", noise],
  ["sensing.low_pass", slowFilters("gyro")],
  ["sensing.vibration", vibration],
  ["controller.latency", latency],
  ["controller.rate_derivative_filter", slowFilters("d")],
];

export const warningsOf = (airframe: Airframe, sheet: Figures): SheetWarning[] =>
  RULES.flatMap(([key, doubt]) => {
    const text = doubt(airframe, sheet);
    return text === null ? [] : [{ key, text }];
  });
