// The small map of a changed model about its safe ground, with the outlines of the model as it is as dashed lines.
import type { StabilityMap } from "../map/format.js";
import type { Axis } from "../words/axes.js";
import { axesLayer } from "./axes-layer.js";
import { type Frame, frameOf, type Polyline } from "./frame.js";
import { type Layer, stroked } from "./layers.js";
import { regionNames } from "./lettering.js";
import { neatline } from "./neatline.js";
import { ground, innerOutline, terrainOf } from "./terrain.js";
import { tuneMarks } from "./tune-marks.js";
import { vegaSvg } from "./vega-svg.js";
import { aboutSafe } from "./view.js";

const SIZE = Object.freeze({ width: 280, height: 220 }); // px, of the plot
const LETTERS = 14; // px

/** How each line is drawn; the page's key shows the same. */
export const EFFECT_LINES = Object.freeze({
  sustained: { role: "ink", width: 2.4 },
  safe: { role: "ink", width: 1.5 },
  asItIs: { role: "warn", width: 1.8, dash: [6, 4] },
} as const);

/** What all maps of a page share: the model as it is, and every map shown, whose scales are one. */
export interface Shown {
  readonly asItIs: StabilityMap;
  readonly all: readonly StabilityMap[];
}

/** SVG of one axis. */
export async function effectMapSvg(map: StabilityMap, name: Axis, { asItIs, all }: Shown): Promise<string> {
  const others = all.map(({ axes }) => axes[name]);
  const axis = aboutSafe(map.axes[name], others);
  const frame = frameOf(axis.grid, SIZE.width, SIZE.height);
  const terrain = terrainOf(map, axis);
  const safe = innerOutline(frame, terrain.safe);
  const tunes = tuneMarks(frame, axis, { radius: 8, named: false });
  const safeGround = { name: "safe", role: "ink", halo: "safe" } as const;
  const belongs = (i: number, j: number) => axis.safe[i]?.[j] === true;
  const layer: Layer[] = [
    axesLayer(map, frame),
    ...ground(frame, terrain),
    stroked(frame, safe, { role: "sheet", width: 4.5 }),
    stroked(frame, safe, EFFECT_LINES.safe),
    stroked(frame, innerOutline(frame, terrain.atLeast.sustained), EFFECT_LINES.sustained),
    ...(map === asItIs ? [] : outlines(frame, asItIs, name, others)),
    ...regionNames({ grid: axis.grid, frame, taken: tunes.taken, lines: safe }, [{ ...safeGround, belongs }], LETTERS),
    ...tunes.layers,
    ...neatline(frame, { d: [], p: [] }),
  ];
  return vegaSvg({ ...SIZE, layer });
}

/** Safe ground and boundary of the model as it is, where they are not those of this map. */
function outlines(frame: Frame, map: StabilityMap, name: Axis, others: readonly StabilityMap["axes"][Axis][]): Layer[] {
  const { safe, atLeast } = terrainOf(map, aboutSafe(map.axes[name], others));
  const lines: readonly Polyline[][] = [innerOutline(frame, safe), innerOutline(frame, atLeast.sustained)];
  return lines.map((one) => stroked(frame, one, EFFECT_LINES.asItIs));
}
