// The part of drift.json that says what to set now; gains in display units.
import type { LimitingCase } from "../map/limiting-case.js";

/** What rules a tune out on the candidate's side: a measure with its value and limit, in the measure's unit, and the trial. */
export interface Reason {
  /** Title of the measure, or of the margin. */
  readonly title: string;
  readonly value: number | null;
  readonly limit: number | null;
  readonly unit: string;
  /** Whether the value should be under the limit, or over it. */
  readonly better: "low" | "high";
  /** Of a margin, the throttle and pack of theory's loop. Null: a tune that no trial was made of, or a map too old to say. */
  readonly by: LimitingCase | null;
}

/** What to set now: the tune of before, whether it still does, and the candidate's own start with its way up. */
export interface NextTune {
  /** The pinned tune, or else the base's starting tune; null: there is neither. */
  readonly before: { readonly p: number; readonly d: number; readonly pinned: boolean } | null;
  /** Whether that tune is safe now; null: there is none. */
  readonly holds: boolean | null;
  /** Null where it holds. */
  readonly reason: Reason | null;
  /** The candidate's starting tune; null: it has none. */
  readonly start: {
    readonly p: number;
    readonly d: number;
    /** Over the tune of before; null where there is none, or its gain is 0. */
    readonly pFactor: number | null;
    readonly dFactor: number | null;
    /** What is met first as one gain moves, and at which factor of it; null: nothing in the grid. */
    readonly room: { readonly side: string; readonly factor: number; readonly limit: string } | null;
    /** Flights of the climb, and the gains of the first. */
    readonly climb: { readonly flights: number; readonly p: number; readonly d: number } | null;
  } | null;
}
