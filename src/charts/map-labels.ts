// The labels of an axis map, placed one after another: boundaries first, then contours, each clear of the last.
import type { Frame, Polyline } from "./frame.js";
import { toPixel } from "./frame.js";
import { alongLine, type Box, besideLine, boxOf, type Label } from "./placement.js";

export interface NamedLines {
  readonly text: string;
  readonly lines: readonly Polyline[];
  /** Set into the line (a contour) or next to it. */
  readonly set: "into" | "beside";
  readonly size: number; // px
}

interface SizedLabel extends Label {
  readonly size: number; // px
  readonly set: NamedLines["set"];
}

const longest = (lines: readonly Polyline[]): Polyline | undefined =>
  lines.reduce<Polyline | undefined>(
    (best, line) => (best === undefined || line.length > best.length ? line : best),
    undefined,
  );

export const boxesOf = (labels: readonly SizedLabel[]): Box[] =>
  labels.map(({ text, at, size }) => boxOf(text, at, size));

/** A label for each set of lines that has a free place; `quiet` lines have no label but are not to be hidden. */
export function mapLabels(
  frame: Frame,
  named: readonly NamedLines[],
  quiet: readonly Polyline[],
  taken: readonly Box[],
): SizedLabel[] {
  const pixels = (line: Polyline) => line.map((point) => toPixel(frame, point));
  const placed: SizedLabel[] = [];
  for (const { text, lines, set, size } of named) {
    const line = longest(lines);
    if (line === undefined) continue;
    const shown = set === "into" ? named.filter((other) => other.text !== text) : named;
    const avoid = [...shown.flatMap((other) => other.lines), ...quiet].map(pixels);
    const search = { frame, text, size, line: pixels(line), taken: [...taken, ...boxesOf(placed)], lines: avoid };
    const label = set === "into" ? alongLine(search) : besideLine(search);
    if (label !== null) placed.push({ ...label, size, set });
  }
  return placed;
}
