// The gains that the climb leaves unchanged, and what to do where a controller takes whole numbers alone.
import type { StabilityMap } from "../map/format.js";
import { type OwnScale, ownScale, WHOLE_FROM, yawGains } from "../map/own-scale.js";
import { AXES } from "./axes.js";
import { settingWords } from "./own-words.js";
import { chosenI, judgedYawWords } from "./strip-words.js";

/** "I stays at 1250 (roll and pitch); yaw stays at P 3000, I 1500.", or as strips judged them. */
export function unchangedWords(map: StabilityMap): string {
  const own = ownScale(map);
  const withStart = AXES.flatMap((axis) => {
    const chosen = chosenI(map, axis);
    if (chosen === null) return [];
    const mark = chosen.replaced ? ", instead of the model file's, which fails" : "";
    return [{ axis, i: `${settingWords(own, "i", chosen.i, map.units.i)}${mark}` }];
  });
  const values = [...new Set(withStart.map(({ i }) => i))];
  const each = values.map((value) => {
    const axes = withStart.filter(({ i }) => i === value).map(({ axis }) => axis);
    return `${value} (${axes.join(" and ")})`;
  });
  return `I stays at ${each.join(" and ")}; ${judgedYawWords(map) ?? `yaw stays ${yawWords(map, own)}`}.`;
}

/** "at P 3000, I 1500"; a map may lack the part of its model that says it. */
function yawWords(map: StabilityMap, own: OwnScale | null): string {
  const yaw = yawGains(map);
  if (yaw === null) return "as in the model file";
  const scale = own === null || own.yaw === null ? null : { ...own, ...own.yaw };
  return `at P ${settingWords(scale, "p", yaw.p, map.units.p)}, I ${settingWords(scale, "i", yaw.i, map.units.i)}`;
}

/** Only where a number of the controller's own is so small that it is written with decimals. */
export function roundWords(map: StabilityMap): string {
  const own = ownScale(map);
  const small = AXES.some((axis) => {
    const { start } = map.axes[axis];
    return own !== null && start !== null && Math.min(own.p * start.p, own.d * start.d) < WHOLE_FROM;
  });
  return small ? "Where your controller takes whole numbers alone, round down." : "";
}
