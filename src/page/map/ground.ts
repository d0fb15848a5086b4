// Other ground for a map: a measure as tinted heights with contours, or the verdicts under one level alone. Drawn with
// the outlines and marks the pictures are drawn with.
import { type MeasureId, VERDICTS, type Verdict } from "../../base/measures.js";
import { BAND_LINES } from "../../charts/band-lines.js";
import { bandsOf, contourOf, tintAt } from "../../charts/bands.js";
import type { Frame, Point, Polyline } from "../../charts/frame.js";
import { toPixel } from "../../charts/frame.js";
import { ink, type Role } from "../../charts/ink.js";
import { regionLabels } from "../../charts/lettering.js";
import { fieldOf, levelsOf, shownValues } from "../../charts/levels.js";
import { mapLabels } from "../../charts/map-labels.js";
import { MARK_STROKES, marksOver } from "../../charts/marks.js";
import { regionsOf } from "../../charts/regions.js";
import { innerOutline, type Terrain, terrainOf } from "../../charts/terrain.js";
import { placesAlong, THEORY_RADIUS } from "../../charts/theory-marks.js";
import type { PageLoop } from "../../page-data/data.js";
import { toThreeDigits } from "../../words/numbers.js";
import { draw } from "../dom.js";
import type { PageMap, PageMapAxis } from "../page-map.js";
import type { Level } from "../simulator.js";
import { tuneMarkBoxes } from "./tune-marks.js";

type Rings = readonly Polyline[];

/** A measure of one axis; levels are those of both axes together, so that their tints compare. */
export function measureGround(
  frame: Frame,
  pageMap: Pick<PageMap, "limits">,
  axis: PageMapAxis,
  both: readonly PageMapAxis[],
  id: MeasureId,
): SVGElement[] {
  const limit = pageMap.limits[id];
  const levels = levelsOf(shownValues(both, id), limit);
  const field = fieldOf(axis, id);
  const { defined, atLeast } = bandsOf(axis.grid, field, levels);
  const { sustained } = terrainOf(pageMap, axis).atLeast;
  const lines = atLeast.map(({ level, rings }) => ({
    level,
    lines: contourOf({ frame, lattice: axis.grid, field }, rings, sustained),
  }));
  const named = lines.map((one) => ({
    text: toThreeDigits(one.level),
    lines: one.lines,
    set: "into" as const,
    size: LETTERS,
  }));
  return [
    ...area(frame, [square(frame)], "sheet"),
    ...[defined, ...atLeast.map(({ rings }) => rings)].flatMap((rings, passed) =>
      area(frame, rings, `tint-${tintAt(passed, levels.length)}` as Role),
    ),
    ...lines.flatMap(({ level, lines: contour }) =>
      line(frame, contour, level === limit ? BAND_LINES.limit : BAND_LINES.contour),
    ),
    ...marked(frame, "sustained", sustained, []),
    ...mapLabels(frame, named, innerOutline(frame, sustained), []).map(({ text, at: [x, y] }) =>
      draw("text", { x, y, class: "contour-label", "font-size": LETTERS }, text),
    ),
    border(frame),
  ];
}

const LETTERS = 13; // px

/** The verdicts of one axis under one level, with theory's boundary there and the names of the grounds. */
export function verdictGround(
  frame: Frame,
  pageMap: Pick<PageMap, "limits">,
  axis: PageMapAxis,
  tunes: PageMap["tunes"]["roll"],
  level: Level,
): SVGElement[] {
  const { atLeast }: Terrain = terrainOf(pageMap, axis);
  const mildFirst = [...VERDICTS].reverse();
  const boundary = innerOutline(frame, atLeast.sustained);
  return [
    ...mildFirst.flatMap((verdict, k) => {
      const graver = mildFirst[k + 1];
      return marked(frame, verdict, atLeast[verdict], graver === undefined ? [] : atLeast[graver]);
    }),
    ...line(frame, boundary, { role: "ink", width: 2.8 }),
    ...theoryCircles(frame, tunes.theory, level),
    ...groundNames(frame, axis, boundary, tunes),
    border(frame),
  ];
}

