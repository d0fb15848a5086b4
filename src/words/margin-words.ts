// The wanted margins in words.
import type { WantedMargins } from "../map/wanted-margins.js";
import { withUnit } from "./numbers.js";

/** "6 dB up and down and 45°". */
export const wantedWords = ({ gain, phase }: WantedMargins): string =>
  `${withUnit(gain, "dB")} up and down and ${withUnit(phase, "\u00b0")}`;

/** Where the numbers come from, and what is known of that. */
export const wantedSource = (margins: WantedMargins): string =>
  `Margins a safe point keeps: ${wantedWords(margins)}, from the sweep. 6 dB and 45° are what SAE AS94900 is commonly quoted to ask of aircraft; its table was not seen in the original.`;
