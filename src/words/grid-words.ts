// How large the swept grid is, said once where both axes have one of the same size.
import type { GridLines, StabilityMap } from "../map/format.js";
import { AXES } from "./axes.js";

/** "21 × 13", or "21 × 13 (roll), 18 × 13 (pitch)"; `say` puts one axis's size into words. */
export function gridWords({ axes }: Pick<StabilityMap, "axes">, say: (grid: GridLines) => string): string {
  const sizes = AXES.map((name) => say(axes[name].grid));
  const [first = ""] = sizes;
  return sizes.every((size) => size === first) ? first : AXES.map((name, k) => `${sizes[k]} (${name})`).join(", ");
}
