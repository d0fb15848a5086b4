// Names written into the regions of a map, each where its region is widest, as on a field map.
import type { GridLines } from "../map/format.js";
import { halfSizes } from "./advance.js";
import { type Frame, type Point, type Polyline, toPixel } from "./frame.js";
import type { Role } from "./ink.js";
import { type Layer, lettered } from "./layers.js";
import { type Box, besideLine, boxOf, hidden, insideFrame, type Label, overlaps, sampled } from "./placement.js";

const MOST_LINES = 40; // grid lines sampled per side: enough to place a name
const SPARE = 1.25; // the free box must exceed the text's by this factor
const COST_OF_A_DOT = 0.3; // of that factor, per hidden dot of a line

export interface Region {
  readonly name: string;
  readonly role: Role;
  /** Colour of the ground the name stands on. */
  readonly halo: Role;
  readonly belongs: (i: number, j: number) => boolean;
  /** Outline to stand beside where the region is too small to be written into; none: the name is left out. */
  readonly outline?: readonly Polyline[];
}

export interface Surroundings {
  readonly grid: GridLines;
  readonly frame: Frame;
  /** Boxes no name may touch, px. */
  readonly taken: readonly Box[];
  /** Lines, of (D, P), a name should not hide. */
  readonly lines: readonly Polyline[];
}

export interface RegionLabel extends Label {
  readonly role: Role;
  readonly halo: Role;
}

/** A name for every region with room for it, as layers; `size` of the letters in px. */
export const regionNames = (around: Surroundings, regions: readonly Region[], size: number): Layer[] =>
  regionLetters(regionLabels(around, regions, size), size);

/** Placed names as layers. */
export const regionLetters = (labels: readonly RegionLabel[], size: number): Layer[] =>
  labels.flatMap((label) => lettered([label], { size, role: label.role, halo: label.halo, italic: true, bold: true }));

/** The same as places, px. */
export function regionLabels(
  { grid, frame, taken, lines }: Surroundings,
  regions: readonly Region[],
  size: number,
): RegionLabel[] {
  const toPixels = (all: readonly Polyline[]) => all.map((line) => line.map((at) => toPixel(frame, at)));
  const dots = toPixels(lines).flatMap(sampled);
  const boxes = [...taken];
  return regions.flatMap((region) => {
    const search = { name: region.name, size, nodes: nodesOf(grid, frame, region), taken: boxes, dots };
    const at = widest(frame, search);
    const [outline] = toPixels(region.outline ?? []);
    const sideLabel =
      at === null && outline !== undefined
        ? besideLine({ frame, text: region.name, size, line: outline, taken: boxes, lines: toPixels(lines) })
        : null;
    const label: Label | null = at === null ? sideLabel : { text: region.name, at };
    if (label === null) return [];
    boxes.push(boxOf(label.text, label.at, size));
    return [{ ...label, role: region.role, halo: at === null ? "sheet" : region.halo }];
  });
}

interface Node {
  readonly at: Point;
  readonly inside: boolean;
}

interface Search {
  readonly name: string;
  readonly size: number;
  readonly nodes: readonly Node[];
  readonly taken: readonly Box[];
  readonly dots: readonly Point[];
}

function nodesOf({ d, p }: GridLines, frame: Frame, region: Region): Node[] {
  const thin = (line: readonly number[]) => {
    const step = Math.ceil(line.length / MOST_LINES);
    return line.map((value, k) => [value, k] as const).filter(([, k]) => k % step === 0);
  };
  return thin(d).flatMap(([dValue, i]) =>
    thin(p).map(([pValue, j]) => ({ at: toPixel(frame, [dValue, pValue]), inside: region.belongs(i, j) })),
  );
}

/** The grid point with the largest free box of the text's shape about it; every line dot it hides counts against it. */
function widest(frame: Frame, { name, size, nodes, taken, dots }: Search): Point | null {
  const outside = nodes.filter((node) => !node.inside);
  const half = halfSizes(name, size);
  let best: { at: Point; worth: number } | undefined;
  for (const { at, inside } of nodes) {
    const box = boxOf(name, at, size);
    if (!inside || !insideFrame(frame, box) || taken.some((other) => overlaps(other, box))) continue;
    const free = roomAbout(frame, at, half, outside);
    const worth = free - COST_OF_A_DOT * hidden(box, dots);
    if (free >= SPARE && (best === undefined || worth > best.worth)) best = { at, worth };
  }
  return best?.at ?? null;
}

/** By what factor the text's box could grow about the point before it leaves its region or the frame. */
function roomAbout(
  frame: Frame,
  [x, y]: Point,
  [across, up]: readonly [number, number],
  outside: readonly Node[],
): number {
  const toFrame = Math.min(x / across, (frame.width - x) / across, y / up, (frame.height - y) / up);
  return outside.reduce(
    (least, { at }) => Math.min(least, Math.max(Math.abs(at[0] - x) / across, Math.abs(at[1] - y) / up)),
    toFrame,
  );
}
