// The small map of the first screen: safe ground, ground to avoid, and the starting tune on it.
import type { StabilityMap } from "../../map/format.js";
import type { Axis } from "../axes.js";
import { axesLayer } from "./axes-layer.js";
import { type Frame, frameOf, toPixel } from "./frame.js";
import { ink, type Role } from "./ink.js";
import { filled, type Layer, lettered, neatline, stroked, surveyPoint } from "./layers.js";
import { lettering, type Region } from "./lettering.js";
import { patternDefs, patternId } from "./patterns.js";
import type { Box } from "./placement.js";
import { shore, type Terrain, terrainOf } from "./terrain.js";
import { vegaSvg } from "./vega-svg.js";

const SIZE = Object.freeze({ width: 250, height: 190 }); // px, of the plot
const LETTERS = 14; // px

interface Ground extends Region {
  readonly role: Role;
  readonly halo: Role;
}

/** The kinds of ground a pilot must tell apart at a glance. */
function groundNames(map: StabilityMap, name: Axis): Ground[] {
  const { safe, verdict } = map.axes[name];
  const is = (i: number, j: number, wanted: string) => verdict[i]?.[j] === wanted;
  return [
    { name: "safe", role: "ink", halo: "safe", belongs: (i, j) => safe[i]?.[j] === true },
    { name: "never fly", role: "letter-on-sustained", halo: "sustained", belongs: (i, j) => is(i, j, "sustained") },
    { name: "avoid", role: "ink", halo: "ringing", belongs: (i, j) => !is(i, j, "sustained") && !is(i, j, "clean") },
  ];
}

function coloured(frame: Frame, { atLeast, safe }: Terrain, prefix: string): Layer[] {
  return [
    filled(frame, atLeast.clean, ink("clean")),
    filled(frame, safe, ink("safe")),
    filled(frame, atLeast.loose, ink("ringing")),
    filled(frame, atLeast.loose, `url(#${patternId(prefix, "ringing")})`),
    filled(frame, atLeast.sustained, ink("sustained")),
    filled(frame, atLeast.sustained, `url(#${patternId(prefix, "sustained")})`),
    stroked(frame, shore(frame, safe), { role: "sheet", width: 4.5 }),
    stroked(frame, shore(frame, safe), { role: "ink", width: 1.4 }),
    stroked(frame, shore(frame, atLeast.sustained), { role: "ink", width: 2.2 }),
  ];
}

/** SVG of the small map of one axis. */
export async function locatorSvg(map: StabilityMap, name: Axis, prefix: string): Promise<string> {
  const frame = frameOf(map, SIZE.width, SIZE.height);
  const { start } = map.axes[name];
  const terrain = terrainOf(map, map.axes[name]);
  const names = groundNames(map, name);
  const at = start === null ? null : toPixel(frame, [start.d, start.p]);
  const taken: Box[] = at === null ? [] : [{ left: at[0] - 12, top: at[1] - 12, right: at[0] + 12, bottom: at[1] + 10 }];
  const labels = lettering(map, frame, names, LETTERS, taken, []);
  const layer: Layer[] = [
    axesLayer(map, frame),
    ...coloured(frame, terrain, prefix),
    ...labels.flatMap((label) => {
      const { role, halo } = names.find((one) => one.name === label.text) ?? { role: "ink" as const, halo: "sheet" as const };
      return lettered([label], { size: LETTERS, role, halo, italic: true });
    }),
    ...(start === null ? [] : surveyPoint(frame, [start.d, start.p], 9)),
    ...neatline(frame, { d: [], p: [] }),
  ];
  return vegaSvg({ ...SIZE, layer }, prefix, patternDefs(prefix));
}
