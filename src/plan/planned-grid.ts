// The sweep with the lines that its file leaves to the plan.
import type { Airframe } from "../airframe/airframe.js";
import { at, last } from "../base/at.js";
import { D_UNIT, P_UNIT } from "../base/units.js";
import type { Axis, GainGrid, LineCounts, RequestedSweep, Sweep } from "../sweep/sweep.js";
import type { GainsByAxis } from "../theory/plant.js";
import { autoGrid } from "./auto-grid.js";
import type { PlanFault } from "./fault.js";
import type { Place } from "./places.js";

/** Lines already chosen for another craft, for the axes that are left to the plan. */
export type SharedGrid = Sweep["grid"];

interface PlannedGrid {
  readonly sweep: Sweep;
  /** What was chosen, a readable line each. */
  readonly assumed: readonly string[];
  /** Whether the lines were chosen for another craft. */
  readonly shared: boolean;
}

/** The sweep itself where its file gives every line. `models`: operating points of the model as it is written, then of draws of it. */
export function plannedGrid(
  airframe: Airframe,
  { changes: _, ...requested }: RequestedSweep,
  models: readonly (readonly Place[])[],
  holding: GainsByAxis,
  shared?: SharedGrid,
): PlannedGrid | readonly PlanFault[] {
  const linesOf = (axis: Axis): GainGrid | null => {
    const grid = requested.grid[axis];
    if (!("auto" in grid)) return grid;
    if (shared !== undefined) return shared[axis];
    const { i } = airframe.controller[axis];
    const loops = models.map((places) => places.map(({ loop }) => loop(axis, holding)));
    const pinned = requested.pinned?.[axis] ?? null;
    return at(loops, 0).length === 0
      ? null
      : autoGrid(loops, { i, margins: requested.margins, lines: grid.auto, pinned });
  };
  const [roll, pitch] = [linesOf("roll"), linesOf("pitch")];
  if (roll === null || pitch === null)
    return (["roll", "pitch"] as const)
      .filter((axis) => (axis === "roll" ? roll : pitch) === null)
      .map((axis) => ({ file: "sweep", path: ["grid"], message: NOWHERE(axis) }));
  const counts = autoCounts(requested.grid);
  const grid = { roll, pitch };
  if (counts === null) return { sweep: { ...requested, grid }, assumed: [], shared: false };
  const isShared = shared !== undefined;
  return {
    sweep: { ...requested, grid, autoGrid: counts },
    assumed: gridWords(counts, grid, isShared),
    shared: isShared,
  };
}

const NOWHERE = (axis: Axis): string =>
  `theory finds no gains at which ${axis} is stable, so that auto has nothing to go by; give its lines (try "p: {from: 2 %/(100 deg/s), to: 60 %/(100 deg/s), points: 24}")`;

/** How many lines the axes have that are left to the plan; null: none is. */
function autoCounts({ roll, pitch }: RequestedSweep["grid"]): NonNullable<Sweep["autoGrid"]> | null {
  if (!("auto" in roll || "auto" in pitch)) return null;
  return { ...("auto" in roll ? { roll: roll.auto } : {}), ...("auto" in pitch ? { pitch: pitch.auto } : {}) };
}

function gridWords(counts: Readonly<Partial<Record<Axis, LineCounts>>>, grid: Sweep["grid"], taken: boolean): string[] {
  return (["roll", "pitch"] as const).flatMap((axis) => {
    const { p, d } = grid[axis];
    const say = (line: readonly number[], unit: number) =>
      `${Number((at(line, 0) / unit).toPrecision(3))} to ${Number((last(line) / unit).toPrecision(3))}`;
    if (counts[axis] === undefined) return [];
    const how = taken
      ? "as they were chosen for the craft it is compared with"
      : "chosen so that the sustained boundary lies inside, densest where theory finds the wanted margins";
    return [
      `Grid of ${axis}: ${p.length} lines of P, ${say(p, P_UNIT)}, by ${d.length} of D, ${say(d, D_UNIT)}, ${how}.`,
    ];
  });
}
