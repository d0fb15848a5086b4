// What a step's flights are predicted to show on one axis, in a few words per manoeuvre.
import type { LadderKind } from "../base/script-kinds.js";
import type { StabilityMap } from "../map/format.js";
import type { LadderTune } from "../map/ladder-format.js";
import { about, toThreeDigits } from "./numbers.js";
import { swingOf, swingWords } from "./swing-words.js";

const SMALLEST_TILT = 0.1; // deg, nobody sees a smaller tilt

/** "swings back 18 %, 1 rebound, settled in 220 ms". */
function stopMeasures({ measures }: LadderTune): string {
  const { overshoot, rebounds, settling, ringFrequency } = measures;
  if (overshoot == null) return "not simulated";
  const ring = ringFrequency == null ? "" : ` at ${about(ringFrequency, "Hz")}`;
  const rest = settling == null ? "not settled in the time shown" : `settled in ${about(settling, "ms")}`;
  return `swings back ${about(overshoot, "%")}, ${reboundsWords(rebounds ?? 0)}${ring}, ${rest}`;
}

/** "wobbles 2.9° at 3 Hz, wide and slow". */
function wobbleMeasures({ measures }: LadderTune, map: StabilityMap): string {
  const { wobbleAngle, wobbleFrequency } = measures;
  if (wobbleAngle == null) return "not simulated";
  const swing = swingWords(swingOf(wobbleAngle, wobbleFrequency ?? null, map.limits.wobbleAngle));
  const pace = wobbleFrequency == null ? "" : ` at ${about(wobbleFrequency, "Hz")}`;
  return `wobbles ${about(wobbleAngle, "\u00b0")}${pace}, ${swing}`;
}

function kickMeasures({ measures: { kick } }: LadderTune): string {
  if (kick == null) return "not simulated";
  return kick < SMALLEST_TILT ? "does not tilt to speak of" : `tilts by ${about(kick, "\u00b0")} at most`;
}

const WORDS: Readonly<Record<LadderKind, (tune: LadderTune, map: StabilityMap) => string>> = {
  stop: stopMeasures,
  wobble: wobbleMeasures,
  blip: kickMeasures,
};

/** The same in the width of a small picture: "back 15 %, 1 rebound, 200 ms to rest". */
export function briefWords(map: StabilityMap, tune: LadderTune, kind: LadderKind): string {
  const { overshoot, rebounds, settling } = tune.measures;
  if (kind !== "stop" || overshoot == null) return measuredWords(map, tune, kind);
  const rest = settling == null ? "no rest in the time shown" : `${about(settling, "ms")} to rest`;
  return `back ${about(overshoot, "%")}, ${reboundsWords(rebounds ?? 0)}, ${rest}`;
}

const reboundsWords = (count: number): string => `${toThreeDigits(count)} rebound${count === 1 ? "" : "s"}`;

/** The words that belong to one kind of manoeuvre. */
export const measuredWords = (map: StabilityMap, tune: LadderTune, kind: LadderKind): string => WORDS[kind](tune, map);