const theoryCircles = (frame: Frame, loops: readonly PageLoop[], { duty, condition }: Level): SVGElement[] =>
  loops
    .filter((loop) => loop.condition === condition && Math.abs(loop.throttle - duty) < SAME_DUTY)
    .flatMap(({ lines }) => placesAlong(frame, lines))
    .map(([cx, cy]) => draw("circle", { cx, cy, r: THEORY_RADIUS, fill: ink("sheet"), stroke: ink("ink") }));

const SAME_DUTY = 1e-6; // %, the map's own rounding

function groundNames(
  frame: Frame,
  axis: PageMapAxis,
  lines: readonly Polyline[],
  tunes: PageMap["tunes"]["roll"],
): SVGElement[] {
  const size = frame.width < 400 ? 14 : 16;
  const around = { grid: axis.grid, frame, taken: tuneMarkBoxes(frame, tunes), lines };
  return regionLabels(around, regionsOf(axis, []), size).map(({ text, at: [x, y], role, halo }) =>
    draw("text", { x, y, class: "ground-name", "font-size": size, fill: ink(role), stroke: ink(halo) }, text),
  );
}

/** For an axis whose trials are still being simulated: the old map shows through, with a note. */
export function notSimulated(frame: Frame): SVGElement[] {
  const [x, y] = [frame.width / 2, frame.height / 2];
  const veil = { width: frame.width, height: frame.height, fill: ink("sheet"), opacity: 0.8 };
  return [
    draw("rect", veil),
    draw(
      "text",
      { x, y, class: "ground-name", "font-size": 18, fill: ink("ink"), stroke: ink("sheet") },
      "being simulated",
    ),
    border(frame),
  ];
}

const square = ({ d, p }: Frame): Polyline => [
  [d[0], p[0]],
  [d[1], p[0]],
  [d[1], p[1]],
  [d[0], p[1]],
];

const pixels = (frame: Frame, rings: Rings): Point[][] => rings.map((ring) => ring.map((at) => toPixel(frame, at)));

/** A verdict's ground under its marks, less what lies on top. */
function marked(frame: Frame, verdict: Verdict, outline: Rings, less: Rings): SVGElement[] {
  const { role, width } = MARK_STROKES[verdict];
  const marks = marksOver({ ...frame, rings: pixels(frame, [...outline, ...less]) }, verdict);
  return [...area(frame, outline, verdict), ...stroke(marks, role, width)];
}

function area(frame: Frame, rings: Rings, role: Role): SVGElement[] {
  if (rings.length === 0) return [];
  const d = pixels(frame, rings)
    .map((ring) => `M${ring.map((at) => at.join(",")).join("L")}Z`)
    .join("");
  return [draw("path", { d, fill: ink(role), "fill-rule": "evenodd" })];
}

interface Stroke {
  readonly role: Role;
  readonly width: number;
  readonly dash?: readonly number[];
}

const line = (frame: Frame, lines: Rings, { role, width, dash }: Stroke): SVGElement[] =>
  stroke(pixels(frame, lines), role, width, dash);

function stroke(lines: Rings, role: Role, width: number, dash: readonly number[] = []): SVGElement[] {
  if (lines.length === 0) return [];
  const d = lines.map((points) => `M${points.map((at) => at.join(",")).join("L")}`).join("");
  const style = { fill: "none", stroke: ink(role), "stroke-width": width, "stroke-linecap": "round" };
  return [draw("path", { d, ...style, ...(dash.length === 0 ? {} : { "stroke-dasharray": dash.join(" ") }) })];
}

const border = ({ width, height }: Frame): SVGElement =>
  draw("path", { d: `M0,0H${width}V${height}H0Z`, fill: "none", stroke: ink("ink"), "stroke-width": 1.4 });
