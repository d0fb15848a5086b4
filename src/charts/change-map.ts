// Safe ground kept, lost and gained between two maps, with the sustained boundary of both.
import type { SafeDrift } from "../compare/format.js";
import type { StabilityMap } from "../map/format.js";
import type { Axis } from "../words/axes.js";
import { axesLayer } from "./axes-layer.js";
import type { Size } from "./axis-map.js";
import { type Frame, frameOf, type Polyline, toPixel } from "./frame.js";
import { ink, type Role } from "./ink.js";
import { filled, type Layer, lettered, stroked, strokedPixels } from "./layers.js";
import { MARK_STROKES, marksOver } from "./marks.js";
import { neatline } from "./neatline.js";
import { type Box, besideLine, boxOf } from "./placement.js";
import { rings } from "./rings.js";
import { innerOutline, terrainOf } from "./terrain.js";
import { tuneMarks } from "./tune-marks.js";
import { vegaSvg } from "./vega-svg.js";
import { viewOf } from "./view.js";

/** How each line and ground is drawn; the page's key shows the same. */
export const CHANGE_LINES = Object.freeze({
  before: { role: "soft", width: 2, dash: [7, 4] },
  after: { role: "ink", width: 2.8 },
} as const);

const LABEL = 12; // px
const HALF_WAY = 0.5;

export interface Changed {
  readonly base: StabilityMap;
  readonly candidate: StabilityMap;
  readonly safe: SafeDrift;
}

export async function changeMapSvg({ base, candidate, safe }: Changed, name: Axis, size: Size): Promise<string> {
  const [before, after] = [viewOf(base, [candidate]), viewOf(candidate, [base])];
  const { grid } = after.axes[name];
  const frame = frameOf(grid, size.width, size.height);
  const outline = (letter: string) =>
    rings(
      grid,
      (i, j) => safe.points[i]?.[j] === letter,
      () => HALF_WAY,
    );
  const [both, lost, gained] = [outline("b"), outline("l"), outline("g")];
  const lines = {
    before: innerOutline(frame, terrainOf(before, before.axes[name]).atLeast.sustained),
    after: innerOutline(frame, terrainOf(after, after.axes[name]).atLeast.sustained),
  };
  const tunes = tuneMarks(frame, after.axes[name]);
  const layer: Layer[] = [
    axesLayer(after, frame),
    filled(frame, both, ink("safe")),
    ...marked(frame, gained, "gained"),
    ...marked(frame, lost, "lost"),
    ...[both, lost, gained].map((one) => stroked(frame, innerOutline(frame, one), { role: "ink", width: 1 })),
    stroked(frame, lines.before, CHANGE_LINES.before),
    stroked(frame, lines.after, CHANGE_LINES.after),
    ...names(frame, lines, tunes.taken),
    ...tunes.layers,
    ...neatline(frame, grid),
  ];
  return vegaSvg({ width: size.width, height: size.height, layer });
}

function marked(frame: Frame, outline: readonly Polyline[], ground: "lost" | "gained"): Layer[] {
  if (outline.length === 0) return [];
  const pixels = outline.map((ring) => ring.map((point) => toPixel(frame, point)));
  const marks = marksOver({ ...frame, rings: pixels }, ground);
  return [filled(frame, outline, ink(ground)), strokedPixels(marks, MARK_STROKES[ground])];
}

/** Names beside the two boundaries; left out where there is no room. */
function names(
  frame: Frame,
  lines: { readonly before: readonly Polyline[]; readonly after: readonly Polyline[] },
  taken: readonly Box[],
): Layer[] {
  const pixels = (line: Polyline) => line.map((point) => toPixel(frame, point));
  const all = [...lines.before, ...lines.after].map(pixels);
  const boxes = [...taken];
  return (["after", "before"] as const).flatMap((side) => {
    const line = [...lines[side]].sort((a, b) => b.length - a.length)[0];
    if (line === undefined) return [];
    const text = side === "after" ? "boundary now" : "boundary before";
    const label = besideLine({ frame, text, size: LABEL, line: pixels(line), taken: boxes, lines: all });
    if (label === null) return [];
    boxes.push(boxOf(text, label.at, LABEL));
    const role: Role = side === "after" ? "ink" : "soft";
    return lettered([label], { size: LABEL, role, halo: "sheet" });
  });
}
