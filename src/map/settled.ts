// Which points need no other trial: where a nudge does not die out, and at all points around, no script can make them
// anything but sustained. The points next to others keep all their trials, for edges are interpolated between them.
import { at } from "../base/at.js";
import { ABSENCES, MEASURE_IDS, type MeasureId } from "../base/measures.js";
import { SCRIPT_KINDS } from "../base/script-kinds.js";
import type { Plan, Variant } from "../plan/plan.js";
import type { GainGrid } from "../sweep/sweep.js";
import { around } from "./around.js";
import { isSimulated, NOT_SIMULATED, sustains, type TrialTable, WIDTH } from "./trials.js";
import { SUSTAINED_ANYWAY } from "./worst.js";

const NOT_SHOWN = ABSENCES.indexOf("this script does not show it");

/** Whether a variant is simulated before the others and decides where they are needed. */
export const decidesFirst = ({ script }: Pick<Variant, "script">): boolean => script.kind === "nudge";

/** Whether trials of the plan may be left out. */
export const mayLeaveOut = ({ sweep, variants }: Pick<Plan, "sweep" | "variants">): boolean =>
  sweep.everyTrial !== true && variants.some(decidesFirst) && !variants.every(decidesFirst);

/** Next to a point. */
const NEIGHBOURS: readonly number[] = [1];

/**
 * Per point, [d * p.length + p], 1 where the variants that decide first leave nothing to the others. `reach`: how far around
 * points that are not sustained trials are read, as factors of P and D one after the other; neighbours count always. The first and
 * the last P of a row are never among them: between these the end of every variant's stable range is searched.
 */
export function settledPoints(
  lines: GainGrid,
  deciding: readonly TrialTable[],
  reach: readonly number[] = NEIGHBOURS,
): Uint8Array {
  const { p, d } = lines;
  const open = Float64Array.from({ length: p.length * d.length }, (_, point) =>
    deciding.some((table) => sustains(table, point)) ? 0 : 1,
  );
  const read = reach.reduce<Float64Array>((found, factor) => around(lines, found, factor, Math.max), open);
  return Uint8Array.from(read, (one, point) => {
    const column = point % p.length;
    return one === 0 && column > 0 && column < p.length - 1 ? 1 : 0;
  });
}

/** The trials of a variant at the points that are not settled, in their order, as a table over the whole grid. */
export function overWholeGrid({ script }: Pick<Variant, "script">, settled: Uint8Array, some: TrialTable): TrialTable {
  if (some.outcome.length === settled.length) return some;
  const whole = {
    values: new Float64Array(settled.length * WIDTH),
    absent: new Uint8Array(settled.length * WIDTH),
    outcome: new Uint8Array(settled.length).fill(NOT_SIMULATED),
  };
  const leftOut = absencesOf(script.kind);
  let row = 0;
  for (const [point, is] of settled.entries()) {
    if (is === 1) whole.absent.set(leftOut, point * WIDTH);
    else {
      whole.values.set(some.values.subarray(row * WIDTH, (row + 1) * WIDTH), point * WIDTH);
      whole.absent.set(some.absent.subarray(row * WIDTH, (row + 1) * WIDTH), point * WIDTH);
      whole.outcome[point] = at(some.outcome, row++);
    }
  }
  return whole;
}

/** Of a trial that was left out: every measure of its kind, and those that every kind shows. */
function absencesOf(kind: Variant["script"]["kind"]): Uint8Array {
  const others = Object.values(SCRIPT_KINDS).filter((row) => row !== SCRIPT_KINDS[kind]);
  const shown = (id: MeasureId) =>
    SCRIPT_KINDS[kind].measures.includes(id) || !others.some(({ measures }) => measures.includes(id));
  return Uint8Array.from(MEASURE_IDS, (id) => (shown(id) ? SUSTAINED_ANYWAY : NOT_SHOWN));
}

/** Points of an axis at which not every variant was simulated, and the trials that this saved; null: none. */
export function leftOutOf(
  grid: ReadonlyMap<number, TrialTable>,
): { readonly points: number; readonly trials: number } | null {
  const tables = [...grid.values()];
  const perPoint = [...(tables[0]?.outcome.keys() ?? [])].map(
    (point) => tables.filter((table) => !isSimulated(table, point)).length,
  );
  const points = perPoint.filter((count) => count > 0).length;
  return points === 0 ? null : { points, trials: perPoint.reduce((sum, count) => sum + count, 0) };
}
