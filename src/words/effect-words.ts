// What changed in one map of a changed model, in numbers as a reader reads them.
import type { AxisEffect, Difference, Effect } from "../compare/effect-format.js";
import { capital, lowerFirst } from "./limit-words.js";
import { count, toThreeDigits, withUnit } from "./numbers.js";

/** A whole per cent, or two digits below ten: the grid tells no finer. */
export const percentText = (size: number): string =>
  withUnit(size < 10 ? Number(size.toPrecision(2)) : Math.round(size), "%");

/** "roll: safe points 17 → 12, boundary −4.1 %; start P 9.98, D 1.32 → P 8.4, D 1.1". */
export function axisEffectWords(effect: AxisEffect): string {
  const { ground, boundary, tune, start } = effect;
  const points = `safe points ${count(ground.points.asItIs)} \u2192 ${count(ground.points.changed)}${percentIn(ground)}`;
  const moved =
    boundary.percent === null
      ? "boundary beyond the grid"
      : `boundary ${boundary.seen ? signedPercent(boundary) : "the same"}`;
  const [from, to] = [start.asItIs, start.changed].map((one) =>
    one === null ? "none" : `P ${toThreeDigits(one.p)}, D ${toThreeDigits(one.d)}`,
  );
  const starts = from === to ? `start ${from}` : `start ${from} \u2192 ${to}`;
  return [points, moved, starts, ...(tune === null ? [] : [tuneWords(tune)])].join("; ");
}

/** What becomes of the tune that both are judged at. */
function tuneWords({ safe, gainUp, phase }: NonNullable<AxisEffect["tune"]>): string {
  const margins = `${gainUp.changed === null ? "no end of gain" : withUnit(gainUp.changed, "dB")} and ${withUnit(phase.changed, "\u00b0")} left there`;
  if (safe.asItIs === safe.changed)
    return `${safe.changed ? "the same tune stays safe" : "the same tune is safe in neither"}, ${margins}`;
  return `${safe.changed ? "the same tune is safe then" : "the same tune is not safe then"}, ${margins}`;
}

const percentIn = ({ percent, seen }: Difference): string =>
  percent === null || !seen ? "" : ` (${signedPercent({ percent })})`;

const signedPercent = ({ percent }: Pick<Difference, "percent">): string =>
  `${(percent ?? 0) > 0 ? "+" : "\u2212"}${percentText(Math.abs(percent ?? 0))}`;

/** "Without gyro notches". */
export const changeTitle = ({ kind, name }: Pick<Effect, "kind" | "name">): string =>
  `${capital(kind)} ${lowerFirst(name)}`;
