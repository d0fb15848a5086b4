// The scales and the written axes of a figure: D across, P up, both in display units, and in brackets the
// controller's own numbers where the model declares a scale.
import type { StabilityMap } from "../map/format.js";
import { ownScale } from "../words/own-scale.js";
import { unitLabel } from "../words/units.js";
import type { Frame } from "./frame.js";
import type { Layer } from "./layers.js";

const SMALL = 290; // px, plots under it have no room for words that the large maps carry

function axisOf(gain: "P" | "D", unit: string, own: number | undefined, width: number) {
  const ticks = width < 400 ? 5 : 8;
  const below = own === undefined || width < SMALL ? "" : " (controller's own)";
  const labels =
    own === undefined ? {} : { labelExpr: `datum.label + ' (' + format(datum.value * ${own}, '.3~r') + ')'` };
  return { title: `${gain}, ${unitLabel(unit)}${below}`, tickCount: ticks, labelOverlap: true, ...labels };
}

/** A layer that shows nothing itself and carries both axes. */
export function axesLayer(map: StabilityMap, frame: Frame): Layer {
  const own = ownScale(map);
  const { d, p } = map.units;
  const scale = (domain: readonly [number, number]) => ({ domain: [...domain], nice: false, zero: false });
  return {
    data: { values: [{ d: frame.d[0], p: frame.p[0] }] },
    mark: { type: "point", opacity: 0 },
    encoding: {
      x: { field: "d", type: "quantitative", scale: scale(frame.d), axis: axisOf("D", d, own?.d, frame.width) },
      y: { field: "p", type: "quantitative", scale: scale(frame.p), axis: axisOf("P", p, own?.p, frame.width) },
    },
  } as Layer;
}
