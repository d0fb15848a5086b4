// Two boundaries of one axis, each the worst of every throttle and pack: after a small nudge, and after manoeuvres that
// drive the motors to their limits.
import type { StabilityMap } from "../map/format.js";
import { MANOEUVRES, SMALL_SIGNAL, worstEnds } from "../map/worst-ends.js";
import type { Axis } from "../words/axes.js";
import { axesLayer } from "./axes-layer.js";
import { frameOf } from "./frame.js";
import { type Layer, lettered, stroked } from "./layers.js";
import { joined } from "./lines.js";
import { mapLabels } from "./map-labels.js";
import { neatline } from "./neatline.js";
import { circles, theoryWorst } from "./theory-marks.js";
import { vegaSvg } from "./vega-svg.js";

const LABEL = 13; // px
const REACH = 0.25; // share of the P range within which the ends of neighbouring D belong to one line

/** SVG of both lines with theory's ends as circles; sizes in px, of the plot. */
export async function manoeuvreLinesSvg(
  map: StabilityMap,
  name: Axis,
  size: { readonly width: number; readonly height: number },
): Promise<string> {
  const axis = map.axes[name];
  const frame = frameOf(axis.grid, size.width, size.height);
  const lines = (kinds: readonly string[]) => {
    const ends = new Map(worstEnds(axis, kinds).map(({ d, p }) => [d, p]));
    const crossings = axis.grid.d.map((d) => ({ d, p: [ends.get(d)].filter((p) => p !== undefined) }));
    return joined(crossings, REACH * (frame.p[1] - frame.p[0]));
  };
  const rows = [
    { text: "small nudge", lines: lines(SMALL_SIGNAL), stroke: { role: "ink", width: 2.6 } },
    { text: "hard manoeuvres", lines: lines(MANOEUVRES), stroke: { role: "contour", width: 2, dash: [8, 4] } },
  ] as const;
  const theory = theoryWorst(axis.boundary.theory?.loops ?? [], axis.grid);
  const named = rows.map(({ text, lines }) => ({ text, lines, set: "beside" as const, size: LABEL }));
  const layer: Layer[] = [
    axesLayer(map, frame),
    ...rows.map((row) => stroked(frame, row.lines, row.stroke)),
    ...circles(
      frame,
      theory.filter(([, p]) => p <= frame.p[1]),
    ),
    ...lettered(mapLabels(frame, named, [], []), { size: LABEL, role: "ink", halo: "sheet", bold: true }),
    ...neatline(frame, { d: [], p: [] }),
  ];
  return vegaSvg({ width: size.width, height: size.height, layer });
}
