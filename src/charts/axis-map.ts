// The stability map of one axis: verdicts as ground, boundaries as labelled lines, the safe region outlined, the
// starting tune as a circle with a dot.
import type { AxisMap, StabilityMap } from "../map/format.js";
import type { Axis } from "../words/axes.js";
import { toThreeDigits } from "../words/numbers.js";
import { axesLayer } from "./axes-layer.js";
import { marginContours } from "./contours.js";
import { type Frame, frameOf, type Polyline } from "./frame.js";
import { type Layer, lettered, stroked } from "./layers.js";
import { regionNames } from "./lettering.js";
import { limitLines } from "./limit-lines.js";
import { boxesOf, mapLabels, type NamedLines } from "./map-labels.js";
import { neatline } from "./neatline.js";
import { regionsOf } from "./regions.js";
import { ground, innerOutline, type Terrain, terrainOf } from "./terrain.js";
import { circlesAlong, theoryWorstLines } from "./theory-marks.js";
import { tuneMarks } from "./tune-marks.js";
import { vegaSvg } from "./vega-svg.js";
import { viewOf } from "./view.js";

export interface Size {
  readonly width: number; // px, of the plot
  readonly height: number;
  readonly letters: number; // px, of the region names
}

/** How each line of the map is drawn; the page's key shows the same strokes. */
export const MAP_LINES = Object.freeze({
  sustained: { role: "ink", width: 2.8 },
  overshoot: { role: "contour", width: 1.8, dash: [8, 4] },
  settling: { role: "contour", width: 2, dash: [0.5, 4.5] },
  safe: { role: "ink", width: 1.6 },
  contour: { role: "contour", width: 0.9 },
} as const);

const LABEL = 12; // px
const CONTOUR_LABEL = 11; // px

interface MapLines {
  readonly named: readonly NamedLines[];
  readonly layers: readonly Layer[];
  readonly safe: readonly Polyline[];
}

const limitText = (word: string, limit: number | null, unit: string): string =>
  limit === null ? word : `${word} ${toThreeDigits(limit)} ${unit}`;

function linesOf(view: StabilityMap, axis: AxisMap, frame: Frame, terrain: Terrain): MapLines {
  const sustained = innerOutline(frame, terrain.atLeast.sustained);
  const overshoot = limitLines(axis, "overshoot");
  const settling = limitLines(axis, "settling");
  const safe = innerOutline(frame, terrain.safe);
  const contours = marginContours(axis, frame);
  const lineLabel = (text: string, lines: readonly Polyline[]): NamedLines => ({
    text,
    lines,
    set: "beside",
    size: LABEL,
  });
  return {
    named: [
      lineLabel("sustained boundary", sustained),
      lineLabel(limitText("bounce-back", view.limits.overshoot, "%"), overshoot),
      lineLabel(limitText("settles in", view.limits.settling, "ms"), settling),
      ...contours.map(
        ({ level, lines }): NamedLines => ({ text: `${level} dB`, lines, set: "into", size: CONTOUR_LABEL }),
      ),
    ],
    layers: [
      ...contours.map(({ lines }) => stroked(frame, lines, MAP_LINES.contour)),
      stroked(frame, overshoot, MAP_LINES.overshoot),
      stroked(frame, settling, MAP_LINES.settling),
      stroked(frame, safe, { role: "sheet", width: 5 }),
      stroked(frame, safe, MAP_LINES.safe),
      stroked(frame, sustained, MAP_LINES.sustained),
    ],
    safe,
  };
}

/** SVG of the map of one axis; `sharingScale` are maps shown next to it. */
export async function axisMapSvg(
  map: StabilityMap,
  name: Axis,
  size: Size,
  sharingScale: readonly StabilityMap[] = [],
): Promise<string> {
  const view = viewOf(map, sharingScale);
  const axis = view.axes[name];
  const frame = frameOf(axis.grid, size.width, size.height);
  const terrain = terrainOf(view, axis);
  const lines = linesOf(view, axis, frame, terrain);
  const tunes = tuneMarks(frame, axis);
  const labels = mapLabels(frame, lines.named, lines.safe, tunes.taken);
  const around = {
    grid: axis.grid,
    frame,
    taken: [...tunes.taken, ...boxesOf(labels)],
    lines: [...lines.named.flatMap((one) => one.lines), ...lines.safe],
  };
  const layer: Layer[] = [
    axesLayer(view, frame),
    ...ground(frame, terrain),
    ...lines.layers,
    ...circlesAlong(frame, theoryWorstLines(map.axes[name], axis.grid)),
    ...regionNames(around, regionsOf(axis, lines.safe), size.letters),
    ...labels.flatMap((label) =>
      label.set === "into"
        ? lettered([label], { size: label.size, role: "contour", halo: "sheet", gap: 6 })
        : lettered([label], { size: label.size, role: "ink", halo: "sheet" }),
    ),
    ...tunes.layers,
    ...neatline(frame, axis.grid),
  ];
  return vegaSvg({ width: size.width, height: size.height, layer });
}
