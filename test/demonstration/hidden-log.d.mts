import type { Airframe } from "../../src/airframe/airframe.js";
import type { SimulatedLog } from "./simulate-log.mjs";

/** What the hidden craft (or another) would have logged on this flight, in full precision. */
export function hiddenLog(airframe?: Airframe): SimulatedLog;
/** The shipped file's text. */
export function hiddenLogText(): string;
