// The gains that the climb leaves unchanged, and what to do where a controller takes whole numbers alone.
import type { StabilityMap } from "../map/format.js";
import { AXES } from "./axes.js";
import { toThreeDigits } from "./numbers.js";
import { ownScale } from "./own-scale.js";
import { unitLabel } from "./units.js";

/** "I stays at 25 % per 100° (roll and pitch); yaw stays as in the model file." */
export function unchangedWords(map: StabilityMap): string {
  const unit = unitLabel(map.units.i);
  const withStart = AXES.flatMap((axis) => {
    const { start } = map.axes[axis];
    return start === null ? [] : [{ axis, i: toThreeDigits(start.i) }];
  });
  const values = [...new Set(withStart.map(({ i }) => i))];
  const each = values.map((value) => {
    const axes = withStart.filter(({ i }) => i === value).map(({ axis }) => axis);
    return `${value}\u00a0${unit} (${axes.join(" and ")})`;
  });
  return `I stays at ${each.join(" and ")}; yaw stays as in the model file.`;
}

/** Only where numbers of the controller's own are written. */
export const roundWords = (map: StabilityMap): string =>
  ownScale(map) === null ? "" : "Where your controller takes whole numbers alone, round down.";
