// One measure over the stages of a model: a staircase per line, one place a stage, its steps marked. What lies above the grid, or what is
// not there, is drawn along the frame with a wedge.
import { at } from "../base/at.js";
import { simplify } from "../base/simplify.js";
import type { FollowedAxis, FollowedId, Move, Series, Trend, Value } from "../trend/trend.js";
import { dayOf, lineWords, sizeWords } from "../words/trend-words.js";
import { textWidth } from "./advance.js";
import { ends, plotAxes } from "./fit/plot.js";
import { type Frame, type Point, type Polyline, toPixel } from "./frame.js";
import { ink, type Role } from "./ink.js";
import { geometry, type Layer, lettered, strokedPixels } from "./layers.js";
import { neatline } from "./neatline.js";
import { evenTicks, type Tick } from "./ticks.js";
import { vegaSvg } from "./vega-svg.js";

const LETTERS = 11.5; // px
const WHOLE = 330; // px, plot and the names of its lines
const HEIGHT = 150; // px
const ROOM = 0.12; // of the values' span, above and below
const ROOM_FOR_SIZES = 0.22; // of the span, below the values: steps' sizes stand there
const EDGE = 5; // px, between the frame and what lies beyond it
const NAMES_APART = 13; // px
const MOST_SIZES = 4; // steps whose size is written

/** The chart of a measure on one axis; null: no line of it was recorded. */
export async function trendChartSvg(
  trend: Trend,
  axis: FollowedAxis,
  measure: FollowedId,
  unit: string,
): Promise<string | null> {
  const lines = trend.axes[axis].filter((line) => line.measure === measure);
  if (!lines.some(({ values }) => values.some((value) => value !== null))) return null;
  const names = lines.length > 1 || lines[0]?.d !== undefined ? lines.map(lineWords) : [];
  const width = WHOLE - Math.max(0, ...names.map((name) => textWidth(name, LETTERS) + 8));
  const frame = frameOf(lines, trend.stages.length, width);
  const moves = trend.steps.flatMap((step) =>
    step.moves
      .filter((move) => move.axis === axis && at(trend.axes[axis], move.series).measure === measure)
      .map((move) => ({ stage: step.stage, move })),
  );
  const layer: Layer[] = [
    plotAxes(
      frame,
      { title: "", ticks: stageTicks(trend, width) },
      { title: unit, ticks: evenTicks(...frame.p, 5).filter(({ at: value }) => value >= 0) },
    ),
    ...ranges(frame, lines),
    ...stepMarks(frame, moves),
    ...lines.flatMap((line, k) => staircase(frame, line, strokeOf(k))),
    ...neatline(frame, { d: trend.stages.length <= 60 ? [...trend.stages.keys()] : [], p: [] }),
    ...lineNames(frame, lines, names),
    ...sizes(frame, trend, axis, moves),
  ];
  return vegaSvg({ width, height: HEIGHT, layer }, LETTERS);
}

function frameOf(lines: readonly Series[], stages: number, width: number): Frame {
  const numbers = lines.flatMap(({ values, ranges: all = [] }) => [
    ...values.filter((value) => typeof value === "number"),
    ...all.flatMap((range) => range ?? []),
  ]);
  const [low, high] = ends(numbers, ROOM);
  const least = low - ROOM_FOR_SIZES * (high - low);
  return { width, height: HEIGHT, d: [-0.5, stages - 0.5], p: [least, high] };
}

/** The first place of each version, with its date where there is room for all of them. */
function stageTicks({ stages }: Trend, width: number): Tick[] {
  const firsts = stages.flatMap(({ version, first }, place) =>
    stages[place - 1]?.version === version ? [] : [{ place, version, day: dayOf(first) }],
  );
  const dated = firsts.length * textWidth("2026-11-28 ", LETTERS) <= width;
  return firsts.map(({ place, version, day }, k) => ({
    at: place,
    text: dated || k === 0 || k === firsts.length - 1 ? `${version}\n${day}` : version,
  }));
}

interface LineStroke {
  readonly role: Role;
  readonly width: number;
  readonly dash?: readonly number[];
}

const STROKES: readonly LineStroke[] = Object.freeze([
  { role: "ink", width: 2.2 },
  { role: "contour", width: 2.2 },
  { role: "ink", width: 1.6, dash: [5, 3] },
  { role: "contour", width: 1.6, dash: [5, 3] },
  { role: "soft", width: 1.6 },
  { role: "soft", width: 1.6, dash: [2, 3] },
]);
const strokeOf = (k: number): LineStroke => at(STROKES, k % STROKES.length);

/** Where a value is drawn, px from the top; null: nowhere. */
function levelOf(frame: Frame, value: Value): number | null {
  if (value === null) return null;
  if (value === "above") return EDGE;
  return value === "none" ? HEIGHT - EDGE : toPixel(frame, [0, value])[1];
}

/** Each place as wide as the next, broken where nothing is known, with a wedge on what lies beyond the frame. */
function staircase(frame: Frame, { values }: Series, stroke: LineStroke): Layer[] {
  const runs: Point[][] = [[]];
  for (const [place, value] of values.entries()) {
    const y = levelOf(frame, value);
    const [left, right] = [toPixel(frame, [place - 0.5, 0])[0], toPixel(frame, [place + 0.5, 0])[0]];
    if (y === null) runs.push([]);
    else at(runs, runs.length - 1).push([left, y], [right, y]);
  }
  const lines = runs.filter((run) => run.length > 0).map((run) => simplify(run, [0.25, 0.25]));
  return [...(lines.length === 0 ? [] : [strokedPixels(lines, stroke)]), ...wedges(frame, values, stroke.role)];
}

