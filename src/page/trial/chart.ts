// The trial over time: commanded and simulated rate above, rotor speeds below, with a cursor at the current time.
import { ink, type Role } from "../../charts/ink.js";
import { toThreeDigits } from "../../words/numbers.js";
import { draw } from "../dom.js";
import type { Recording } from "./recording.js";
import { rangeOf, ticks } from "./scale.js";

const DEGREES = 180 / Math.PI;
const RPM = 60 / (2 * Math.PI);
const [LEFT, RIGHT, TOP, GAP, BOTTOM] = [52, 106, 20, 30, 26]; // px, around the plots
const [RATE_HEIGHT, SPEED_HEIGHT] = [190, 120]; // px
const HEIGHT = TOP + RATE_HEIGHT + GAP + SPEED_HEIGHT + BOTTOM;
const LETTERS = 12; // px
const SAMPLE = 22; // px, of a line beside its name

// Dashes, and the numbers at the line ends, distinguish the rotors.
const DASHES = Object.freeze(["", "6 3", "2 3", "9 3 2 3", "1 4", "12 4", "4 2 1 2", "3 6"]);

export interface Chart {
  readonly svg: SVGSVGElement;
  /** Moves the time cursor; s. */
  readonly point: (time: number) => void;
}

interface Line {
  readonly values: Float64Array;
  readonly role: Role;
  readonly width: number;
  readonly dash: string;
  /** Written at its right end; empty: nothing. */
  readonly name: string;
}

/** Drawn for a width in px, so that letters keep their size; `judged` is the window the measures are read from, s. */
export function chartOf(
  recording: Recording,
  width: number,
  judged: { readonly from: number; readonly to: number },
): Chart {
  const duration = (recording.command.length - 1) * recording.period;
  const plotWidth = Math.max(120, width - LEFT - RIGHT);
  const x = (time: number) => LEFT + (time / duration) * plotWidth;
  const rate = recording.rates[recording.axis].map((value) => DEGREES * value);
  const command = recording.command.map((value) => DEGREES * value);
  const speeds = recording.speeds.map((series) => series.map((value) => RPM * value));
  const upper = plot({ top: TOP, height: RATE_HEIGHT, title: "rate, \u00b0/s", x, duration }, [
    { values: command, role: "soft", width: 1.2, dash: "5 4", name: "commanded" },
    { values: rate, role: "contour", width: 1.8, dash: "", name: "craft" },
  ]);
  const lower = plot(
    { top: TOP + RATE_HEIGHT + GAP, height: SPEED_HEIGHT, title: "rotor speeds, rpm", x, duration },
    speeds.map((values, i) => ({
      values,
      role: "ink",
      width: 1.1,
      dash: DASHES[i % DASHES.length] ?? "",
      name: `rotor ${i + 1}`,
    })),
  );
  // A trial that diverged may end before the window does.
  const end = Math.min(judged.to, duration);
  const shown = end > judged.from;
  const cursor = draw("path", { class: "cursor", d: `M0,${TOP}V${HEIGHT - BOTTOM}` });
  const svg = draw(
    "svg",
    { viewBox: `0 0 ${width} ${HEIGHT}`, width, height: HEIGHT, "aria-hidden": "true" },
    ...(shown ? [judgedStretch(x(judged.from), x(end))] : []),
    ...upper,
    ...lower,
    ...(shown ? [judgedWord(x(0.5 * (judged.from + end)))] : []),
    ...seconds(x, duration, plotWidth),
    cursor,
  );
  const point = (time: number) => cursor.setAttribute("transform", `translate(${x(time).toFixed(1)},0)`);
  point(0);
  return { svg, point };
}

interface Place {
  readonly top: number;
  readonly height: number;
  readonly title: string;
  readonly x: (time: number) => number;
  readonly duration: number;
}

function plot({ top, height, title, x, duration }: Place, lines: readonly Line[]): SVGElement[] {
  const range = rangeOf(...lines.map(({ values }) => values));
  const y = (value: number) => top + height - ((value - range[0]) / (range[1] - range[0])) * height;
  const [left, right] = [x(0), x(duration)];
  const rules = ticks(range, height / 26).flatMap((value) => [
    draw("path", { d: `M${left},${y(value).toFixed(1)}H${right}`, stroke: ink("rule"), "stroke-width": 1 }),
    text(left - 6, y(value) + 4, toThreeDigits(value), "end", "soft"),
  ]);
  const places = spread(lines.map(({ values }) => y(values.at(-1) as number)));
  return [
    ...rules,
    text(left, top - 7, title, "start", "ink"),
    ...lines.map((line) => path(line, x, y, duration)),
    ...lines.flatMap(({ name, role }, k) =>
      name === "" ? [] : [text(right + SAMPLE + 9, (places[k] as number) + 4, name, "start", role)],
    ),
    ...lines.map((line, k) => sample(line, right + 5, places[k] as number)),
  ];
}

/** A piece of the line beside its name. */
const sample = ({ role, width, dash }: Line, x: number, y: number): SVGElement =>
  stroke(`M${x.toFixed(1)},${y.toFixed(1)}h${SAMPLE}`, role, width, dash);

function stroke(d: string, role: Role, width: number, dash: string): SVGElement {
  const dashes = dash === "" ? {} : { "stroke-dasharray": dash };
  const line = { fill: "none", stroke: ink(role), "stroke-width": width, "stroke-linejoin": "round" };
  return draw("path", { d, ...line, ...dashes });
}

function path(
  { values, role, width, dash }: Line,
  x: (time: number) => number,
  y: (value: number) => number,
  duration: number,
): SVGElement {
  const points = Array.from(
    values,
    (value, k) => `${x((k / (values.length - 1)) * duration).toFixed(1)},${y(value).toFixed(1)}`,
  );
  return stroke(`M${points.join("L")}`, role, width, dash);
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

function seconds(x: (time: number) => number, duration: number, plotWidth: number): SVGElement[] {
  const foot = HEIGHT - BOTTOM;
  return [
    draw("path", { d: `M${x(0)},${foot}H${x(duration)}`, stroke: ink("ink") }),
    ...ticks([0, duration], plotWidth / 70).map((at) =>
      text(x(at), foot + 17, `${toThreeDigits(at)} s`, "middle", "ink"),
    ),
  ];
}

/** The window the measures are read from. */
const judgedStretch = (from: number, to: number): SVGElement =>
  draw("rect", { x: from, y: TOP, width: to - from, height: RATE_HEIGHT, fill: ink("tint-0") });

/** Drawn over the plot's rules, with a halo that keeps it readable. */
function judgedWord(at: number): SVGElement {
  const word = text(at, TOP + 14, "judged here", "middle", "soft");
  for (const [name, value] of [
    ["stroke", ink("tint-0")],
    ["stroke-width", "4"],
  ] as const)
    word.setAttribute(name, value);
  return word;
}

function text(x: number, y: number, words: string, anchor: string, role: Role): SVGElement {
  return draw(
    "text",
    { x: x.toFixed(1), y: y.toFixed(1), "text-anchor": anchor, "font-size": LETTERS, fill: ink(role) },
    words,
  );
}
