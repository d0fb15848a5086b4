// The tunes on a map, each with its name where there is room for it: the starting tune and the pinned one.
import type { AxisMap } from "../map/format.js";
import { halfSizes } from "./advance.js";
import type { Frame, Point } from "./frame.js";
import { toPixel } from "./frame.js";
import { type Layer, lettered } from "./layers.js";
import { pinnedMark } from "./pinned-mark.js";
import { type Box, boxOf, insideFrame, type Label, overlaps } from "./placement.js";
import { startMark } from "./start-mark.js";

const LETTERS = 13; // px
const [DOWN, ACROSS] = [19, 14]; // px, from a mark to its name

export interface TuneMarks {
  readonly layers: readonly Layer[];
  /** The space marks and names take, px. */
  readonly taken: readonly Box[];
}

interface Tune {
  readonly name: string;
  readonly at: Point;
  readonly draw: (frame: Frame, at: Point, radius: number) => Layer[];
}

/** `radius` of a mark in px. */
export function tuneMarks(frame: Frame, axis: AxisMap, { radius, named } = { radius: 10, named: true }): TuneMarks {
  const tunes = tunesOf(axis);
  const taken = tunes.map(({ at }) => markBox(frame, at, radius));
  const letters: Layer[] = [];
  for (const { name, at } of named ? tunes : []) {
    const label = placed(frame, name, at, taken);
    if (label === null) continue;
    taken.push(boxOf(name, label.at, LETTERS));
    letters.push(...lettered([label], { size: LETTERS, role: "ink", halo: "sheet", bold: true }));
  }
  return { layers: [...tunes.flatMap(({ at, draw }) => draw(frame, at, radius)), ...letters], taken };
}

/** The pinned tune lies on top: it is the one that is flown. */
function tunesOf({ start, pinned }: AxisMap): Tune[] {
  const found: Tune[] = [];
  if (start !== null) found.push({ name: "Start", at: [start.d, start.p], draw: startMark });
  if (pinned !== undefined)
    found.push({ name: "Pinned", at: [pinned.d, pinned.p], draw: (frame, at, r) => pinnedMark(frame, at, 0.8 * r) });
  return found;
}

function markBox(frame: Frame, at: Point, radius: number): Box {
  const [x, y] = toPixel(frame, at);
  const half = radius + 4;
  return { left: x - half, top: y - half, right: x + half, bottom: y + half };
}

/** Below, above, right or left of the mark, wherever the name first finds room. */
function placed(frame: Frame, text: string, at: Point, taken: readonly Box[]): Label | null {
  const [x, y] = toPixel(frame, at);
  const aside = ACROSS + halfSizes(text, LETTERS)[0] + 3;
  const places: Point[] = [
    [x, y + DOWN],
    [x, y - DOWN],
    [x + aside, y],
    [x - aside, y],
  ];
  const own = markBox(frame, at, 0); // the mark itself may touch its name's margin
  const free = places.find((place) => {
    const box = boxOf(text, place, LETTERS);
    return insideFrame(frame, box) && taken.every((other) => !overlaps(other, box) || within(own, other));
  });
  return free === undefined ? null : { text, at: free };
}

const within = (inner: Box, outer: Box): boolean =>
  inner.left >= outer.left && inner.right <= outer.right && inner.top >= outer.top && inner.bottom <= outer.bottom;
