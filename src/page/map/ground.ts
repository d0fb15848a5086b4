// Other ground for a map: a measure as tinted heights with contours, or the verdicts under one level alone. Drawn with
// the outlines and marks the pictures are drawn with.
import { type MeasureId, VERDICTS, type Verdict } from "../../base/measures.js";
import { BAND_LINES } from "../../report/charts/band-lines.js";
import { bandsOf, tintAt } from "../../report/charts/bands.js";
import { outside } from "../../report/charts/clip.js";
import type { Frame, Point, Polyline } from "../../report/charts/frame.js";
import { toPixel } from "../../report/charts/frame.js";
import { ink, type Role } from "../../report/charts/ink.js";
import { fieldOf, levelsOf, shownValues } from "../../report/charts/levels.js";
import { mapLabels } from "../../report/charts/map-labels.js";
import { MARK_STROKES, marksOver } from "../../report/charts/marks.js";
import { shore, type Terrain, terrainOf } from "../../report/charts/terrain.js";
import { three } from "../../report/numbers.js";
import { draw } from "../dom.js";
import type { Survey, SurveyAxis } from "../survey.js";

type Rings = readonly Polyline[];

/** A measure of one axis; levels are those of both axes together, so that their tints compare. */
export function measureGround(
  frame: Frame,
  survey: Pick<Survey, "grid" | "limits">,
  axis: SurveyAxis,
  both: readonly SurveyAxis[],
  id: MeasureId,
): SVGElement[] {
  const limit = survey.limits[id];
  const levels = levelsOf(shownValues(both, id), limit);
  const { known, atLeast } = bandsOf(survey.grid, fieldOf(axis, id), levels);
  const { sustained } = terrainOf(survey, axis).atLeast;
  const lines = atLeast.map(({ level, rings }) => ({ level, lines: outside(shore(frame, rings), sustained) }));
  const named = lines.map((one) => ({ text: three(one.level), lines: one.lines, set: "into" as const, size: LETTERS }));
  return [
    area(frame, [square(frame)], "sheet"),
    ...[known, ...atLeast.map(({ rings }) => rings)].map((rings, passed) =>
      area(frame, rings, `tint-${tintAt(passed, levels.length)}` as Role),
    ),
    ...lines.map(({ level, lines: contour }) =>
      line(frame, contour, level === limit ? BAND_LINES.limit : BAND_LINES.contour),
    ),
    ...marked(frame, "sustained", sustained, []),
    ...mapLabels(frame, named, shore(frame, sustained), []).map(({ text, at: [x, y] }) =>
      draw("text", { x, y, class: "contour-label", "font-size": LETTERS }, text),
    ),
    border(frame),
  ];
}

const LETTERS = 13; // px

/** The verdicts of one axis. */
export function verdictGround(frame: Frame, survey: Pick<Survey, "grid" | "limits">, axis: SurveyAxis): SVGElement[] {
  const { atLeast }: Terrain = terrainOf(survey, axis);
  const mildFirst = [...VERDICTS].reverse();
  return [
    ...mildFirst.flatMap((verdict, k) => {
      const graver = mildFirst[k + 1];
      return marked(frame, verdict, atLeast[verdict], graver === undefined ? [] : atLeast[graver]);
    }),
    line(frame, shore(frame, atLeast.sustained), { role: "ink", width: 2.8 }),
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
  return [area(frame, outline, verdict), stroke(marks, role, width)];
}

function area(frame: Frame, rings: Rings, role: Role): SVGElement {
  const d = pixels(frame, rings)
    .map((ring) => `M${ring.map((at) => at.join(",")).join("L")}Z`)
    .join("");
  return draw("path", { d, fill: ink(role), "fill-rule": "evenodd" });
}

interface Stroke {
  readonly role: Role;
  readonly width: number;
  readonly dash?: readonly number[];
}

const line = (frame: Frame, lines: Rings, { role, width, dash }: Stroke): SVGElement =>
  stroke(pixels(frame, lines), role, width, dash);

function stroke(lines: Rings, role: Role, width: number, dash: readonly number[] = []): SVGElement {
  const d = lines.map((points) => `M${points.map((at) => at.join(",")).join("L")}`).join("");
  const dashes = dash.length === 0 ? {} : { "stroke-dasharray": dash.join(" ") };
  return draw("path", {
    d,
    fill: "none",
    stroke: ink(role),
    "stroke-width": width,
    "stroke-linecap": "round",
    ...dashes,
  });
}

const border = ({ width, height }: Frame): SVGElement =>
  draw("path", { d: `M0,0H${width}V${height}H0Z`, fill: "none", stroke: ink("ink"), "stroke-width": 1.4 });
