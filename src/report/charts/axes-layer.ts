// The scales and the written axes of a figure: D across, P up, both in people's units, and in brackets the numbers
// of the controller's own setting where the model declares them.
import type { StabilityMap } from "../../map/format.js";
import { ownScale } from "../own-scale.js";
import { spoken } from "../units.js";
import type { Frame } from "./frame.js";
import type { Layer } from "./layers.js";

function axisOf(gain: "P" | "D", unit: string, own: number | undefined, ticks: number) {
  const labels =
    own === undefined ? {} : { labelExpr: `datum.label + ' (' + format(datum.value * ${own}, '.3~r') + ')'` };
  const below = own === undefined ? "" : " (controller's own)";
  return { title: `${gain}, ${spoken(unit)}${below}`, tickCount: ticks, labelOverlap: true, ...labels };
}

/** A layer that shows nothing itself and carries both axes. */
export function axesLayer(map: StabilityMap, frame: Frame): Layer {
  const own = ownScale(map);
  const { d, p } = map.grid.units;
  const scale = (domain: readonly [number, number]) => ({ domain: [...domain], nice: false, zero: false });
  const ticks = frame.width < 400 ? 5 : 8;
  return {
    data: { values: [{ d: frame.d[0], p: frame.p[0] }] },
    mark: { type: "point", opacity: 0 },
    encoding: {
      x: { field: "d", type: "quantitative", scale: scale(frame.d), axis: axisOf("D", d, own?.d, ticks) },
      y: { field: "p", type: "quantitative", scale: scale(frame.p), axis: axisOf("P", p, own?.p, ticks) },
    },
  } as Layer;
}
