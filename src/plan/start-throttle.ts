// Where a script starts.
import type { Script } from "../sweep/sweep.js";
import { dutyOf } from "./duty.js";

/** The duty at which a script starts, at a swept throttle level. */
export const startThrottle = (script: Script, level: number, idle: number): number =>
  dutyOf(script.throttle[0]?.[1] ?? { kind: "level", plus: 0 }, level, idle);
