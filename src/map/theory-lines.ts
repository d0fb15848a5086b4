// The boundary of one linearised loop over the swept range: stable ranges per D, and the curve between stable and
// unstable for drawing.
import { at, last } from "../base/at.js";
import { simplify } from "../base/simplify.js";
import { D_UNIT, P_UNIT } from "../base/units.js";
import { boundaryCurve, stableIntervals } from "../theory/boundary.js";
import { isStable } from "../theory/margins.js";
import type { LoopPieces } from "../theory/pieces.js";
import type { CurvePoint, TheoryLoop } from "./theory-format.js";

/** The swept gains, SI. */
export interface SweptGrid {
  readonly p: readonly number[];
  readonly d: readonly number[];
}

const DRAWING_TOLERANCE = 1e-3; // share of the swept range by which a simplified curve may be off
const SIDE_STEP = 1e-4; // share of P by which stability is tested on either side of the curve

const digits = (value: number, count: number): number => Number(value.toPrecision(count));

/** Per D of the grid. */
export function stableRanges(pieces: LoopPieces, i: number, { p, d }: SweptGrid): TheoryLoop["perD"] {
  const range = { from: at(p, 0), to: last(p) };
  return d.map((gain) =>
    stableIntervals(pieces, gain, i, range).map(
      ({ from, to }) =>
        [
          from === range.from ? null : digits(from / P_UNIT, 7),
          to === range.to ? null : digits(to / P_UNIT, 7),
        ] as const,
    ),
  );
}

/** Lines of the parameter plane's curve that have stable ground on one side, within the swept range. */
export function boundaryLines(pieces: LoopPieces, i: number, { p, d }: SweptGrid): TheoryLoop["curve"] {
  const inside = (gain: number, line: readonly number[]) => gain >= at(line, 0) && gain <= last(line);
  let line: CurvePoint[] = [];
  const lines = [line];
  for (const point of boundaryCurve(pieces, i)) {
    if (inside(point.p, p) && inside(point.d, d) && borders(pieces, i, point))
      line.push([point.d / D_UNIT, point.p / P_UNIT, point.frequency / 2 / Math.PI]);
    else if (line.length > 0) {
      line = [];
      lines.push(line);
    }
  }
  const span = (line: readonly number[], unit: number) => (DRAWING_TOLERANCE * (last(line) - at(line, 0))) / unit;
  const off = [span(d, D_UNIT), span(p, P_UNIT)] as const;
  return lines
    .filter((line) => line.length > 1)
    .map((line) => simplify(line, off).map(([x, y, f]) => [digits(x, 5), digits(y, 5), digits(f, 3)] as const));
}

const borders = (pieces: LoopPieces, i: number, { p, d }: { readonly p: number; readonly d: number }): boolean =>
  isStable(pieces, { p: p * (1 - SIDE_STEP), d, i }) !== isStable(pieces, { p: p * (1 + SIDE_STEP), d, i });
