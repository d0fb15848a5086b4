// Constraints on one axis as numbers over the grid, positive where there is room, so that edges and the
// starting tune can be found between grid lines by bilinear interpolation.
import { at, numberAt } from "../base/at.js";
import { ln } from "../base/elementary.js";
import { MEASURES, type MeasureId, measureOf } from "../base/measures.js";
import type { RowBoundary } from "./boundary.js";
import type { PointMargins } from "./margins.js";
import { type Limits, slack } from "./verdict.js";
import { SUSTAINED_ANYWAY, type WorstMeasure, type WorstPoint } from "./worst.js";

/** "sustained", "gain margin", "phase margin", "confidence" (only while a start is chosen), or a measure's id. */
export type ConstraintName = "sustained" | "gain margin" | "phase margin" | "confidence" | MeasureId;

export interface Constraint {
  readonly name: ConstraintName;
  /** Room at each grid point, [d * p.length + p]; 0 at the limit. */
  readonly room: Float64Array;
  /** What decides at each grid point, a code of `decider.ts`. */
  readonly by: Int32Array;
}

export interface Field {
  readonly p: readonly number[];
  readonly d: readonly number[];
  readonly constraints: readonly Constraint[];
}

export interface FieldInput {
  readonly p: readonly number[];
  readonly d: readonly number[];
  readonly worst: readonly WorstPoint[];
  readonly margins: readonly PointMargins[];
  readonly sustained: readonly RowBoundary[];
  readonly limits: Limits;
  readonly required: { readonly gain: number; readonly phase: number }; // dB, rad
}

export function fieldOf(input: FieldInput): Field {
  const { p, d, worst, margins, limits, required } = input;
  const constraints: Constraint[] = [sustainedRoom(input)];
  const over = (name: ConstraintName, room: (point: number) => number, by: (point: number) => number) =>
    constraints.push({
      name,
      room: Float64Array.from(worst, (_, i) => room(i)),
      by: Int32Array.from(worst, (_, i) => by(i)),
    });
  over(
    "gain margin",
    (i) => (leastGain(at(margins, i)) - required.gain) / (required.gain || 1),
    (i) => at(margins, i).gainBy,
  );
  over(
    "phase margin",
    (i) => (at(margins, i).phase - required.phase) / (required.phase || 1),
    (i) => at(margins, i).phaseBy,
  );
  for (const measure of MEASURES) {
    if (measure.argues === null || limits[measure.id] === null) continue;
    over(
      measure.id,
      (i) => slack(measure, at(worst, i)[measure.id], limits[measure.id]) ?? roomWithout(at(worst, i)[measure.id]),
      (i) => at(worst, i)[measure.id].variant,
    );
  }
  return { p, d, constraints };
}

/** Room of a measure that is not there: ample, but none where it was left out for a sustained oscillation. */
const roomWithout = ({ absent }: WorstMeasure): number => (absent === SUSTAINED_ANYWAY ? -1 : 1);

const leastGain = ({ gainUp, gainDown }: PointMargins): number =>
  Math.min(gainUp, gainDown ?? Number.POSITIVE_INFINITY);

/** Log-distance in P to the worst-case boundary, limited to 1 so that an edge is where it changes sign. */
function sustainedRoom({ p, d, sustained }: FieldInput): Constraint {
  const room = new Float64Array(p.length * d.length);
  const by = new Int32Array(room.length);
  for (const [row, stable] of sustained.entries()) {
    for (const [column, gain] of p.entries()) {
      const point = row * p.length + column;
      const [distance, decider] = toEdge(stable, gain);
      room[point] = Math.max(-1, Math.min(1, distance));
      by[point] = decider;
    }
  }
  return { name: "sustained", room, by };
}

function toEdge(stable: RowBoundary, gain: number): readonly [distance: number, by: number] {
  if ("never" in stable) return [-1, stable.never];
  const up = stable.toOpen ? 1 : ln(stable.to / gain);
  const down = stable.fromOpen ? 1 : ln(gain / stable.from);
  return up <= down ? [up, stable.toBy] : [down, stable.fromBy];
}

/** The least room at a place between grid lines, given in cells, and the constraint that leaves it. */
export function tightest(field: Field, column: number, row: number): { room: number; constraint: Constraint } {
  let best = { room: Number.POSITIVE_INFINITY, constraint: at(field.constraints, 0) };
  for (const constraint of field.constraints) {
    const room = between(field, constraint.room, column, row);
    if (room < best.room) best = { room, constraint };
  }
  return best;
}

/** The grid point whose least room is largest, with that room and the constraint that leaves it. */
export function nearestToSafe(field: Field): { p: number; d: number; room: number; constraint: Constraint } {
  const points = field.d.flatMap((d, row) => field.p.map((p, column) => ({ p, d, ...tightest(field, column, row) })));
  return points.reduce((best, one) => (one.room > best.room ? one : best));
}

function between({ p, d }: Field, values: Float64Array, column: number, row: number): number {
  const i = Math.min(p.length - 2, Math.floor(column));
  const j = Math.min(d.length - 2, Math.floor(row));
  const [x, y] = [column - i, row - j];
  const corner = j * p.length + i;
  const value = (point: number) => clip(numberAt(values, point));
  const low = value(corner) * (1 - x) + value(corner + 1) * x;
  const high = value(corner + p.length) * (1 - x) + value(corner + p.length + 1) * x;
  return low * (1 - y) + high * y;
}

/** An infinite margin must not win over its neighbours by more than a wide one does. */
const clip = (room: number): number => Math.max(-1, Math.min(1, room));

export const constraintTitle = (name: ConstraintName): string =>
  name === "sustained"
    ? "sustained oscillation"
    : name === "gain margin" || name === "phase margin" || name === "confidence"
      ? name
      : measureOf(name).title;
