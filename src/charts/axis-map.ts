// The stability map of one axis: verdicts as ground, boundaries as labelled lines, the safe region outlined, the
// starting tune as a circle with a dot.
import type { AxisMap, StabilityMap } from "../map/format.js";
import { type Sure, sureOf } from "../map/sure.js";
import type { Axis } from "../words/axes.js";
import { ofDraws } from "../words/confidence-words.js";
import { toThreeDigits } from "../words/numbers.js";
import { axesLayer } from "./axes-layer.js";
import { BAND_OPACITY, type Band, bandOf, CONFIDENCE_LINES, confidentRings } from "./confidence-lines.js";
import { marginContours } from "./contours.js";
import { type Frame, frameOf, type Polyline } from "./frame.js";
import { ink } from "./ink.js";
import { filled, type Layer, lettered, stroked } from "./layers.js";
import { type Region, regionLabels, regionLetters, regionNames, type Surroundings } from "./lettering.js";
import { limitLines } from "./limit-lines.js";
import { boxesOf, mapLabels, type NamedLines } from "./map-labels.js";
import { neatline } from "./neatline.js";
import { boxOf } from "./placement.js";
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
  /** The outline of the safe ground. */
  readonly safe: readonly Polyline[];
}

const limitText = (word: string, limit: number | null, unit: string): string =>
  limit === null ? word : `${word} ${toThreeDigits(limit)} ${unit}`;

const lineLabel = (text: string, lines: readonly Polyline[]): NamedLines => ({
  text,
  lines,
  set: "beside",
  size: LABEL,
});

/** Boundary and safe ground of the model as it is written. */
function writtenLines(frame: Frame, { atLeast, safe: ground }: Terrain): MapLines {
  const sustained = innerOutline(frame, atLeast.sustained);
  const safe = innerOutline(frame, ground);
  return {
    named: [lineLabel("sustained boundary", sustained)],
    layers: [
      stroked(frame, safe, { role: "sheet", width: 5 }),
      stroked(frame, safe, MAP_LINES.safe),
      stroked(frame, sustained, MAP_LINES.sustained),
    ],
    safe,
  };
}

/** Those of all draws, with the model as it is written as thin lines. */
function drawnLines(frame: Frame, written: Terrain, sure: Sure, region: readonly Polyline[]): MapLines {
  const safe = innerOutline(frame, region);
  const asWritten = innerOutline(frame, written.safe);
  const band = bandOf(frame, sure.band);
  return {
    named: [lineLabel("boundary in half the draws", band.middle), lineLabel("safe as written", asWritten)],
    layers: [
      stroked(frame, asWritten, CONFIDENCE_LINES.asWritten),
      stroked(frame, safe, { role: "sheet", width: 5.5 }),
      stroked(frame, safe, CONFIDENCE_LINES.region),
      stroked(frame, innerOutline(frame, written.atLeast.sustained), CONFIDENCE_LINES.asWritten),
      ...bandLayers(frame, band),
    ],
    safe,
  };
}

function bandLayers(frame: Frame, { area, low, middle, high }: Band): Layer[] {
  return [
    filled(frame, area, ink("ink"), BAND_OPACITY),
    stroked(frame, [...low, ...high], CONFIDENCE_LINES.edge),
    stroked(frame, middle, CONFIDENCE_LINES.middle),
  ];
}

function linesOf(view: StabilityMap, axis: AxisMap, frame: Frame, main: MapLines): MapLines {
  const overshoot = limitLines(axis, "overshoot");
  const settling = limitLines(axis, "settling");
  const contours = marginContours(axis, frame);
  return {
    named: [
      ...main.named,
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
      ...main.layers,
    ],
    safe: main.safe,
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
  const written = terrainOf(view, axis);
  const sure = sureOf(view, axis);
  const terrain = sure === null ? written : { ...written, safe: confidentRings(axis.grid, sure) };
  const main = sure === null ? writtenLines(frame, written) : drawnLines(frame, written, sure, terrain.safe);
  const lines = linesOf(view, axis, frame, main);
  const tunes = sure === null ? tuneMarks(frame, axis) : tuneMarks(frame, axis, { radius: 6, named: true });
  const regions = regionsOf(axis, lines.safe, safeName(sure));
  const marks = { grid: axis.grid, frame, taken: tunes.taken, lines: lines.named.flatMap((one) => one.lines) };
  // The region a stranger should see first has its name before anything else takes the room.
  const first = sure === null ? [] : safeLabel({ ...marks, lines: lines.safe }, regions, size.letters, sure);
  const named = first.map(({ text, at }) => boxOf(text, at, size.letters));
  const labels = mapLabels(frame, lines.named, lines.safe, [...tunes.taken, ...named]);
  const around = {
    ...marks,
    taken: [...tunes.taken, ...named, ...boxesOf(labels)],
    lines: [...marks.lines, ...lines.safe],
  };
  const layer: Layer[] = [
    axesLayer(view, frame),
    ...ground(frame, terrain),
    ...lines.layers,
    ...(sure === null ? circlesAlong(frame, theoryWorstLines(map.axes[name], axis.grid)) : []),
    ...regionLetters(first, size.letters),
    ...regionNames(around, sure === null ? regions : regions.slice(1), size.letters),
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

/** The name of the safe ground, in short where there is no room for all of it. */
function safeLabel(marks: Surroundings, [region]: readonly Region[], letters: number, { confidence }: Sure) {
  if (region === undefined) return [];
  const full = regionLabels(marks, [region], letters);
  return full.length > 0 ? full : regionLabels(marks, [{ ...region, name: ofDraws(confidence) }], letters);
}

/** What the safe ground is called, and where it lies. */
const safeName = (sure: Sure | null) =>
  sure === null ? undefined : { name: `Safe in ${ofDraws(sure.confidence)}`, isSafe: sure.holds };
