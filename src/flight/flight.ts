// A flight file, read: which craft, which gains, where its log is and what was seen. SI throughout.
import type { Path } from "../base/problem.js";
import type { LogAxis } from "./log.js";

/** Gains as they were set: in the controller's own numbers, or SI (fraction of command per rad/s, per rad, per rad/s^2). */
export interface GainsAsSet {
  readonly own: boolean;
  readonly p: number;
  /** Null: not written. */
  readonly i: number | null;
  readonly d: number;
}

/** A number with two standard deviations. */
export interface Seen {
  readonly value: number;
  readonly size: number;
}

/** Something seen or heard, without a log. */
export type Sighting =
  | ({ readonly kind: "hover-throttle"; readonly path: Path } & Seen) // fraction
  | ({ readonly kind: "motor-tone"; readonly path: Path } & Seen) // Hz in hover: blades passing, turns a second times blades
  | Oscillation;

export interface Oscillation {
  readonly kind: "oscillation";
  readonly axis: "roll" | "pitch";
  readonly gains: GainsAsSet;
  /** Name of a shipped script; what was done before it was seen. */
  readonly manoeuvre: string | null;
  readonly diedOut: boolean | null;
  /** Swings counted after the manoeuvre. */
  readonly swings: number | null;
  /** Swings a second, Hz; null where nobody counted. */
  readonly frequency: Seen | null;
  /** Against the picture of the card, whose frequency (Hz) stands beside it. */
  readonly pace: { readonly than: number; readonly seen: "slower" | "same" | "faster" } | null;
  readonly motors: "cool" | "warm" | "hot" | null;
  readonly path: Path;
}

/** One column of a log: SI = (written - zero) * scale. */
export interface Column {
  readonly name: string;
  readonly zero: number;
  readonly scale: number;
  /** As declared; null for shares of a full scale. */
  readonly unit: string | null;
  /** Largest magnitude the sensor can give, SI; null where it is not declared. */
  readonly limit: number | null;
  /** Where the flight file declares it. */
  readonly path: Path;
}

/** A column that belongs to one rotor, by index in the model's `rotors`. */
export interface RotorColumn extends Column {
  readonly rotor: number;
}

export type Delimiter = "," | ";" | "\t";

export interface LogDeclaration {
  /** As the flight file writes it. */
  readonly file: string;
  /** Null: to be noticed. */
  readonly delimiter: Delimiter | null;
  readonly time: Column;
  readonly rate: Readonly<Record<LogAxis, Column | null>>;
  readonly command: Readonly<Record<LogAxis, Column | null>>;
  readonly motor: readonly RotorColumn[];
  readonly throttle: Column | null;
  readonly voltage: Column | null;
  readonly rotorSpeed: readonly RotorColumn[];
  /** Seconds from the first row; empty: all of it. */
  readonly use: readonly { readonly from: number; readonly to: number }[];
}

export interface Flight {
  readonly title: string;
  /** For people, as written; null where none is. */
  readonly date: string | null;
  /** Path of the model as the file writes it. */
  readonly model: string;
  readonly pack: { readonly cells: number | null; readonly charge: number | null };
  readonly gains: Readonly<Partial<Record<LogAxis, GainsAsSet>>>;
  readonly log: LogDeclaration | null;
  readonly sightings: readonly Sighting[];
}
