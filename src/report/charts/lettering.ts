// Names written into the regions of a map, each where its region is widest, as on a field map.
import { VERDICTS, type Verdict } from "../../base/measures.js";
import type { AxisMap, StabilityMap } from "../../map/format.js";
import { VERDICT_WORDS } from "../verdict-words.js";
import { textWidth } from "./advance.js";
import { type Frame, type Point, type Polyline, toPixel } from "./frame.js";
import { type Box, boxOf, hidden, insideFrame, type Label, overlaps, sampled } from "./placement.js";

const MOST_LINES = 40; // grid lines looked at per side: the place of a name needs no more
const SPARE = 1.25; // the free box must exceed the text's by this factor
const COST_OF_A_DOT = 0.3; // of that factor, per hidden dot of a line

export interface Region {
  readonly name: string;
  readonly belongs: (i: number, j: number) => boolean;
}

/** The five verdicts and the safe region as regions that do not overlap. */
export function regionsOf(axis: AxisMap): Region[] {
  const safe = (i: number, j: number) => axis.safe[i]?.[j] === true;
  const of = (verdict: Verdict): Region => ({
    name: VERDICT_WORDS[verdict].title,
    belongs: (i, j) => axis.verdict[i]?.[j] === verdict && !(verdict === "clean" && safe(i, j)),
  });
  return [{ name: "Safe", belongs: safe }, ...VERDICTS.map(of)];
}

/** A name for every region with room for it, clear of the boxes taken and as far as can be of the lines (px). */
export function lettering(
  map: StabilityMap,
  frame: Frame,
  regions: readonly Region[],
  size: number,
  taken: readonly Box[],
  lines: readonly Polyline[],
): Label[] {
  const dots = lines.flatMap(sampled);
  const placed: Label[] = [];
  for (const region of regions) {
    const boxes = [...taken, ...placed.map((label) => boxOf(label.text, label.at, size))];
    const at = widest(frame, { name: region.name, size, nodes: nodesOf(map, frame, region), taken: boxes, dots });
    if (at !== null) placed.push({ text: region.name, at });
  }
  return placed;
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

function nodesOf(map: StabilityMap, frame: Frame, region: Region): Node[] {
  const { d, p } = map.grid;
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
  const half = { x: textWidth(name, size) / 2, y: size * 0.62 };
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
function roomAbout(frame: Frame, [x, y]: Point, half: { x: number; y: number }, outside: readonly Node[]): number {
  const toFrame = Math.min(x / half.x, (frame.width - x) / half.x, y / half.y, (frame.height - y) / half.y);
  return outside.reduce(
    (least, { at }) => Math.min(least, Math.max(Math.abs(at[0] - x) / half.x, Math.abs(at[1] - y) / half.y)),
    toFrame,
  );
}
