// What to avoid on one axis as a strip along P at the starting tune's D: too little, safe, less and less margin, never.

import type { StabilityMap } from "../map/format.js";
import { endText, settingText } from "../map/gain-text.js";
import { marginEndOf } from "../map/margin-end.js";
import { ownScale } from "../map/own-scale.js";
import { wantedMargins } from "../map/wanted-margins.js";
import { type Axis, boundaryAt } from "../words/axes.js";
import { textWidth } from "./advance.js";
import { ink, type Role } from "./ink.js";
import { MARK_STROKES, marksOver } from "./marks.js";
import { tenths } from "./rounding.js";

const [WIDTH, HEIGHT] = [400, 62]; // px
const [TOP, ROW] = [20, 22]; // px
const LETTERS = 13; // px
const ROOM = 1.25; // the strip reaches this much further than the last number on it

interface Piece {
  readonly from: number;
  readonly to: number;
  readonly name: string;
  readonly ground: Role;
  readonly letters: Role;
  readonly marks?: "sustained" | "ringing";
}

interface Strip {
  readonly pieces: readonly Piece[];
  /** P at which a number stands below the strip, the most important first. */
  readonly numbers: readonly number[];
  readonly most: number;
}

/** Null where there is no starting tune, or nothing above it to avoid in the swept range. */
function stripOf(map: StabilityMap, name: Axis): Strip | null {
  const axis = map.axes[name];
  const { start } = axis;
  if (start === null) return null;
  const { pUp, pDown } = start.room;
  const end = marginEndOf(axis, wantedMargins(map))?.p ?? null;
  const sustained = boundaryAt(axis, start.d)?.p ?? null;
  const far = sustained ?? end;
  if (far === null) return null;
  const most = ROOM * far;
  const low = pDown.factor === null ? 0 : start.p * pDown.factor;
  const up = Math.min(pUp.factor === null ? most : start.p * pUp.factor, sustained ?? most);
  const shrinks = end === null ? up : Math.max(up, Math.min(end, sustained ?? most));
  const pieces: Piece[] = [
    { from: 0, to: low, name: "weak", ground: "loose", letters: "ink" },
    { from: low, to: up, name: "safe", ground: "safe", letters: "ink" },
    { from: up, to: shrinks, name: "avoid", ground: "avoid", letters: "ink" },
    {
      from: shrinks,
      to: sustained ?? most,
      name: "margin shrinks",
      ground: "ringing",
      letters: "ink",
      marks: "ringing",
    },
    {
      from: sustained ?? most,
      to: most,
      name: "never fly",
      ground: "sustained",
      letters: "letter-on-sustained",
      marks: "sustained",
    },
  ];
  const numbers = [shrinks, sustained ?? 0, low, up].filter((p) => p > 0 && p < most);
  return { pieces: pieces.filter(({ from, to }) => to > from), numbers: [...new Set(numbers)], most };
}

/** SVG of the strip; null where there is nothing to draw. */
export function avoidStripSvg(map: StabilityMap, name: Axis): string | null {
  const strip = stripOf(map, name);
  const { start } = map.axes[name];
  if (strip === null || start === null) return null;
  const own = ownScale(map);
  const x = (p: number) => tenths((p / strip.most) * WIDTH);
  const grounds = strip.pieces.map((piece) => groundOf(piece, x)).join("");
  const outline = `<rect x="0.5" y="${TOP}" width="${WIDTH - 1}" height="${ROW}" fill="none" stroke="${ink("ink")}"/>`;
  const labels = numbersBelow(strip.numbers.map((p) => ({ at: x(p), text: endText(own, "p", p) })));
  const at = x(start.p);
  const words = `start ${settingText(own, "p", start.p)}`;
  const pointer = `<path d="M${at},${TOP + 5}l-5,-9h10Z" fill="${ink("warn")}" stroke="${ink("sheet")}"/>`;
  const mark = `${pointer}${text(clear(at, words), TOP - 7, words, "warn", "sheet")}`;
  return `<svg class="avoid-strip" viewBox="0 0 ${WIDTH} ${HEIGHT}" aria-hidden="true">${grounds}${outline}${labels}${mark}</svg>`;
}

function groundOf({ from, to, name, ground, letters, marks }: Piece, x: (p: number) => number): string {
  const [left, right] = [x(from), x(to)];
  const box = `<rect x="${left}" y="${TOP}" width="${tenths(right - left)}" height="${ROW}" fill="${ink(ground)}"/>`;
  const room = right - left > textWidth(name, LETTERS) + 10;
  return `${box}${marks === undefined ? "" : marked(marks, left, right)}${room ? text((left + right) / 2, TOP + 0.7 * ROW, name, letters, ground) : ""}`;
}

function marked(verdict: "sustained" | "ringing", left: number, right: number): string {
  const ring = [
    [left, TOP],
    [right, TOP],
    [right, TOP + ROW],
    [left, TOP + ROW],
  ] as const;
  const path = marksOver({ width: WIDTH, height: HEIGHT, rings: [ring] }, verdict)
    .map((line) => `M${line.map((point) => point.join(",")).join("L")}`)
    .join("");
  const { role, width } = MARK_STROKES[verdict];
  return `<path d="${path}" fill="none" stroke="${ink(role)}" stroke-width="${width}" stroke-linecap="round"/>`;
}

/** Each number under its place, the first of them before the others: one that would run into another is left out. */
function numbersBelow(numbers: readonly { readonly at: number; readonly text: string }[]): string {
  const taken: (readonly [from: number, to: number])[] = [];
  return numbers
    .map(({ at, text: words }) => {
      const middle = clear(at, words);
      const half = textWidth(words, LETTERS) / 2 + 3;
      if (taken.some(([from, to]) => middle - half < to && middle + half > from)) return "";
      taken.push([middle - half, middle + half]);
      return `<path d="M${at},${TOP + ROW}v4" stroke="${ink("ink")}"/>${text(middle, HEIGHT - 5, words, "ink", "sheet")}`;
    })
    .join("");
}

/** A place for a text's middle at which it stays within the strip. */
function clear(at: number, words: string): number {
  const half = textWidth(words, LETTERS) / 2 + 1;
  return Math.min(WIDTH - half, Math.max(half, at));
}

const text = (x: number, y: number, words: string, role: Role, halo: Role): string =>
  `<text x="${tenths(x)}" y="${y}" text-anchor="middle" font-size="${LETTERS}" fill="${ink(role)}" stroke="${ink(halo)}" stroke-width="3" stroke-linejoin="round">${words}</text>`;
