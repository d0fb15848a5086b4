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
  const count = rebounds ?? 0;
  const ring = ringFrequency == null ? "" : ` at ${about(ringFrequency, "Hz")}`;
  const rest = settling == null ? "not settled in the time shown" : `settled in ${about(settling, "ms")}`;
  return `swings back ${about(overshoot, "%")}, ${toThreeDigits(count)} rebound${count === 1 ? "" : "s"}${ring}, ${rest}`;
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

/** The words that belong to one kind of manoeuvre. */
export const measuredWords = (map: StabilityMap, tune: LadderTune, kind: LadderKind): string => WORDS[kind](tune, map);
