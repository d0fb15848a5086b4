// Pieces of the trial's charts: letters, lines, and the seconds under them.
import { ink, type Role } from "../../charts/ink.js";
import { toThreeDigits } from "../../words/numbers.js";
import { draw } from "../dom.js";
import { ticks } from "./scale.js";

export const LETTERS = 12; // px

export function text(x: number, y: number, words: string, anchor: string, role: Role): SVGElement {
  return draw(
    "text",
    { x: x.toFixed(1), y: y.toFixed(1), "text-anchor": anchor, "font-size": LETTERS, fill: ink(role) },
    words,
  );
}

/** With a halo that keeps it readable over lines on a ground. */
export function textOver(ground: Role, ...of: Parameters<typeof text>): SVGElement {
  const word = text(...of);
  word.setAttribute("stroke", ink(ground));
  word.setAttribute("stroke-width", "4");
  return word;
}

export interface Stroke {
  readonly role: Role;
  readonly width: number; // px
  readonly dash: string;
}

export function stroke(d: string, { role, width, dash }: Stroke): SVGElement {
  const dashes = dash === "" ? {} : { "stroke-dasharray": dash };
  const line = { fill: "none", stroke: ink(role), "stroke-width": width, "stroke-linejoin": "round" };
  return draw("path", { d, ...line, ...dashes });
}

/** Values spread evenly over an axis from its first to its last. */
export function path(values: Float64Array, x: (share: number) => number, y: (value: number) => number): string {
  const last = values.length - 1;
  const points = Array.from(values, (value, k) => `${x(k / last).toFixed(1)},${y(value).toFixed(1)}`);
  return `M${points.join("L")}`;
}

export const rule = (from: number, to: number, y: number): SVGElement =>
  stroke(`M${from},${y.toFixed(1)}H${to}`, { role: "rule", width: 1, dash: "" });

/** An axis along the foot of a chart, a tick about every 70 px. */
export function foot(
  x: (value: number) => number,
  [from, to]: readonly [number, number],
  y: number,
  unit: string,
): SVGElement[] {
  const [left, right] = [x(from), x(to)];
  return [
    draw("path", { d: `M${left},${y}H${right}`, stroke: ink("ink") }),
    ...ticks([from, to], (right - left) / 70).map((at) =>
      text(x(at), y + 17, `${toThreeDigits(at)} ${unit}`, "middle", "ink"),
    ),
  ];
}
