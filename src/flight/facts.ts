// All that is known of a log while remarks on it are made.
import type { Airframe } from "../airframe/airframe.js";
import type { Clock } from "./clock.js";
import type { LogDeclaration } from "./flight.js";
import type { LogRows } from "./log-rows.js";

export interface LogFacts {
  readonly file: string;
  readonly declaration: LogDeclaration;
  readonly airframe: Airframe;
  readonly rows: LogRows;
  readonly clock: Clock;
  /** By `channelsOf`, on the rows that are left. */
  readonly channels: readonly Float64Array[];
  /** Line in the file of a row that is left. */
  readonly line: (row: number) => number;
}
