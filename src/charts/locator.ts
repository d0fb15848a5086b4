// The small map of the first screen: safe ground, ground to avoid, and the tunes on it.
import type { AxisMap, StabilityMap } from "../map/format.js";
import { marginEnds } from "../map/margin-end.js";
import { type Sure, sureOf } from "../map/sure.js";
import { wantedMargins } from "../map/wanted-margins.js";
import type { Axis } from "../words/axes.js";
import { axesLayer } from "./axes-layer.js";
import { cutWhere } from "./clip.js";
import { CONFIDENCE_LINES, confidentRings } from "./confidence-lines.js";
import { type Frame, frameOf, type Point, type Polyline } from "./frame.js";
import { ink } from "./ink.js";
import { filled, type Layer, stroked } from "./layers.js";
import { type Region, regionNames } from "./lettering.js";
import { joined } from "./lines.js";
import { neatline } from "./neatline.js";
import { innerOutline, marked, type Terrain, terrainOf } from "./terrain.js";
import { tuneMarks } from "./tune-marks.js";
import { vegaSvg } from "./vega-svg.js";
import { aboutSafe, viewOf } from "./view.js";

const SIZE = Object.freeze({ width: 250, height: 190 }); // px, of the plot
const LETTERS = 14; // px

/** The regions a pilot must recognise at a glance; clean points without the margins are to be avoided too. */
function groundNames({ safe, verdict }: AxisMap, sure: Sure | null, outline: readonly Polyline[]): Region[] {
  const isSustained = (i: number, j: number) => verdict[i]?.[j] === "sustained";
  const asWritten = (i: number, j: number) => safe[i]?.[j] === true;
  const isSafe = sure?.holds ?? asWritten;
  return [
    { name: "safe", role: "ink", halo: "safe", belongs: isSafe, outline },
    { name: "never fly", role: "letter-on-sustained", halo: "sustained", belongs: isSustained },
    {
      name: "avoid",
      role: "ink",
      halo: "avoid",
      // Ground that is safe as written, but not in enough draws, is neither: a name there would stand on the tune itself.
      belongs: (i, j) => !isSustained(i, j) && !isSafe(i, j) && !asWritten(i, j),
    },
  ];
}

/** `asWritten`: safe in the model as it is written, where `safe` is what holds in enough draws. */
function coloured(frame: Frame, { atLeast, safe }: Terrain, asWritten: readonly Polyline[] | null): Layer[] {
  return [
    filled(frame, atLeast.clean, ink("avoid")),
    ...(asWritten === null ? [] : [filled(frame, asWritten, ink("clean"))]),
    filled(frame, safe, ink("safe")),
    filled(frame, atLeast.sustained, ink("sustained")),
    marked(frame, "sustained", atLeast.sustained, []),
    ...(asWritten === null ? [] : [stroked(frame, innerOutline(frame, asWritten), CONFIDENCE_LINES.asWritten)]),
    stroked(frame, innerOutline(frame, safe), { role: "sheet", width: 4.5 }),
    stroked(frame, innerOutline(frame, safe), { role: "ink", width: 1.4 }),
    stroked(frame, innerOutline(frame, atLeast.sustained), { role: "ink", width: 2.2 }),
  ];
}

const MARGIN_END = Object.freeze({ role: "warn", width: 1.8, dash: [5, 4] } as const);

/** Where the margin ends as P rises, as far as it lies within the frame. */
function marginLines(frame: Frame, map: StabilityMap, name: Axis): Polyline[] {
  const { grid } = map.axes[name];
  const ends = new Map(marginEnds(map.axes[name], wantedMargins(map)).map(({ d, p }) => [d, p]));
  const crossings = grid.d.map((d) => ({ d, p: [ends.get(d)].filter((p) => p !== undefined) }));
  const within = ([d, p]: Point) => d >= frame.d[0] && d <= frame.d[1] && p >= frame.p[0] && p <= frame.p[1];
  return cutWhere(joined(crossings, Number.POSITIVE_INFINITY), (point) => !within(point));
}

/** SVG of the small map of one axis. */
export async function locatorSvg(
  map: StabilityMap,
  name: Axis,
  otherMaps: readonly StabilityMap[] = [],
): Promise<string> {
  const view = viewOf(map, otherMaps);
  // Ground that is safe in enough draws is small: it is shown from near, the whole map stands below.
  const axis = sureOf(view, view.axes[name]) === null ? view.axes[name] : aboutSafe(view.axes[name]);
  const sure = sureOf(view, axis);
  const frame = frameOf(axis.grid, SIZE.width, SIZE.height);
  const written = terrainOf(view, axis);
  const terrain = sure === null ? written : { ...written, safe: confidentRings(axis.grid, sure) };
  const safe = innerOutline(frame, terrain.safe);
  const tunes = tuneMarks(frame, axis, { radius: sure === null ? 9 : 7, named: false });
  const names = groundNames(axis, sure, safe);
  const layer: Layer[] = [
    axesLayer(view, frame),
    ...coloured(frame, terrain, sure === null ? null : written.safe),
    stroked(frame, marginLines(frame, map, name), MARGIN_END),
    ...regionNames({ grid: axis.grid, frame, taken: tunes.taken, lines: safe }, names, LETTERS),
    ...tunes.layers,
    ...neatline(frame, { d: [], p: [] }),
  ];
  return vegaSvg({ ...SIZE, layer });
}
