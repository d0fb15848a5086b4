// A log as the fit takes it: channels in SI, on the log's own rows.
import type { Path } from "../base/problem.js";

export type LogAxis = "roll" | "pitch" | "yaw";

/** Rows from `from` to `to` (exclusive) between which no time is missing. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** What is odd about a log, and where: reported, never healed in silence. */
export interface Remark {
  readonly file: string;
  /** Line of the CSV file, the header being 1; null where the whole column is meant. */
  readonly row: number | null;
  /** Name of the column as the header has it; null where whole rows are meant. */
  readonly column: string | null;
  readonly text: string;
}

/** Channels have one number per row; null where the log has no such column. A value that is missing is NaN. */
export interface FlightLog {
  /** Seconds, strictly rising, from the first row of the file. */
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

/** Gains as they were set, SI (command per rad/s, per rad, per rad/s^2), or in the controller's own units. */
export interface GainsAsSet {
  readonly own: boolean;
  readonly p: number;
  readonly i: number | null;
  readonly d: number;
}

export type Manoeuvre = string;

/** A fact seen or heard, without a log. Numbers SI with two standard deviations. */
export type Sighting =
  | { readonly kind: "hover-throttle"; readonly value: number; readonly size: number; readonly path: Path }
  | { readonly kind: "motor-tone"; readonly value: number; readonly size: number; readonly path: Path } // Hz, in hover
  | {
      readonly kind: "oscillation";
      readonly axis: "roll" | "pitch";
      readonly gains: GainsAsSet;
      /** Name of a shipped script; what was done before it was seen. */
      readonly manoeuvre: Manoeuvre | null;
      readonly diedOut: boolean | null;
      /** Swings counted after the manoeuvre. */
      readonly swings: number | null;
      /** Swings a second, Hz, with two standard deviations; null where nobody counted. */
      readonly frequency: { readonly value: number; readonly size: number } | null;
      /** Against the picture of the card, whose frequency (Hz) stands beside it. */
      readonly pace: { readonly than: number; readonly seen: "slower" | "same" | "faster" } | null;
      readonly motors: "cool" | "warm" | "hot" | null;
      readonly path: Path;
    };

/** A flight file, read. */
export interface Flight {
  readonly title: string;
  /** For people; null where none is written. */
  readonly date: string | null;
  /** Path of the model as the file writes it. */
  readonly model: string;
  readonly pack: { readonly cells: number | null; readonly charge: number | null };
  readonly gains: Readonly<Partial<Record<LogAxis, GainsAsSet>>>;
  readonly sightings: readonly Sighting[];
}
