// Margins in words: the wanted ones, and those of a tune.
import type { WantedMargins } from "../map/wanted-margins.js";
import { withUnit } from "./numbers.js";

/** "6 dB up and down and 45°". */
export const wantedWords = ({ gain, phase }: WantedMargins): string =>
  `${withUnit(gain, "dB")} up and down and ${withUnit(phase, "\u00b0")}`;

/** Where the numbers come from, and what is known of that. */
export const wantedSource = (margins: WantedMargins): string =>
  `Margins a safe point keeps: ${wantedWords(margins)}, from the sweep. 6 dB and 45° are what SAE AS94900 is commonly quoted to ask of aircraft; its table was not seen in the original.`;

/** "10.1 dB and 57°". */
export function marginsText({
  gainUp,
  phase,
}: {
  readonly gainUp: number | null;
  readonly phase: number | null;
}): string {
  const parts = [
    ...(gainUp === null ? [] : [withUnit(gainUp, "dB")]),
    ...(phase === null ? [] : [withUnit(Number(phase.toPrecision(2)), "\u00b0")]),
  ];
  return parts.length === 0 ? "no limit" : parts.join(" and ");
}
