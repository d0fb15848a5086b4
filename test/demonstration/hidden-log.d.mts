import type { SimulatedLog } from "./simulate-log.mjs";

/** What the hidden craft would have logged, in full precision. */
export function hiddenLog(): SimulatedLog;
/** The shipped file's text. */
export function hiddenLogText(): string;
