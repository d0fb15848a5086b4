// Gains as a pilot reads them: the controller's own numbers where the model says what one unit is worth, else display units.
import { type OwnScale, WHOLE_FROM } from "./own-scale.js";

type Gain = "p" | "i" | "d";

const threeDigits = (value: number): string => String(Number(value.toPrecision(3)));

/** A number of the controller's own as it is typed: whole from 10 up, nothing between its digits. */
export const ownText = (value: number): string =>
  value >= WHOLE_FROM ? String(Math.round(value)) : threeDigits(value);

function inOwn(own: OwnScale | null, gain: Gain, value: number): number | null {
  const perUnit = own?.[gain] ?? null;
  return perUnit === null ? null : perUnit * value;
}

/** A gain to set, given in display units: "2356", or "9.43" where the model does not say what one unit is worth. */
export function settingText(own: OwnScale | null, gain: Gain, value: number): string {
  const typed = inOwn(own, gain, value);
  return typed === null ? threeDigits(value) : ownText(typed);
}

/** Where something begins or ends as a gain moves, known to three digits: "14300". */
export const endText = (own: OwnScale | null, gain: Gain, value: number): string =>
  threeDigits(inOwn(own, gain, value) ?? value);

/** "P 2356, D 1916". */
export const placeText = (own: OwnScale | null, { p, d }: { readonly p: number; readonly d: number }): string =>
  `P ${settingText(own, "p", p)}, D ${settingText(own, "d", d)}`;
