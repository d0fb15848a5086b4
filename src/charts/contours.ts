// Contour lines of the gain margin: how far P, I and D can be raised together before the oscillation sustains
// itself, at the worst throttle and pack. They make the map a landscape: the higher, the more room.
import type { AxisMap } from "../map/format.js";
import type { Frame, Polyline } from "./frame.js";
import { type Crossing, rings } from "./rings.js";
import { innerOutline } from "./terrain.js";

/** dB; 6 dB is the gain doubled. */
const MAP_LEVELS = Object.freeze([3, 6, 9, 12]);

interface Contour {
  readonly level: number; // dB
  readonly lines: readonly Polyline[];
}

/** Contours away from the sustained ground and the frame; a level nothing reaches has none. */
export function marginContours(axis: AxisMap, frame: Frame, levels: readonly number[] = MAP_LEVELS): Contour[] {
  return levels
    .map((level) => {
      const belongs = (i: number, j: number) => marginAt(axis, i, j) >= level;
      return { level, lines: innerOutline(frame, rings(axis.grid, belongs, levelCrossing(axis, level))) };
    })
    .filter((contour) => contour.lines.length > 0);
}

/** Where the loop is stable and no higher gain upsets it, the margin has no end. */
function marginAt(axis: AxisMap, i: number, j: number): number {
  if (axis.verdict[i]?.[j] === "sustained") return Number.NEGATIVE_INFINITY;
  return axis.margins.gainUp[i]?.[j] ?? Number.POSITIVE_INFINITY;
}

function levelCrossing(axis: AxisMap, level: number): Crossing {
  return (i, j, along) => {
    const from = marginAt(axis, i, j);
    const to = along === "d" ? marginAt(axis, i + 1, j) : marginAt(axis, i, j + 1);
    return Number.isFinite(from) && Number.isFinite(to) ? (level - from) / (to - from) : 0.5;
  };
}
