// One measure over the gain plane as tinted ground with contours, like heights on a field map; its limit drawn strong.
import type { MeasureId } from "../base/measures.js";
import type { StabilityMap } from "../map/format.js";
import type { Axis } from "../words/axes.js";
import { toThreeDigits } from "../words/numbers.js";
import { axesLayer } from "./axes-layer.js";
import { BAND_LINES } from "./band-lines.js";
import { type Bands, bandsOf, contourOf, tintAt } from "./bands.js";
import { type Frame, frameOf, type Polyline } from "./frame.js";
import { ink, type Role } from "./ink.js";
import { filled, type Layer, lettered, stroked } from "./layers.js";
import { fieldOf, levelsOf, shownValues } from "./levels.js";
import { mapLabels, type NamedLines } from "./map-labels.js";
import { neatline } from "./neatline.js";
import { innerOutline, marked, terrainOf } from "./terrain.js";
import { tuneMarks } from "./tune-marks.js";
import { vegaSvg } from "./vega-svg.js";
import { viewOf } from "./view.js";

const SIZE = Object.freeze({ width: 280, height: 240 }); // px, of the plot
const LABEL = 14; // px

/** SVG of a measure's map on one axis. */
export async function measureMapSvg(map: StabilityMap, name: Axis, id: MeasureId): Promise<string> {
  const view = viewOf(map);
  const axis = view.axes[name];
  const frame = frameOf(axis.grid, SIZE.width, SIZE.height);
  const limit = view.limits[id];
  const field = fieldOf(axis, id);
  const bands = bandsOf(axis.grid, field, levelsOf(shownValues(Object.values(view.axes), id), limit));
  const { sustained } = terrainOf(view, axis).atLeast;
  const tunes = tuneMarks(frame, axis, { radius: 9, named: false });
  const lines = bands.atLeast.map(({ level, rings }) => ({
    level,
    lines: contourOf({ frame, lattice: axis.grid, field }, rings, sustained),
  }));
  const named = lines.map(
    ({ level, lines: contour }): NamedLines => ({
      text: toThreeDigits(level),
      lines: contour,
      set: "into",
      size: LABEL,
    }),
  );
  const layer: Layer[] = [
    axesLayer(view, frame),
    ...ground(frame, bands),
    ...lines.map(({ level, lines: contour }) =>
      stroked(frame, contour, level === limit ? BAND_LINES.limit : BAND_LINES.contour),
    ),
    filled(frame, sustained, ink("sustained")),
    marked(frame, "sustained", sustained, []),
    ...mapLabels(frame, named, innerOutline(frame, sustained), tunes.taken).flatMap((label) =>
      lettered([label], { size: label.size, role: "ink", halo: "sheet", gap: 5 }),
    ),
    ...tunes.layers,
    ...neatline(frame, { d: [], p: [] }),
  ];
  return vegaSvg({ ...SIZE, layer }, LABEL);
}

function ground(frame: Frame, { defined, atLeast }: Bands): Layer[] {
  const tint = (passed: number): string => ink(`tint-${tintAt(passed, atLeast.length)}` as Role);
  const areas: readonly (readonly Polyline[])[] = [defined, ...atLeast.map(({ rings }) => rings)];
  return areas.map((rings, passed) => filled(frame, rings, tint(passed)));
}
