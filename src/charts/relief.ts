// The gain margin of one axis as bare contour lines, for the head of the page: an ornament, but a true one.
import type { StabilityMap } from "../map/format.js";
import type { Axis } from "../words/axes.js";
import { extentOf } from "../words/extent.js";
import { marginContours } from "./contours.js";
import { frameOf, type Polyline, toPixel } from "./frame.js";
import { ink } from "./ink.js";
import { viewOf } from "./view.js";

const SIZE = Object.freeze({ width: 400, height: 120 }); // px
const LEVELS = Object.freeze(Array.from({ length: 24 }, (_, k) => k + 1)); // dB
const EVERY_FIFTH = 5; // drawn stronger, as on a field map

/** SVG of the contours, cut to what they cover; nothing where they cover no ground. */
export function reliefSvg(map: StabilityMap, name: Axis): string {
  const axis = viewOf(map).axes[name];
  const frame = frameOf(axis.grid, SIZE.width, SIZE.height);
  const contours = marginContours(axis, frame, LEVELS).map(({ level, lines }) => ({
    level,
    lines: lines.map((line) => line.map((at) => toPixel(frame, at))),
  }));
  const all = contours.flatMap(({ lines }) => lines.flat());
  const [left, right] = extentOf(all.map(([x]) => x));
  const [top, bottom] = extentOf(all.map(([, y]) => y));
  if (!(right > left && bottom > top)) return "";
  const drawn = contours.map(({ level, lines }) => {
    const width = level % EVERY_FIFTH === 0 ? 1.3 : 0.6;
    return `<path d="${lines.map(path).join("")}" stroke-width="${width}"/>`;
  });
  const group = `<g fill="none" stroke="${ink("contour")}">${drawn.join("")}</g>`;
  return `<svg class="relief" viewBox="${[left, top, right - left, bottom - top].join(" ")}" preserveAspectRatio="none" aria-hidden="true">${group}</svg>`;
}

const path = (line: Polyline): string => `M${line.map((at) => at.map((px) => px.toFixed(1)).join(",")).join("L")}`;
