// The sustained boundary of one condition, a line per throttle level: how the limit falls as the throttle rises, and
// from figure to figure how far the pack moves it.

import { KIND_IDS } from "../base/script-kinds.js";
import type { AxisMap, ConditionBoundary, StabilityMap } from "../map/format.js";
import { SMALL_SIGNAL } from "../map/worst-ends.js";
import type { Axis } from "../words/axes.js";
import { toThreeDigits } from "../words/numbers.js";
import { axesLayer } from "./axes-layer.js";
import { type Frame, frameOf, type Polyline, toPixel } from "./frame.js";
import { ink } from "./ink.js";
import { filled, type Layer, lettered, stroked } from "./layers.js";
import { throttleStroke } from "./line-signs.js";
import { joined } from "./lines.js";
import { neatline } from "./neatline.js";
import { alongLine, besideLine, boxOf, type Label } from "./placement.js";
import { terrainOf } from "./terrain.js";
import { circlesAlong, theoryLines } from "./theory-marks.js";
import { vegaSvg } from "./vega-svg.js";
import { sharedGrid, viewOf } from "./view.js";

const SIZE = Object.freeze({ width: 280, height: 240 }); // px, of the plot
const LABEL = 15; // px
const REACH = 0.25; // share of the P range within which the ends of neighbouring D belong to one line

export interface ThrottleLines {
  readonly condition: string;
  /** The script whose boundary is drawn. */
  readonly script: string;
  /** Highest throttle first. */
  readonly levels: readonly ConditionBoundary[];
}

/** For each condition the variants to draw: one script, one line per throttle. */
export function throttleLines(axis: AxisMap): ThrottleLines[] {
  const all = axis.boundary.byVariant.filter(({ atRest }) => atRest !== true);
  const conditions = [...new Set(all.map((one) => one.condition))];
  return conditions.flatMap((condition) => {
    const here = all.filter((one) => one.condition === condition);
    // A small nudge shows the loop itself; the others stand in where a sweep has none.
    const kind = KIND_IDS.find((candidate) => here.some((one) => one.kind === candidate));
    const script = here.find((one) => one.kind === kind)?.script;
    if (script === undefined) return [];
    const highest = here
      .filter((one) => one.script === script)
      .sort((a, b) => b.throttle - a.throttle || b.rate - a.rate);
    const levels = highest.filter((one, k) => one.throttle !== highest[k - 1]?.throttle);
    return [{ condition, script, levels }];
  });
}

/** The ends of the stable intervals that lie inside the grid, with a nose where the last interval closes. */
function boundaryLines(variant: ConditionBoundary, frame: Frame): Polyline[] {
  const shown = variant.perD.filter(({ d }) => d <= frame.d[1]);
  const ends = shown.map(({ d, stable }, k) => {
    const ends = stable.flatMap((at) => [...(at.fromOpen ? [] : [at.from]), ...(at.toOpen ? [] : [at.to])]);
    const inside = ends.filter((p) => p <= frame.p[1]);
    return { d, p: inside, closes: stable.length > 0 && shown[k + 1]?.stable.length === 0 };
  });
  const lines = joined(ends, REACH * (frame.p[1] - frame.p[0]));
  const noses = ends
    .filter(({ closes, p }) => closes && p.length === 2)
    .map(({ d, p }): Polyline => p.map((value) => [d, value] as const));
  return [...lines, ...noses];
}

function labelsOf(
  frame: Frame,
  rows: readonly { readonly text: string; readonly lines: readonly Polyline[] }[],
): Label[] {
  const pixels = (line: Polyline) => line.map((point) => toPixel(frame, point));
  const placed: Label[] = [];
  for (const { text, lines } of rows) {
    const longest = [...lines].sort((a, b) => b.length - a.length)[0];
    if (longest === undefined) continue;
    const taken = placed.map((label) => boxOf(label.text, label.at, LABEL));
    const others = rows.filter((row) => row.text !== text).flatMap((row) => row.lines.map(pixels));
    const search = { frame, text, size: LABEL, line: pixels(longest), taken, lines: others };
    const label = alongLine(search) ?? besideLine({ ...search, lines: rows.flatMap((row) => row.lines.map(pixels)) }); // a short line has no room for its name upon it
    if (label !== null) placed.push(label);
  }
  return placed;
}

/** SVG of one condition's boundaries, theory's as circles; the ground is what stays stable in every script and condition. */
export async function throttleLinesSvg(map: StabilityMap, name: Axis, shown: ThrottleLines): Promise<string> {
  const frame = frameOf(sharedGrid(map, name), SIZE.width, SIZE.height);
  const rows = shown.levels.map((level, k) => ({
    text: `${toThreeDigits(level.throttle)} %`,
    lines: boundaryLines(level, frame),
    theory: SMALL_SIGNAL.includes(level.kind) ? theoryLines(map.axes[name], level.throttle, level.condition) : [],
    stroke: throttleStroke(k),
  }));
  const terrain = terrainOf(map, viewOf(map).axes[name]);
  const layer: Layer[] = [
    axesLayer(map, frame),
    filled(frame, terrain.atLeast.clean, ink("clean")),
    filled(frame, terrain.atLeast.sustained, ink("sheet")),
    ...rows.map((row) => stroked(frame, row.lines, row.stroke)),
    ...rows.flatMap((row) => circlesAlong(frame, row.theory)),
    ...lettered(labelsOf(frame, rows), { size: LABEL, role: "ink", halo: "sheet", bold: true, gap: 7 }),
    ...neatline(frame, { d: [], p: [] }),
  ];
  return vegaSvg({ ...SIZE, layer }, LABEL);
}
