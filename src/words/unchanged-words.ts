// The gains that the climb leaves unchanged, and what to do where a controller takes whole numbers alone.
import type { StabilityMap } from "../map/format.js";
import { AXES } from "./axes.js";
import { toThreeDigits } from "./numbers.js";
import { ownScale } from "./own-scale.js";
import { chosenI, yawWords } from "./strip-words.js";
import { unitLabel } from "./units.js";

/** "I stays at 25 % per 100° (roll and pitch); yaw stays as in the model file.", or as strips judged them. */
export function unchangedWords(map: StabilityMap): string {
  const unit = unitLabel(map.units.i);
  const withStart = AXES.flatMap((axis) => {
    const chosen = chosenI(map, axis);
    if (chosen === null) return [];
    const mark = chosen.replaced ? ", instead of the model file's, which fails" : "";
    return [
      {
        axis,
        i: `${toThreeDigits(chosen.i)}\u00a0${unit}${chosen.own === null ? "" : `, ${toThreeDigits(chosen.own)} on the controller`}${mark}`,
      },
    ];
  });
  const values = [...new Set(withStart.map(({ i }) => i))];
  const each = values.map((value) => {
    const axes = withStart.filter(({ i }) => i === value).map(({ axis }) => axis);
    return `${value} (${axes.join(" and ")})`;
  });
  return `I stays at ${each.join(" and ")}; ${yawWords(map)}.`;
}

/** Only where numbers of the controller's own are written. */
export const roundWords = (map: StabilityMap): string =>
  ownScale(map) === null ? "" : "Where your controller takes whole numbers alone, round down.";
