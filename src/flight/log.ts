// A log as the fit takes it: channels in SI, on the log's own rows.

export type LogAxis = "roll" | "pitch" | "yaw";

export const LOG_AXES: readonly LogAxis[] = ["roll", "pitch", "yaw"];

/** Rows from `from` to `to` (exclusive) between which no time is missing. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** What is odd about a log, and where: reported, never healed in silence. One for all rows that are odd in the same way. */
export interface Remark {
  readonly file: string;
  /** Line of the first such row, the header being 1; null where the whole column or log is meant. */
  readonly row: number | null;
  /** Name of the column as the header has it; null where whole rows are meant. */
  readonly column: string | null;
  readonly text: string;
}

/** Channels have one number per row; null where the log has no such column. A value that is missing is NaN. */
export interface FlightLog {
  /** Seconds, strictly rising, from the first row of the file. Where the clock jumps back, time goes on behind a cut. */
  readonly time: Float64Array;
  /** Body rates as the sensor gave them, rad/s, signs as the model has them: x forward, y left, z up. */
  readonly rate: Readonly<Record<LogAxis, Float64Array | null>>;
  /** Commanded body rates, rad/s. */
  readonly command: Readonly<Record<LogAxis, Float64Array | null>>;
  /** Duty of each rotor of the model, 0 to 1, by index in `rotors`. */
  readonly duty: readonly (Float64Array | null)[];
  /** Throttle command, 0 to 1. */
  readonly throttle: Float64Array | null;
  /** Pack voltage, V. */
  readonly voltage: Float64Array | null;
  /** Speed of each rotor, rad/s, by index in `rotors`. */
  readonly rotorSpeed: readonly (Float64Array | null)[];
  /** What of the log may be used: its `use`, cut at gaps and jumps of the clock. */
  readonly stretches: readonly Stretch[];
  /** Median step of time, s. */
  readonly step: number;
  readonly remarks: readonly Remark[];
}
