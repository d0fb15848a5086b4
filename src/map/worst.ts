// The worst case of one point over all variants of an axis, measure by measure, with the variant that gave it.
import { at, numberAt } from "../base/at.js";
import { ABSENCES, MEASURE_IDS, type MeasureId, measureOf } from "../base/measures.js";
import { type TrialTable, WIDTH } from "./trials.js";

/** One trial of the point: which row of which table, under which variant. */
export interface TrialRow {
  readonly variant: number;
  readonly table: TrialTable;
  readonly row: number;
}

export interface WorstMeasure {
  /** Null: absent, for the reason ABSENCES[absent]. */
  readonly value: number | null;
  readonly absent: number;
  readonly variant: number; // -1 where no variant shows it
}

export type WorstPoint = Readonly<Record<MeasureId, WorstMeasure>>;

const NOT_SHOWN = ABSENCES.indexOf("this script does not show it");
/** Absences that are worse than any value: the trial never settled or never reached the level. */
export const FAILING: readonly number[] = ["never settles in the window", "never reaches the level"].map((reason) =>
  (ABSENCES as readonly string[]).indexOf(reason),
);

/** Of a trial that was left out: what it would have shown is not known, so neither is the worst. */
export const SUSTAINED_ANYWAY = ABSENCES.indexOf("sustained under a nudge, not simulated");
const UNKNOWN: WorstMeasure = Object.freeze({ value: null, absent: SUSTAINED_ANYWAY, variant: -1 });

/** The catalogue with its indices. */
const MEASURES_IN_ORDER = MEASURE_IDS.map((id, index) => ({ ...measureOf(id), index }));

export function worstPoint(trials: readonly TrialRow[]): WorstPoint {
  const worst = {} as Record<MeasureId, WorstMeasure>;
  for (const { id, index, better, readWith: others } of MEASURES_IN_ORDER)
    worst[id] =
      others.length === 0 ? worstOf(trials, index, better === "high") : valueFromWorstOf(trials, index, others);
  return worst;
}

function worstOf(trials: readonly TrialRow[], index: number, highIsBetter: boolean): WorstMeasure {
  let value = 0;
  let variant = -1;
  let other = NOT_SHOWN;
  let otherVariant = -1;
  for (const trial of trials) {
    const absent = absenceAt(trial, index);
    if (absent === NOT_SHOWN) continue;
    if (absent === SUSTAINED_ANYWAY) return UNKNOWN;
    if (absent === 0) {
      const now = valueAt(trial, index);
      if (variant >= 0 && !(highIsBetter ? now < value : now > value)) continue;
      value = now;
      variant = trial.variant;
    } else if (FAILING.includes(absent)) return { value: null, absent, variant: trial.variant };
    else {
      other = absent;
      otherVariant = trial.variant;
    }
  }
  return variant < 0 ? { value: null, absent: other, variant: otherVariant } : { value, absent: 0, variant };
}

/** Read from the trial that is the worst at the first of the others which any trial shows together with it. */
function valueFromWorstOf(trials: readonly TrialRow[], index: number, others: readonly MeasureId[]): WorstMeasure {
  const shown = trials.filter((trial) => absenceAt(trial, index) !== NOT_SHOWN);
  if (shown.some((trial) => absenceAt(trial, index) === SUSTAINED_ANYWAY)) return UNKNOWN;
  for (const other of others) {
    const { variant } = worstOf(shown, MEASURE_IDS.indexOf(other), measureOf(other).better === "high");
    const trial = shown.find((one) => one.variant === variant);
    if (trial === undefined) continue;
    const absent = absenceAt(trial, index);
    return { value: absent === 0 ? valueAt(trial, index) : null, absent, variant };
  }
  return { value: null, absent: NOT_SHOWN, variant: -1 };
}

const valueAt = ({ table, row }: TrialRow, index: number): number => numberAt(table.values, row * WIDTH + index);
const absenceAt = ({ table, row }: TrialRow, index: number): number => at(table.absent, row * WIDTH + index);
