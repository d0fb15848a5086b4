// The small map of the first screen: safe ground, ground to avoid, and the tunes on it.
import type { AxisMap, StabilityMap } from "../map/format.js";
import type { Axis } from "../words/axes.js";
import { axesLayer } from "./axes-layer.js";
import { type Frame, frameOf, type Polyline } from "./frame.js";
import { ink } from "./ink.js";
import { filled, type Layer, stroked } from "./layers.js";
import { type Region, regionNames } from "./lettering.js";
import { neatline } from "./neatline.js";
import { innerOutline, marked, type Terrain, terrainOf } from "./terrain.js";
import { tuneMarks } from "./tune-marks.js";
import { vegaSvg } from "./vega-svg.js";
import { viewOf } from "./view.js";

const SIZE = Object.freeze({ width: 250, height: 190 }); // px, of the plot
const LETTERS = 14; // px

/** The regions a pilot must recognise at a glance; clean points without the margins are to be avoided too. */
function groundNames({ safe, verdict }: AxisMap, outline: readonly Polyline[]): Region[] {
  const isSustained = (i: number, j: number) => verdict[i]?.[j] === "sustained";
  const isSafe = (i: number, j: number) => safe[i]?.[j] === true;
  return [
    { name: "safe", role: "ink", halo: "safe", belongs: isSafe, outline },
    { name: "never fly", role: "letter-on-sustained", halo: "sustained", belongs: isSustained },
    { name: "avoid", role: "ink", halo: "avoid", belongs: (i, j) => !isSustained(i, j) && !isSafe(i, j) },
  ];
}

function coloured(frame: Frame, { atLeast, safe }: Terrain): Layer[] {
  return [
    filled(frame, atLeast.clean, ink("avoid")),
    filled(frame, safe, ink("safe")),
    filled(frame, atLeast.sustained, ink("sustained")),
    marked(frame, "sustained", atLeast.sustained, []),
    stroked(frame, innerOutline(frame, safe), { role: "sheet", width: 4.5 }),
    stroked(frame, innerOutline(frame, safe), { role: "ink", width: 1.4 }),
    stroked(frame, innerOutline(frame, atLeast.sustained), { role: "ink", width: 2.2 }),
  ];
}

/** SVG of the small map of one axis. */
export async function locatorSvg(
  map: StabilityMap,
  name: Axis,
  otherMaps: readonly StabilityMap[] = [],
): Promise<string> {
  const view = viewOf(map, otherMaps);
  const axis = view.axes[name];
  const frame = frameOf(axis.grid, SIZE.width, SIZE.height);
  const terrain = terrainOf(view, axis);
  const safe = innerOutline(frame, terrain.safe);
  const tunes = tuneMarks(frame, axis, { radius: 9, named: false });
  const names = groundNames(axis, safe);
  const layer: Layer[] = [
    axesLayer(view, frame),
    ...coloured(frame, terrain),
    ...regionNames({ grid: axis.grid, frame, taken: tunes.taken, lines: safe }, names, LETTERS),
    ...tunes.layers,
    ...neatline(frame, { d: [], p: [] }),
  ];
  return vegaSvg({ ...SIZE, layer });
}
