// drift.json, format gainscape.drift/2: what moved between two maps of one question, and the judge's decision. Plain
// data in display units; a missing number is null with a state that says why.
import type { MapGateId, StripGateId } from "../base/gates.js";
import type { MeasureId, Verdict } from "../base/measures.js";
import type { PinnedPoint } from "../map/format.js";
import type { LimitingCase } from "../map/limiting-case.js";
import type { OwnScale } from "../map/own-scale.js";
import type { WantedMargins } from "../map/wanted-margins.js";
import type { NextTune } from "./next-tune-format.js";
import type { Why } from "./why-format.js";

export type Axis = "roll" | "pitch";

/** What happened to the end of the stable P range at one D. */
export type ShiftState =
  | "moved" // both ends lie in the grid; `percent` is the shift
  | "into the grid" // it lay beyond the grid and fell into it: it fell by at least `percent`
  | "out of the grid" // it rose beyond the grid: by at least `percent`
  | "beyond the grid" // on both sides: no shift known, `percent` is null
  | "closed" // no P of that range is stable any more: -100 %
  | "opened" // no P was stable before; `percent` is null
  | "never stable"; // on either side; `percent` is null

/** The same change in pairs of draws, %: 90 of 100 further pairs lie from `low` to `high`, half of them below `middle`. */
export interface ShiftInterval {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

export interface ShiftAtD {
  readonly d: number;
  /**
   * Upper end of the stable P range that counts, on the candidate's side that of the same ground; null beyond the grid, or
   * where no P is stable.
   */
  readonly base: number | null;
  readonly candidate: number | null;
  readonly state: ShiftState;
  /** Change of that end in % of the base's; negative: it fell. */
  readonly percent: number | null;
  /** Only where the end moved within the grid and both maps hold the same draws. */
  readonly interval?: ShiftInterval;
}

export interface Extreme {
  readonly d: number;
  readonly percent: number;
  readonly interval?: ShiftInterval;
}

export interface ShiftLine {
  readonly perD: readonly ShiftAtD[];
  /** The largest fall (or smallest rise) and the largest rise (or smallest fall); null where no D has a shift. */
  readonly lowest: Extreme | null;
  readonly highest: Extreme | null;
}

/** The shift at one throttle level and pack state, worst case over the scripts simulated there. */
export interface LevelShift extends ShiftLine {
  /** Duty in %, or the duty at which each side hovers. */
  readonly throttle: number | "hover";
  readonly condition: string;
}

export interface VariantShift extends ShiftLine {
  readonly script: string;
  readonly throttle: number | "hover";
  readonly rate: number; // deg/s
  readonly condition: string;
}

/** Grid points of the safe region. */
export interface SafeDrift {
  readonly of: number;
  readonly before: number;
  readonly after: number;
  readonly both: number;
  readonly lost: number;
  readonly gained: number;
  /** Change of the number of safe points in % of the base's; null where the base has none. */
  readonly percent: number | null;
  /** A text per D, a letter per P: b safe on both sides, l lost, g gained, "." safe on neither side. */
  readonly points: readonly string[];
}

/** Points whose verdict changed because of one script at one level and condition. */
export interface VerdictCause extends LimitingCase {
  readonly worsened: number;
  readonly improved: number;
}

export interface VerdictDrift {
  readonly worsened: number;
  readonly improved: number;
  readonly same: number;
  /** Points that were safe and now sustain an oscillation. */
  readonly newSustained: number;
  /** Worsened points by what decides now, improved ones by what decided before; most points first. */
  readonly causes: readonly VerdictCause[];
  /** From verdict to verdict, most points first. */
  readonly changes: readonly { readonly from: Verdict; readonly to: Verdict; readonly points: number }[];
}

export interface Place {
  readonly p: number;
  readonly d: number;
  /** Room to the nearest limit of the other side's map as a share of that limit; 0 at it, negative beyond. */
  readonly roomInOther: number | null;
}

export interface StartDrift {
  readonly before: Place | null;
  readonly after: Place | null;
  /** Change in % of the base's; null where either is missing, or the base's is 0. */
  readonly pPercent: number | null;
  readonly dPercent: number | null;
}

export interface PinnedDrift {
  readonly before: PinnedPoint;
  readonly after: PinnedPoint;
}

/** The same draws, each side at its own starting tune. */
export interface StartInDraws {
  readonly of: number;
  /** Draws in which it is safe. */
  readonly before: number;
  readonly after: number;
  /** Safe before and not now; not before and now. */
  readonly lost: number;
  readonly gained: number;
  /** How often chance alone parts lost and gained as unevenly, a fraction (McNemar 1947, exact). */
  readonly chance: number;
}

/** What the draws of both sides say, pair by pair. */
export interface PairedDrift {
  readonly draws: number;
  /** Null where a side has no starting tune, or the two are not judged by the same measures. */
  readonly start: StartInDraws | null;
}

export interface AxisDrift {
  readonly shift: ShiftLine;
  /** Only where both maps hold the same draws. */
  readonly paired?: PairedDrift;
  readonly byLevel: readonly LevelShift[];
  readonly byVariant: readonly VariantShift[];
  readonly safe: SafeDrift;
  readonly verdicts: VerdictDrift;
  readonly start: StartDrift;
  /** Null where the sweep pins no tune. */
  readonly pinned: PinnedDrift | null;
  /** Left out by versions that did not say. */
  readonly next?: NextTune;
}

/** A gain that one side judged along a line; display units. */
export interface StripSide {
  /** The model's own. */
  readonly declared: number;
  /** It, or what takes its place; null where nothing passes. */
  readonly choice: number | null;
  /** `openAbove`: the strip ends there, and the gain still passes. */
  readonly range: { readonly from: number; readonly to: number; readonly openAbove?: true } | null;
}

export interface StripDrift {
  readonly gain: "Yaw P" | "Roll I" | "Pitch I";
  /** As in the map's units; and one of the controller's own in it, null where the models do not say the same. */
  readonly unit: string;
  readonly oneUnit: number | null;
  readonly before: StripSide;
  readonly after: StripSide;
  /**
   * Changes in % of the base's: of the gain to take and of the ends of what passes; null where a side has none. An upper end
   * beyond the strip on one side moved by at least as much; null where not even that is known.
   */
  readonly choicePercent: number | null;
  readonly fromPercent: number | null;
  readonly toPercent: number | null;
}

export type GateOutcome = "pass" | "fail" | "skipped";

/** Why a gate was not judged. */
export type SkipReason =
  | "switched off"
  | "no pinned tune"
  | "pinned tune was not safe before"
  | "no safe ground before"
  | "no boundary in the grid"
  | "no draws on both sides"
  | "no interval at any D"
  | "no starting tune before"
  | StripSkip
  | "model's own gain failed before"
  | "no gain passed before"
  | "passes to the strip's end";

/** Why a gain of a strip cannot be compared. */
export type StripSkip = "no strip before" | "no strip now" | "strips of other limits or scripts";

export interface JudgedLines {
  readonly lines: number;
  readonly of: number;
}

export type GateResult = MapGateResult | StripGateResult;

/** On an axis of the map. */
export interface MapGateResult extends Judged {
  readonly gate: MapGateId;
  readonly axis: Axis;
}

/** On P of yaw, or on I of roll or pitch. */
export interface StripGateResult extends Judged {
  readonly gate: StripGateId;
  readonly axis: Axis | "yaw";
}

interface Judged {
  readonly outcome: GateOutcome;
  /** Only where the worse end of an interval was judged. */
  readonly judge?: "lower";
  /** What was seen and the most that passes, in the gate's unit. */
  readonly value: number | null;
  readonly threshold: number | null;
  /** D at which the value was seen, where it belongs to one. */
  readonly d: number | null;
  /** How many of the grid's D lines could be judged; null where a gate looks at no lines. */
  readonly judgedLines: JudgedLines | null;
  readonly skipReason: SkipReason | null;
}

/** One key of the model that changed, as a model file writes it ("5.1 in"). */
export interface KeyChange {
  readonly key: string;
  /** Null: absent on that side. */
  readonly before: string | null;
  readonly after: string | null;
}

export interface Side {
  readonly airframe: {
    readonly name: string;
    readonly version: string;
    readonly title: string;
    readonly digest: string;
  };
  readonly product: string; // version of the program that made the map
  readonly command: string;
  readonly model: string; // file
  readonly planDigest: string;
  readonly trials: number;
}

/** A measure with a limit on one side, which the version that made the other did not know. */
export interface UnjudgedMeasure {
  readonly measure: MeasureId;
  readonly unknownTo: "base" | "candidate";
}

export interface Drift {
  readonly format: "gainscape.drift/2";
  readonly product: { readonly name: "gainscape"; readonly version: string };
  readonly command: string;
  readonly sweep: { readonly name: string; readonly title: string };
  readonly units: { readonly p: string; readonly d: string };
  /** The controller's own units per unit above; null where the models do not say the same of them. */
  readonly own: OwnScale | null;
  readonly base: Side;
  readonly candidate: Side;
  readonly outcome: "pass" | "regression";
  readonly gates: readonly GateResult[];
  /** Left out of both sides' verdicts, and so of every gate. */
  readonly unjudgedMeasures: readonly UnjudgedMeasure[];
  /** Of a safe point. */
  readonly margins: WantedMargins;
  readonly axes: Readonly<Record<Axis, AxisDrift>>;
  /** P of yaw and I; only where both sides judged any. */
  readonly strips?: readonly StripDrift[];
  readonly model: readonly KeyChange[];
  /** Null: nothing changed that theory reads, or it cannot answer for both sides. Left out by versions before there was one. */
  readonly why?: Why | null;
  /** What a reader should know besides, one sentence each. */
  readonly notes: readonly string[];
}
