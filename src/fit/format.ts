// fit.json: what flights say about a model. Numbers are SI unless the name says otherwise. The page needs beyond the numbers,
// and does without where they are left out: `unit` of a number; `draws`, `own` and `call` of a tune; `sightings`; `command`.

export const FIT_FORMAT = "gainscape.fit/1";

/** Median and the interval that holds 95 of 100. */
export interface Estimated {
  readonly middle: number;
  readonly low: number;
  readonly high: number;
}

export interface FittedNumber {
  /** As the model spells it: "motor.resistance". */
  readonly key: string;
  /** As the model file writes the number; left out where it has none, or where the usual one of the key is as good. */
  readonly unit?: string;
  readonly before: Estimated;
  readonly after: Estimated;
  /** By how much the interval narrowed, 0 to 1; below `SAID_NOTHING` the flight says nothing about it and it is left as it was. */
  readonly learnt: number;
}

/** Of one axis: the shape authority · e^(-delay s) / (s (lag s + 1)) that model and craft are compared in. */
export interface FittedShape {
  /** rad/s^2 per whole axis command. */
  readonly authority: Estimated;
  /** s */
  readonly lag: Estimated;
  /** s */
  readonly delay: Estimated;
  /** authority / lag, rad/s^3 */
  readonly authorityOverLag: Estimated;
  readonly correlationOfAuthorityAndLag: number;
}

export interface ResponseOfAxis {
  readonly frequency_Hz: readonly number[];
  readonly coherence: readonly number[];
  /** rad/s per whole axis command; phase in degrees. */
  readonly measured: { readonly amplitude: readonly number[]; readonly phase_deg: readonly number[] };
  /** Standard deviation as a share of the amplitude. */
  readonly error: readonly number[];
  readonly before: { readonly amplitude: readonly number[]; readonly phase_deg: readonly number[] };
  readonly after: { readonly amplitude: readonly number[]; readonly phase_deg: readonly number[] };
  /** Chi square over degrees of freedom; above 1 the spreads were multiplied by its root. */
  readonly misfit: number;
  /** A resonance or delay that theory lacks. */
  readonly notModelled: readonly { readonly frequency_Hz: number; readonly text: string }[];
}

/** A part of the log that the fit did not see, and what the fitted model makes of it. */
export interface KeptOut {
  readonly from_s: number;
  readonly to_s: number;
  /** Share of the variance of the band-limited rate that is predicted, before and after the fit; 1 is all. */
  readonly explainedBefore: number;
  readonly explained: number;
  readonly time_s: readonly number[];
  readonly measured_dps: readonly number[];
  readonly predicted_dps: readonly number[];
}

/** The sustained boundary in display units: P over D, over the draws. */
export interface BoundaryBandPoint {
  readonly d: number;
  readonly low: number | null;
  readonly middle: number | null;
  readonly high: number | null;
}

export interface FittedAxis {
  readonly before: FittedShape;
  readonly after: FittedShape;
  readonly response: ResponseOfAxis | null;
  readonly keptOut: KeptOut | null;
  readonly band: { readonly before: readonly BoundaryBandPoint[]; readonly after: readonly BoundaryBandPoint[] };
  /** Null where the gains as set are not in the flight, or not in units that are worth something yet. */
  readonly tune: {
    readonly p: number;
    readonly d: number;
    /** In the controller's own units, as they were set. */
    readonly own?: { readonly p: number; readonly d: number };
    /** Shares of `draws`, before and after. */
    readonly safeShareBefore: number;
    readonly safeShareAfter: number;
    readonly draws?: number;
    /** By `tuneCall`. */
    readonly call?: TuneCall;
  } | null;
}

/** What becomes of the tune that was flown. */
export type TuneCall = "do not fly" | "holds";

/** A sighting beside what the model said of it and says now, in words: "hovers at 31 %", "27 to 36 %", "30 to 32 %". */
export interface SightingSaid {
  readonly text: string;
  readonly before: string;
  readonly after: string;
}

/** What one unit of a gain is worth; null where the log does not tell it, with why. */
export interface FittedUnit {
  readonly gain: "p" | "i" | "d";
  readonly axes: readonly ("roll" | "pitch" | "yaw")[];
  /** "own": the gain was set in the controller's own units, and `value` is one of them in SI. "si": it was set in SI units, and `value` is the factor by which it acted, 1 where the model's loop is the craft's. */
  readonly set: "own" | "si";
  readonly value: Estimated | null;
  /** Why it is null, or what widens it; empty where there is nothing to say. */
  readonly why: string;
}

export interface FitFile {
  readonly format: typeof FIT_FORMAT;
  readonly productVersion: string;
  readonly model: { readonly name: string; readonly version: string; readonly digest: string };
  readonly flights: readonly {
    readonly file: string;
    readonly title: string;
    readonly date: string | null;
    readonly digest: string;
  }[];
  readonly numbers: readonly FittedNumber[];
  readonly correlations: readonly { readonly one: string; readonly other: string; readonly value: number }[];
  readonly axes: Readonly<Record<"roll" | "pitch", FittedAxis>>;
  readonly units: readonly FittedUnit[];
  /** What could not be told, and why: "mass and thrust apart: no weight changed". */
  readonly silent: readonly { readonly what: string; readonly why: string }[];
  readonly remarks: readonly {
    readonly file: string;
    readonly row: number | null;
    readonly column: string | null;
    readonly text: string;
  }[];
  /** What would teach most, always inside ground that is safe at the stated confidence. */
  readonly next: readonly { readonly text: string; readonly key: string; readonly narrows: number }[];
  readonly sightings?: readonly SightingSaid[];
  /** What to do with the tune that was flown: words of one line. */
  readonly advice: readonly string[];
  /** The command that makes it again. */
  readonly command?: string;
}
