// The trial over time: commanded and simulated rate above, a strip per rotor below, with a cursor at the current time.
import { ink } from "../../charts/ink.js";
import { toThreeDigits } from "../../words/numbers.js";
import { draw } from "../dom.js";
import { foot, LETTERS, path, rule, type Stroke, stroke, text, textOver } from "./chart-parts.js";
import type { Recording, Stretch } from "./recording.js";
import { lanesHeight, rotorLanes } from "./rotor-lanes.js";
import { rangeOf, ticks } from "./scale.js";

const DEGREES = 180 / Math.PI;
const [LEFT, RIGHT, TOP, GAP, BOTTOM] = [52, 106, 20, 34, 26]; // px, around the plots
const RATE_HEIGHT = 190; // px
const LANES = TOP + RATE_HEIGHT + GAP; // px, where the rotors' strips begin
const SAMPLE = 22; // px, of a line beside its name
const ENDING = 7; // px, the mark of the part in which the end is read

export interface Chart {
  readonly svg: SVGSVGElement;
  /** Moves the time cursor; s. */
  readonly point: (time: number) => void;
}

interface Line extends Stroke {
  readonly values: Float64Array;
  /** Written at its right end. */
  readonly name: string;
}

/** What of a trial is read for what. */
export interface Readings {
  /** Where the measures of its kind are read. */
  readonly judged: Stretch;
  /** Where it is read whether an oscillation dies out. */
  readonly ending: Stretch;
}

/** Drawn for a width in px, so that letters keep their size; a name per rotor. */
export function chartOf(
  recording: Recording,
  width: number,
  { judged, ending }: Readings,
  names: readonly string[],
): Chart {
  const duration = (recording.command.length - 1) * recording.period;
  const plotWidth = Math.max(120, width - LEFT - RIGHT);
  const at = (share: number) => LEFT + share * plotWidth;
  const x = (time: number) => at(time / duration);
  const bottom = LANES + lanesHeight(recording.speeds.length);
  const height = bottom + BOTTOM;
  const degrees = (series: Float64Array) => series.map((value) => DEGREES * value);
  const upper = ratePlot(at, [
    { values: degrees(recording.command), role: "soft", width: 1.2, dash: "5 4", name: "commanded" },
    { values: degrees(recording.rates[recording.axis]), role: "contour", width: 1.8, dash: "", name: "craft" },
  ]);
  // A trial that diverged may end before a stretch does.
  const shown = ({ from, to }: Stretch) => (duration > from ? ([x(from), x(Math.min(to, duration))] as const) : null);
  const [window, tail] = [shown(judged), shown(ending)];
  const cursor = draw("path", { class: "cursor", d: `M0,${TOP}V${bottom}` });
  const svg = draw(
    "svg",
    { viewBox: `0 0 ${width} ${height}`, width, height, "aria-hidden": "true" },
    ...(window === null ? [] : [judgedStretch(window)]),
    ...upper,
    ...rotorLanes(recording.speeds, names, at, LANES),
    ...(window === null ? [] : [textOver("tint-0", middle(window), TOP + 14, "judged here", "middle", "soft")]),
    ...(tail === null ? [] : endingMark(tail)),
    ...foot(x, [0, duration], bottom, "s"),
    cursor,
  );
  const point = (time: number) => cursor.setAttribute("transform", `translate(${x(time).toFixed(1)},0)`);
  point(0);
  return { svg, point };
}

function ratePlot(x: (share: number) => number, lines: readonly Line[]): SVGElement[] {
  const range = rangeOf(...lines.map(({ values }) => values));
  const y = (value: number) => TOP + RATE_HEIGHT - ((value - range[0]) / (range[1] - range[0])) * RATE_HEIGHT;
  const [left, right] = [x(0), x(1)];
  const places = spread(lines.map(({ values }) => y(values.at(-1) as number)));
  return [
    ...ticks(range, RATE_HEIGHT / 26).flatMap((value) => [
      rule(left, right, y(value)),
      text(left - 6, y(value) + 4, toThreeDigits(value), "end", "soft"),
    ]),
    text(left, TOP - 7, "rate, \u00b0/s", "start", "ink"),
    ...lines.map((line) => stroke(path(line.values, x, y), line)),
    ...lines.map(({ name, role }, k) => text(right + SAMPLE + 9, (places[k] as number) + 4, name, "start", role)),
    ...lines.map((line, k) => stroke(`M${(right + 5).toFixed(1)},${(places[k] as number).toFixed(1)}h${SAMPLE}`, line)),
  ];
}

/** Names at the right end, pushed apart far enough to be read. */
function spread(ends: readonly number[]): number[] {
  const order = ends.map((at, k) => ({ at, k })).sort((a, b) => a.at - b.at);
  const out = [...ends];
  let last = Number.NEGATIVE_INFINITY;
  for (const { at, k } of order) {
    last = Math.max(at, last + LETTERS + 1);
    out[k] = last;
  }
  return out;
}

type Span = readonly [left: number, right: number]; // px

const middle = ([left, right]: Span): number => 0.5 * (left + right);

/** The window the measures are read from. */
const judgedStretch = ([left, right]: Span): SVGElement =>
  draw("rect", { x: left, y: TOP, width: right - left, height: RATE_HEIGHT, fill: ink("tint-0") });

/** A bracket under the rate, over the tail from which it is read how the trial ends. */
function endingMark([left, right]: Span): SVGElement[] {
  const top = TOP + RATE_HEIGHT + 2;
  return [
    stroke(`M${left.toFixed(1)},${top}v${ENDING}H${right.toFixed(1)}v${-ENDING}`, {
      role: "soft",
      width: 1.2,
      dash: "",
    }),
    textOver("sheet", middle([left, right]), top + ENDING + 5, "does it die out?", "middle", "soft"),
  ];
}
