// Samples for the key: a tile of a region, a piece of a line, the tunes' marks; drawn as in the maps.
import type { Verdict } from "../base/measures.js";
import { BAND_OPACITY, CONFIDENCE_LINES } from "./confidence-lines.js";
import type { Polyline } from "./frame.js";
import { ink, type Role } from "./ink.js";
import { MARK_STROKES, marksOver } from "./marks.js";
import { THEORY_RADIUS } from "./theory-marks.js";

const [WIDTH, HEIGHT] = [44, 26]; // px

interface LineStroke {
  readonly role: Role;
  readonly width: number; // px
  readonly dash?: readonly number[];
}

const path = (lines: readonly Polyline[]): string =>
  lines.map((line) => `M${line.map((point) => point.join(",")).join("L")}`).join("");

const tile = (inside: string): string =>
  `<svg class="swatch" viewBox="0 0 ${WIDTH} ${HEIGHT}" width="${WIDTH}" height="${HEIGHT}" aria-hidden="true">${inside}</svg>`;

const ground = (role: Role): string => `<rect width="${WIDTH}" height="${HEIGHT}" fill="${ink(role)}"/>`;

function stroke(lines: readonly Polyline[], { role, width, dash }: LineStroke): string {
  const dashes = dash === undefined ? "" : ` stroke-dasharray="${dash.join(" ")}"`;
  return `<path d="${path(lines)}" fill="none" stroke="${ink(role)}" stroke-width="${width}" stroke-linecap="round"${dashes}/>`;
}

/** A verdict's ground under its mark. */
export function groundSwatch(verdict: Verdict): string {
  const all: Polyline = [
    [0, 0],
    [WIDTH, 0],
    [WIDTH, HEIGHT],
    [0, HEIGHT],
  ];
  const marks = marksOver({ width: WIDTH, height: HEIGHT, rings: [all] }, verdict);
  return tile(ground(verdict) + stroke(marks, MARK_STROKES[verdict]));
}

const ACROSS: readonly Polyline[] = [
  [
    [2, 13],
    [42, 13],
  ],
];

/** Plain ground of a role. */
export const areaSwatch = (role: Role): string => tile(ground(role));

/** A line of the map; `onSafe` shows it as the outline of the safe ground. */
export function lineSwatch(line: LineStroke, onSafe = false): string {
  return tile((onSafe ? ground("safe") + stroke(ACROSS, { role: "sheet", width: 5 }) : "") + stroke(ACROSS, line));
}

/** Ground that is safe in enough draws, in its outline. */
export function regionSwatch(): string {
  const outline: Polyline = [
    [6, 26],
    [6, 7],
    [38, 7],
    [38, 26],
  ];
  const fill = `<path d="${path([outline])}" fill="${ink("safe")}"/>`;
  return tile(ground("clean") + fill + stroke([outline], CONFIDENCE_LINES.region));
}

/** The band of the sustained boundary with its middle. */
export function bandSwatch(): string {
  const level = (y: number): Polyline[] => [
    [
      [0, y],
      [WIDTH, y],
    ],
  ];
  const band = `<rect y="4" width="${WIDTH}" height="18" fill="${ink("ink")}" fill-opacity="${BAND_OPACITY}"/>`;
  const edges = stroke([...level(4), ...level(22)], CONFIDENCE_LINES.edge);
  return tile(ground("ringing") + band + edges + stroke(level(13), CONFIDENCE_LINES.middle));
}

/** Theory's circles. */
export function theorySwatch(): string {
  const circle = (x: number) =>
    `<circle cx="${x}" cy="13" r="${THEORY_RADIUS}" fill="${ink("sheet")}" stroke="${ink("ink")}"/>`;
  return tile([7, 22, 37].map(circle).join(""));
}

/** The pinned tune's mark. */
export function pinnedSwatch(): string {
  const ring = `<circle cx="22" cy="13" r="8" fill="${ink("sheet")}" stroke="${ink("ink")}" stroke-width="2.4"/>`;
  return tile(`${ring}<circle cx="22" cy="13" r="2.7" fill="${ink("ink")}"/>`);
}

/** The starting tune's mark. */
export function pointSwatch(): string {
  const outline = `<path d="M22,3L31,19H13Z" fill="${ink("sheet")}" stroke="${ink("warn")}" stroke-width="2.4" stroke-linejoin="round"/>`;
  return tile(`${outline}<path d="M22,10.3L25,15.7H19Z" fill="${ink("warn")}"/>`);
}
