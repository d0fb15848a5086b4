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
  /** px at a width of 150; left out: 72. */
  readonly height?: number | undefined;
}

export interface TraceLine {
  readonly from: number; // s
  readonly period: number; // s
  readonly values: readonly number[];
  readonly role: Role;
  readonly width: number; // px
  readonly dash?: readonly number[];
}

const WIDTH = 150; // px
const HEIGHT = 72; // px
const EDGE = 3; // px, free above and below
const LETTERS = 9.5; // px

/** SVG of the trace. */
export function traceSvg(picture: TracePicture): string {
  const { name, nameAt, marks, lines } = picture;
  const height = heightOf(picture);
  const frame = `<rect x="0.5" y="0.5" width="${WIDTH - 1}" height="${height - 1}" fill="${ink("sheet")}" stroke="${ink("rule")}"/>`;
  const parts = [
    frame,
    ...marks.map(
      ({ at }) => `<path d="M0,${heightAt(picture, at)}H${WIDTH}" stroke="${ink("rule")}" stroke-width="0.8"/>`,
    ),
    ...lines.map((line) => path(picture, line)),
    // Above the lines, with paper behind them.
    ...marks.map((mark) => markText(picture, mark)),
    nameAt === "low" ? text(4, height - 4, name, "start", "ink") : text(WIDTH - 3, height / 2, name, "end", "ink"),
  ];
  return `<svg class="trace" viewBox="0 0 ${WIDTH} ${height}" aria-hidden="true">${parts.join("")}</svg>`;
}

const heightOf = ({ height }: TracePicture): number => height ?? HEIGHT;

function heightAt(picture: TracePicture, v: number): number {
  const [low, high] = picture.value;
  const height = heightOf(picture);
  return tenths(height - EDGE - ((v - low) / (high - low)) * (height - 2 * EDGE));
}

const place = (picture: TracePicture, t: number, v: number): string =>
  `${tenths(((t - picture.time[0]) / (picture.time[1] - picture.time[0])) * WIDTH)},${heightAt(picture, v)}`;

function path(picture: TracePicture, { from, period, values, role, width, dash }: TraceLine): string {
  if (values.length === 0) return "";
  const points = values.map((value, k) => place(picture, from + k * period, value));
  const dashes = dash === undefined ? "" : ` stroke-dasharray="${dash.join(" ")}"`;
  return `<path d="M${points.join("L")}" fill="none" stroke="${ink(role)}" stroke-width="${width}" stroke-linejoin="round"${dashes}/>`;
}

const markText = (picture: TracePicture, { at, text: words }: { at: number; text: string }): string =>
  words === "" ? "" : text(WIDTH - 3, Math.max(10, heightAt(picture, at) - 2), words, "end", "soft");

function text(x: number, y: number, words: string, anchor: "start" | "end", role: Role): string {
  const style = `font-size="${LETTERS}" fill="${ink(role)}" stroke="${ink("sheet")}" stroke-width="2.5" stroke-linejoin="round"`;
  return `<text x="${x}" y="${y}" text-anchor="${anchor}" ${style}>${escaped(words)}</text>`;
}

const escaped = (words: string): string => words.replace(/&/g, "&amp;").replace(/</g, "&lt;");
