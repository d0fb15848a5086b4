// What the climb leaves alone, and what to do where a controller cannot take a gain as it is written.
import type { StabilityMap } from "../../map/format.js";
import { AXES } from "../axes.js";
import { three } from "../numbers.js";
import { ownScale } from "../own-scale.js";
import { spoken } from "../units.js";

/** "I stays at 25 % per 100° (roll and pitch); yaw stays as in the model file." */
export function heldWords(map: StabilityMap): string {
  const unit = spoken(map.grid.units.i);
  const flown = AXES.flatMap((axis) => {
    const { start } = map.axes[axis];
    return start === null ? [] : [{ axis, i: three(start.i) }];
  });
  const values = [...new Set(flown.map(({ i }) => i))];
  const each = values.map((value) => {
    const axes = flown.filter(({ i }) => i === value).map(({ axis }) => axis);
    return `${value}\u00a0${unit} (${axes.join(" and ")})`;
  });
  return `I stays at ${each.join(" and ")}; yaw stays as in the model file.`;
}

/** Only where numbers of the controller's own are written. */
export const roundWords = (map: StabilityMap): string =>
  ownScale(map) === null ? "" : "Where your controller takes whole numbers alone, round down.";
