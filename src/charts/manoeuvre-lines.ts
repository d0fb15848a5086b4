// Two boundaries of one axis, each the worst of every throttle and pack: after a small nudge, and after manoeuvres that
// drive the motors to their limits.
import type { StabilityMap } from "../map/format.js";
import { MANOEUVRES, SMALL_SIGNAL, worstEnds } from "../map/worst-ends.js";
import type { Axis } from "../words/axes.js";
import { axesLayer } from "./axes-layer.js";
import { frameOf } from "./frame.js";
import { type Layer, lettered, stroked } from "./layers.js";
import { HARD_SIGN, throttleStroke } from "./line-signs.js";
import { joined } from "./lines.js";
import { mapLabels } from "./map-labels.js";
import { neatline } from "./neatline.js";
import { circles, theoryWorst } from "./theory-marks.js";
import { vegaSvg } from "./vega-svg.js";
import { sharedGrid } from "./view.js";

const LABEL = 13; // px
const REACH = 0.25; // share of the P range within which the ends of neighbouring D belong to one line

/** SVG of both lines with theory's ends as circles; sizes in px, of the plot. */
export async function manoeuvreLinesSvg(
  map: StabilityMap,
  name: Axis,
  size: { readonly width: number; readonly height: number },
): Promise<string> {
  const axis = map.axes[name];
  const grid = sharedGrid(map, name);
  const frame = frameOf(grid, size.width, size.height);
  const lines = (kinds: readonly string[]) => {
    const ends = new Map(worstEnds(axis, kinds).map(({ d, p }) => [d, p]));
    const crossings = grid.d.map((d) => ({
      d,
      p: [ends.get(d)].filter((p): p is number => p !== undefined && p <= frame.p[1]),
    }));
    return joined(crossings, REACH * (frame.p[1] - frame.p[0]));
  };
  const rows = [
    { text: "small nudge", lines: lines(SMALL_SIGNAL), stroke: throttleStroke(0) },
    { text: "hard manoeuvres", lines: lines(MANOEUVRES), stroke: HARD_SIGN },
  ] as const;
  const theory = theoryWorst(axis.boundary.theory?.loops ?? [], axis.grid);
  const named = rows.map(({ text, lines }) => ({ text, lines, set: "beside" as const, size: LABEL }));
  const layer: Layer[] = [
    axesLayer(map, frame),
    ...rows.map((row) => stroked(frame, row.lines, row.stroke)),
    ...circles(
      frame,
      theory.filter(([d, p]) => d <= frame.d[1] && p <= frame.p[1]),
    ),
    ...lettered(mapLabels(frame, named, [], []), { size: LABEL, role: "ink", halo: "sheet", bold: true }),
    ...neatline(frame, { d: [], p: [] }),
  ];
  return vegaSvg({ width: size.width, height: size.height, layer });
}
