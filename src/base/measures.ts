// The one catalogue of measures. CSV headers, map.json, limits, verdicts and report all read this table.

export type MeasureId =
  | "overshoot"
  | "settling"
  | "rebounds"
  | "ringFrequency"
  | "damping"
  | "rise"
  | "kick"
  | "recovery"
  | "wobbleAngle"
  | "wobbleFrequency"
  | "growth"
  | "oscillation"
  | "limited"
  | "heat"
  | "commandNoise";

/**
 * The verdict a measure beyond its limit argues for; null: shown, never judged. Between ringing and loose the effect of more P
 * decides; this one counts where that does not decide.
 */
export type Argues = "ringing" | "loose" | "hot" | null;

export interface Measure {
  readonly id: MeasureId;
  readonly title: string;
  readonly unit: string;
  /** Which way is better; null where neither is. */
  readonly better: "low" | "high" | null;
  /** Default limit in `unit`; null where none. */
  readonly limit: number | null;
  readonly argues: Argues;
  /** It argues for that whatever more P does: a slow stop is never sharp, and heat is D. */
  readonly always: boolean;
  /** Where neither way is better: the measures from whose worst trial this one is read; the first that is shown counts. */
  readonly readWith: readonly MeasureId[];
  readonly why: string;
}

const measure = (
  id: MeasureId,
  title: string,
  unit: string,
  better: Measure["better"],
  limit: number | null,
  argues: Argues,
  why: string,
  rest: Partial<Pick<Measure, "always" | "readWith">> = {},
): Measure => Object.freeze({ id, title, unit, better, limit, argues, always: false, readWith: [], why, ...rest });

export const MEASURES: readonly Measure[] = Object.freeze([
  measure(
    "overshoot",
    "Bounce-back",
    "%",
    "low",
    15,
    "ringing",
    "How far the craft swings back past the stop, in percent of the step.",
  ),
  measure(
    "settling",
    "Settling time",
    "ms",
    "low",
    250,
    "ringing",
    "From the end of the commanded ramp until the rate stays within 5 % of the step.",
  ),
  measure(
    "rebounds",
    "Rebounds",
    "half-cycles",
    "low",
    2,
    "ringing",
    "Half-cycles that leave the 5 % band after the stop: what the eye counts.",
  ),
  measure(
    "ringFrequency",
    "Ring frequency",
    "Hz",
    null,
    null,
    null,
    "How fast it rings: wide and slow, or small and fast.",
    { readWith: ["overshoot", "oscillation"] },
  ),
  measure(
    "damping",
    "Damping ratio",
    "1",
    "high",
    null,
    null,
    "From the logarithmic decrement of the swings after the stop.",
  ),
  measure(
    "rise",
    "Stop time",
    "ms",
    "low",
    120,
    "loose",
    "Time the rate takes from 90 % to 10 % of the step: a weak tune drifts on.",
    { always: true },
  ),
  measure(
    "kick",
    "Attitude kick",
    "deg",
    "low",
    2,
    "loose",
    "Largest attitude error while the throttle moves or a gust passes.",
  ),
  measure(
    "recovery",
    "Recovery time",
    "ms",
    "low",
    null,
    null,
    "Until the rate stays within a tenth of its largest deviation.",
  ),
  measure(
    "wobbleAngle",
    "Wobble angle",
    "deg rms",
    "low",
    2,
    "loose",
    "Attitude deviation in disturbed air: what the camera shows.",
  ),
  measure("wobbleFrequency", "Wobble frequency", "Hz", null, null, null, "How fast the wobble is; it rises with P.", {
    readWith: ["wobbleAngle"],
  }),
  measure(
    "growth",
    "Growth",
    "1/s",
    "low",
    null,
    null,
    "Rate at which the oscillation grows in the calm tail; negative dies out.",
  ),
  measure(
    "oscillation",
    "Oscillation at the end",
    "deg/s",
    "low",
    null,
    null,
    "Half the swing of the rate still there when the trial ends, a straight drift left out.",
  ),
  measure(
    "limited",
    "Time at the limits",
    "%",
    "low",
    null,
    null,
    "Share of the window in which the mixer could not serve the demand.",
  ),
  measure(
    "heat",
    "Motor heating",
    "1",
    "low",
    1.5,
    "hot",
    "Copper loss over that of the same trial without a control demand.",
    { always: true },
  ),
  measure(
    "commandNoise",
    "Command noise",
    "%",
    "low",
    3,
    "hot",
    "Rms of the axis command in hover, in percent of full command.",
    { always: true },
  ),
]);

export const MEASURE_IDS: readonly MeasureId[] = Object.freeze(MEASURES.map((m) => m.id));

const byId = new Map(MEASURES.map((m) => [m.id, m]));

/** The catalogue's row of an id; every id has one. */
export function measureOf(id: MeasureId): Measure {
  const found = byId.get(id);
  if (found === undefined) throw new RangeError(`no measure "${id}"`);
  return found;
}

/** From worst to best. */
export const VERDICTS = Object.freeze(["sustained", "hot", "ringing", "loose", "clean"] as const);
export type Verdict = (typeof VERDICTS)[number];

/** One letter each, where a table of verdicts is written as text; a capital where the point is safe. */
export const VERDICT_LETTERS: Readonly<Record<Verdict, string>> = Object.freeze({
  sustained: "s",
  hot: "h",
  ringing: "r",
  loose: "l",
  clean: "c",
});

/**
 * Why a measure is absent, by code: index into this list; 0 is "present". Maps and baselines hold the codes, so an entry
 * keeps its place for good and new ones come last; files have room for 36.
 */
export const ABSENCES = Object.freeze([
  "present",
  "this script does not show it",
  "never settles in the window",
  "no swing to measure",
  "never reaches the level",
  "too few swings to count",
  "the trial diverged",
  "the axis did not move",
  "older map, made before this measure was known",
  "sustained under a nudge, not simulated",
] as const);
