// A predicted trace as a small picture: what is commanded, what the craft does, on a scale it shares with its
// neighbours. Drawn directly: a page holds some thirty of them.
import { ink, type Role } from "./ink.js";
import { tenths } from "./rounding.js";

export interface TracePicture {
  readonly name: string;
  /** Where the name stands clear of the line: low on the left, or half way up on the right. */
  readonly nameAt: "low" | "right";
  readonly time: readonly [from: number, to: number]; // s
  readonly value: readonly [from: number, to: number];
  /** Values written at the edge, with a fine line across. */
  readonly marks: readonly { readonly at: number; readonly text: string }[];
  readonly lines: readonly TraceLine[];
}

export interface TraceLine {
  readonly from: number; // s
  readonly period: number; // s
  readonly values: readonly number[];
  readonly role: Role;
  readonly width: number; // px
  readonly dash?: readonly number[];
}

const SIZE = Object.freeze({ width: 150, height: 72 }); // px
const EDGE = 3; // px, free above and below
const LETTERS = 9.5; // px

/** SVG of the trace. */
export function traceSvg(picture: TracePicture): string {
  const { name, marks, lines } = picture;
  const { width, height } = SIZE;
  const frame = `<rect x="0.5" y="0.5" width="${width - 1}" height="${height - 1}" fill="${ink("sheet")}" stroke="${ink("rule")}"/>`;
  const title =
    picture.nameAt === "low"
      ? text(4, height - 4, name, "start", "ink")
      : text(width - 3, height / 2, name, "end", "ink");
  const parts = [
    frame,
    ...marks.map((mark) => rule(picture, mark)),
    ...lines.map((line) => path(picture, line)),
    title,
  ];
  return `<svg class="trace" viewBox="0 0 ${width} ${height}" aria-hidden="true">${parts.join("")}</svg>`;
}

function place({ time, value }: TracePicture, t: number, v: number): readonly [x: string, y: string] {
  const x = ((t - time[0]) / (time[1] - time[0])) * SIZE.width;
  const y = SIZE.height - EDGE - ((v - value[0]) / (value[1] - value[0])) * (SIZE.height - 2 * EDGE);
  return [String(tenths(x)), String(tenths(y))];
}

function path(picture: TracePicture, { from, period, values, role, width, dash }: TraceLine): string {
  if (values.length === 0) return "";
  const points = values.map((value, k) => place(picture, from + k * period, value).join(","));
  const dashes = dash === undefined ? "" : ` stroke-dasharray="${dash.join(" ")}"`;
  return `<path d="M${points.join("L")}" fill="none" stroke="${ink(role)}" stroke-width="${width}" stroke-linejoin="round"${dashes}/>`;
}

function rule(picture: TracePicture, { at, text: words }: { at: number; text: string }): string {
  const [, y] = place(picture, picture.time[0], at);
  const line = `<path d="M0,${y}H${SIZE.width}" stroke="${ink("rule")}" stroke-width="0.8"/>`;
  return words === "" ? line : line + text(SIZE.width - 3, Math.max(10, Number(y) - 2), words, "end", "soft");
}

function text(x: number, y: number, words: string, anchor: "start" | "end", role: Role): string {
  const style = `font-size="${LETTERS}" fill="${ink(role)}" stroke="${ink("sheet")}" stroke-width="2.5" stroke-linejoin="round"`;
  return `<text x="${x}" y="${y}" text-anchor="${anchor}" ${style}>${escaped(words)}</text>`;
}

const escaped = (words: string): string => words.replace(/&/g, "&amp;").replace(/</g, "&lt;");
