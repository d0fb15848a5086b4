// What each picture of a fit shows, in one line that stands above it.
import { ln } from "../../base/elementary.js";
import type { FittedAxis, KeptOut, ResponseOfAxis } from "../../fit/format.js";
import { endText, placeText, settingText } from "../../map/gain-text.js";
import { AXIS_TITLES, type Axis } from "../axes.js";
import { toThreeDigits, withUnit } from "../numbers.js";
import { boundaryShift, middleAt, shiftWords } from "./answer.js";
import { percents, wholePercents } from "./estimates.js";
import { scaleOfTune } from "./own-gains.js";

/** "Roll: the boundary lies 9 % lower, its band is half as wide". */
export function bandTitle(name: Axis, axis: FittedAxis): string {
  const width = widthRatio(axis);
  const narrower = width === null ? "" : `, its band ${widthWords(width)}`;
  return `${AXIS_TITLES[name]}: the boundary lies ${shiftWords(axis)}${narrower}`;
}

function widthWords(ratio: number): string {
  if (ratio > 0.95 && ratio < 1.05) return "as wide as before";
  return ratio < 1 ? `narrower by ${wholePercents(100 * (1 - ratio))}` : `wider by ${wholePercents(100 * (ratio - 1))}`;
}

/** Width of the band after over before, as shares of the middles, at the tune's D or the middle one. */
function widthRatio({ band, tune }: FittedAxis): number | null {
  const at = tune?.d ?? band.after[Math.floor(band.after.length / 2)]?.d ?? 0;
  const width = (points: FittedAxis["band"]["before"]) => {
    const near = points.reduce<(typeof points)[number] | null>(
      (best, one) => (best === null || Math.abs(one.d - at) < Math.abs(best.d - at) ? one : best),
      null,
    );
    if (near === null || near.low === null || near.middle === null || near.high === null) return null;
    return (near.high - near.low) / near.middle;
  };
  const [before, after] = [width(band.before), width(band.after)];
  return before === null || after === null || before === 0 ? null : after / before;
}

/** What the picture shows at one D, with its numbers. */
export function bandWords(axis: FittedAxis): string {
  const { band, tune } = axis;
  const middle = band.after[Math.floor(band.after.length / 2)];
  const d = tune?.d ?? middle?.d ?? 0;
  const own = scaleOfTune(tune);
  const [before, after] = [middleAt(band.before, d), middleAt(band.after, d)];
  const from = (p: number | null) => (p === null ? "beyond every P searched" : `P ${endText(own, "p", p)}`);
  const shift = boundaryShift(axis);
  const same =
    typeof shift === "string" ? "" : ` (${shift > 0 ? "+" : ""}${withUnit(Number(shift.toPrecision(2)), "%")})`;
  const yours = tune === null ? "" : ` The tune flown is at ${placeText(own, tune)}.`;
  return `At D ${settingText(own, "d", d)} half of the draws keep an oscillation alive from ${from(before)} before and ${from(after)} now${same}.${yours}`;
}

/** Departures of the fitted model from what was measured, as a share of it: weighted by error, root mean square. */
function departure({ measured, before, after, error }: ResponseOfAxis): { before: number; after: number } {
  const of = (side: ResponseOfAxis["after"]) => {
    let [sum, weights] = [0, 0];
    for (const [k, amplitude] of measured.amplitude.entries()) {
      const [one, turn] = [
        side.amplitude[k] ?? 0,
        (((side.phase_deg[k] ?? 0) - (measured.phase_deg[k] ?? 0)) * Math.PI) / 180,
      ];
      const off = ln(Math.max(1e-12, one) / Math.max(1e-12, amplitude)) ** 2 + turn * turn;
      const weight = 1 / Math.max(1e-3, error[k] ?? 1) ** 2;
      sum += weight * off;
      weights += weight;
    }
    return weights === 0 ? 0 : Math.sqrt(sum / weights);
  };
  return { before: of(before), after: of(after) };
}

/** "Roll: the fitted model follows what was measured within 4 %, the old one within 15 %". */
export function responseTitle(name: Axis, response: ResponseOfAxis): string {
  const { before, after } = departure(response);
  const [least, most] = [response.frequency_Hz[0] ?? 0, response.frequency_Hz.at(-1) ?? 0];
  return `${AXIS_TITLES[name]}: from ${toThreeDigits(least)} to ${withUnit(most, "Hz")} the fitted model lies ${percents(100 * after)} off what was measured, the old one ${percents(100 * before)}`;
}

export function misfitWords({ misfit }: ResponseOfAxis): string {
  const by = `misfit ${toThreeDigits(Number(misfit.toPrecision(2)))}`;
  if (misfit <= 1) return `The fit lies within the errors of what was measured (${by}).`;
  return `What is left over is ${toThreeDigits(Number(Math.sqrt(misfit).toPrecision(2)))} times what the errors explain (${by}): every spread is that much wider.`;
}

/** "Pitch: the fitted model foretells 87 % of a part it never saw, the old one 61 %". */
export function keptOutTitle(name: Axis, { explained, explainedBefore }: KeptOut): string {
  const [now, old] = [shareOf(explained), shareOf(explainedBefore)];
  return `${AXIS_TITLES[name]}: the fitted model predicts ${now} of a part it never saw, ${now === old ? "as the old one did" : `the old one ${old}`}`;
}

/** A share below nothing: worse than no prediction. */
const shareOf = (share: number): string => (share < 0 ? "nothing" : percents(100 * share));

export const keptOutWords = ({ from_s, to_s, explained, explainedBefore }: KeptOut): string => {
  const worse = explained < explainedBefore ? " That is less than before the fit: do not trust it." : "";
  return `Seconds ${toThreeDigits(from_s)} to ${toThreeDigits(to_s)} were left out of the fit. Share of the variance of the rate, within the band of the fit.${worse}`;
};
