// Small trial tables and worst cases written by hand.
import { ABSENCES, MEASURE_IDS, MEASURES, type MeasureId } from "../../src/base/measures.js";
import { type TrialTable, WIDTH } from "../../src/map/trials.js";
import type { Limits } from "../../src/map/verdict.js";
import type { Surroundings } from "../../src/map/way-out.js";
import type { WorstPoint } from "../../src/map/worst.js";

export const NOT_SHOWN = "this script does not show it";

type Shown = Partial<Record<MeasureId, number | (typeof ABSENCES)[number]>>;

export const absence = (reason: (typeof ABSENCES)[number]): number => ABSENCES.indexOf(reason);

/** One row per trial; what is not named is not shown. */
export function tableOf(rows: readonly Shown[]): TrialTable {
  const table = {
    values: new Float64Array(rows.length * WIDTH),
    absent: new Uint8Array(rows.length * WIDTH),
    outcome: new Uint8Array(rows.length),
  };
  rows.forEach((row, trial) => {
    MEASURE_IDS.forEach((id, index) => {
      const shown = row[id] ?? NOT_SHOWN;
      table.values[trial * WIDTH + index] = typeof shown === "number" ? shown : 0;
      table.absent[trial * WIDTH + index] = typeof shown === "number" ? 0 : absence(shown);
    });
  });
  return table;
}

/** Trials by outcome alone: true dies out. */
export function outcomes(diesOut: readonly boolean[]): TrialTable {
  const table = tableOf(diesOut.map(() => ({})));
  diesOut.forEach((calm, trial) => {
    table.outcome[trial] = calm ? 0 : 1;
  });
  return table;
}

/** A worst case in which variant 100 + catalogue index gave each measure that is named. */
export function worstOf(shown: Shown): WorstPoint {
  const entries = MEASURE_IDS.map((id, index) => {
    const value = shown[id] ?? NOT_SHOWN;
    if (typeof value === "number") return [id, { value, absent: 0, variant: 100 + index }];
    return [id, { value: null, absent: absence(value), variant: value === NOT_SHOWN ? -1 : 100 + index }];
  });
  return Object.fromEntries(entries);
}

export const decider = (id: MeasureId): number => 100 + MEASURE_IDS.indexOf(id);

export const defaultLimits = Object.fromEntries(MEASURES.map(({ id, limit }) => [id, limit])) as Limits;
export const noLimits = Object.fromEntries(MEASURES.map(({ id }) => [id, null])) as Limits;

/** Nothing was simulated around the point. */
export const NOWHERE: Surroundings = { moreP: [], lessP: [], moreD: [], lessD: [] };