/** In the middle of each run of places that lie on the same side beyond the frame. */
function wedges(frame: Frame, values: readonly Value[], role: Role): Layer[] {
  return values.flatMap((value, first) => {
    if ((value !== "above" && value !== "none") || values[first - 1] === value) return [];
    const after = values.findIndex((other, place) => place > first && other !== value);
    const last = (after === -1 ? values.length : after) - 1;
    const [x] = toPixel(frame, [(first + last) / 2, 0]);
    return [wedge([x, levelOf(frame, value) ?? 0], value === "above", role)];
  });
}

function wedge([x, y]: Point, up: boolean, role: Role): Layer {
  const way = up ? -1 : 1;
  const shape: Point[] = [
    [x - 4.5, y],
    [x + 4.5, y],
    [x, y + way * 6],
    [x - 4.5, y],
  ];
  return geometry({ type: "Polygon", coordinates: [shape] }, { fill: ink(role), stroke: ink("sheet"), strokeWidth: 1 });
}

/** What seeds alone do, as upright bars. */
function ranges(frame: Frame, lines: readonly Series[]): Layer[] {
  const bars = lines.flatMap(({ ranges: all = [] }) =>
    all.flatMap((range, place): Polyline[] =>
      range === null ? [] : [[toPixel(frame, [place, range[0]]), toPixel(frame, [place, range[1]])]],
    ),
  );
  return bars.length === 0 ? [] : [strokedPixels(bars, { role: "rule", width: 6 })];
}

interface MarkedMove {
  readonly stage: number;
  readonly move: Move;
}

/** Worse before better before neither: what a reader must see first. */
const roleOf = (moves: readonly Move[]): Role =>
  moves.some(({ better }) => better === false)
    ? "warn"
    : moves.some(({ better }) => better === true)
      ? "clean-mark"
      : "soft";

const byStage = (moves: readonly MarkedMove[]): (readonly [stage: number, moves: readonly Move[]])[] => {
  const stages = new Map<number, Move[]>();
  for (const { stage, move } of moves) stages.set(stage, [...(stages.get(stage) ?? []), move]);
  return [...stages];
};

/** An upright line where any line of the chart stepped. */
function stepMarks(frame: Frame, moves: readonly MarkedMove[]): Layer[] {
  const roles: readonly Role[] = ["soft", "clean-mark", "warn"];
  return roles.flatMap((role) => {
    const lines = byStage(moves)
      .filter(([, all]) => roleOf(all) === role)
      .map(([stage]): Polyline => {
        const [x] = toPixel(frame, [stage - 0.5, 0]);
        return [
          [x, 0],
          [x, HEIGHT],
        ];
      });
    return lines.length === 0 ? [] : [strokedPixels(lines, { role, width: 1.4, dash: [3, 3] })];
  });
}

/** The largest steps' sizes, written beside their marks where they do not touch each other. */
function sizes(frame: Frame, trend: Trend, axis: FollowedAxis, moves: readonly MarkedMove[]): Layer[] {
  const far = ({ size }: Move) => (size === null ? Number.POSITIVE_INFINITY : Math.abs(size));
  const most = byStage(moves)
    .map(([stage, all]) => ({
      stage,
      role: roleOf(all),
      move: all.reduce((best, one) => (far(one) > far(best) ? one : best)),
    }))
    .sort((a, b) => far(b.move) - far(a.move))
    .slice(0, MOST_SIZES);
  const taken: (readonly [left: number, right: number])[] = [];
  return most.flatMap(({ stage, role, move }) => {
    const text = sizeWords(at(trend.axes[axis], move.series), { ...move, least: false });
    const half = textWidth(text, LETTERS) / 2 + 2;
    const x = Math.min(Math.max(toPixel(frame, [stage - 0.5, 0])[0], half), frame.width - half);
    if (taken.some(([left, right]) => x - half < right && x + half > left)) return [];
    taken.push([x - half, x + half]);
    const letters = role === "clean-mark" ? "ink" : role;
    return lettered([{ text, at: [x, HEIGHT - 10] }], { size: LETTERS, role: letters, halo: "sheet", bold: true });
  });
}

/** Each line's name behind its end, moved apart where two ends meet. */
function lineNames(frame: Frame, lines: readonly Series[], names: readonly string[]): Layer[] {
  const wanted = names.map((text, k) => {
    const values = lines[k]?.values ?? [];
    const y = levelOf(frame, values.findLast((value) => value !== null) ?? null) ?? HEIGHT / 2;
    return { text, y, role: strokeOf(k).role };
  });
  wanted.sort((a, b) => a.y - b.y);
  let least = 0;
  const placed = wanted.map((one, k) => {
    const y = Math.max(one.y, least, 0);
    least = Math.min(y, HEIGHT - NAMES_APART * (wanted.length - 1 - k)) + NAMES_APART;
    return { ...one, y: least - NAMES_APART };
  });
  return placed.map(({ text, y, role }) => ({
    data: { values: [{}] },
    mark: { type: "text", text, align: "left", baseline: "middle", fontSize: LETTERS, fill: ink(role), clip: false },
    encoding: { x: { value: frame.width + 6 }, y: { value: y } },
  })) as Layer[];
}
