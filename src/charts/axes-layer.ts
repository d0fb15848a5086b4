// The scales and the written axes of a figure: D across, P up, in the controller's own numbers where the model says what one
// unit is worth, in display units where it does not. The scale itself is in display units either way.
import { canonicalJson } from "../base/canonical.js";
import type { StabilityMap } from "../map/format.js";
import { ownText } from "../map/gain-text.js";
import { type OwnScale, ownScale } from "../map/own-scale.js";
import { gainHead } from "../words/own-words.js";
import type { Frame } from "./frame.js";
import type { Layer } from "./layers.js";
import { evenTicks, type Tick } from "./ticks.js";

export const NARROW = 400; // px, plots under it have room for fewer numbers and shorter titles

/** The units that a figure's gains are in. */
export interface Gains {
  readonly own: OwnScale | null;
  readonly units: Pick<StabilityMap["units"], "p" | "d">;
}

/** Ticks at round numbers of the controller's own, at their places in display units. */
export const ownTicks = ([from, to]: readonly [number, number], perUnit: number, most: number): Tick[] =>
  evenTicks(perUnit * from, perUnit * to, most).map(({ at }) => ({ at: at / perUnit, text: ownText(at) }));

/** The written axis of one gain; `perUnit` is how many of the controller's own make one display unit. */
export function gainAxis(
  gain: "P" | "D",
  unit: string,
  perUnit: number | null,
  [from, to]: readonly [number, number],
  width: number,
) {
  const most = width < NARROW ? 5 : 8;
  const title = gainHead(gain, perUnit, unit, width < NARROW ? "" : "controller\u2019s own, ");
  if (perUnit === null) return { title, tickCount: most, labelOverlap: true };
  const ticks = ownTicks([from, to], perUnit, most);
  const values = ticks.map(({ at }) => at);
  const texts = ticks.map(({ text }) => text);
  return {
    title,
    values,
    labelExpr: `${canonicalJson(texts)}[indexof(${canonicalJson(values)}, datum.value)]`,
    labelOverlap: true,
  };
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
      x: {
        field: "d",
        type: "quantitative",
        scale: scale(frame.d),
        axis: gainAxis("D", d, own?.d ?? null, frame.d, frame.width),
      },
      y: {
        field: "p",
        type: "quantitative",
        scale: scale(frame.p),
        axis: gainAxis("P", p, own?.p ?? null, frame.p, frame.width),
      },
    },
  } as Layer;
}
