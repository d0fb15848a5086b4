// Yaw's P and I of two maps side by side, in words: the gain to take and what passes, as the pilot types it.
import type { Drift, StripDrift, StripSide } from "../compare/format.js";
import { signed } from "./drift-words.js";
import { gainHead } from "./own-words.js";
import { stripGain } from "./strip-words.js";

export const STRIPS_LEAD =
  "P of yaw and I, judged along a line at each side's own starting tunes. A model's own gain stays where it passes.";

interface StripRow {
  /** "Yaw P, % per 100 °/s", or what one of the controller's own is worth. */
  readonly gain: string;
  /** "20 instead of 30; 8.1 to 25 pass". */
  readonly before: string;
  readonly after: string;
  /** "−20 %"; empty where it cannot be said. */
  readonly choice: string;
  readonly upperEnd: string;
}

/** None where a side judged none. */
export const stripRows = ({ strips = [] }: Pick<Drift, "strips">): StripRow[] =>
  strips.map((strip) => ({
    gain: gainHead(strip.gain, strip.oneUnit === null ? null : 1 / strip.oneUnit, strip.unit),
    before: sideWords(strip, strip.before),
    after: sideWords(strip, strip.after),
    choice: moved(strip.choicePercent),
    upperEnd: moved(strip.toPercent),
  }));

/** The same in one line. */
export function stripLine({ gain, before, after, choice, upperEnd }: StripRow): string {
  const changes = [choice === "" ? [] : [`gain ${choice}`], upperEnd === "" ? [] : [`upper end ${upperEnd}`]].flat();
  return `${gain}: ${before} \u2192 ${after}${changes.length === 0 ? "" : ` (${changes.join(", ")})`}`;
}

const moved = (percent: number | null): string => (percent === null ? "" : `${signed(percent)}\u00a0%`);

function sideWords({ oneUnit }: StripDrift, { declared, choice, range }: StripSide): string {
  const text = (gain: number) => stripGain({ oneUnit }, gain);
  const own = text(declared);
  if (choice === null || range === null) return `${own} fails, none passes`;
  const passes = `${text(range.from)} ${range.openAbove === true ? "and up" : `to ${text(range.to)}`} pass`;
  return choice === declared ? `${own}; ${passes}` : `${text(choice)} instead of ${own}; ${passes}`;
}
