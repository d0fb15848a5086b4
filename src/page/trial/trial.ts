// One trial in numbers, every digit of them: what the map was made of.
import { MEASURE_IDS, type MeasureId } from "../../base/measures.js";
import { D_UNIT, P_UNIT } from "../../base/units.js";
import type { Variant } from "../../plan/plan.js";
import { emptyAnswers } from "../../response/answer.js";
import type { Outcome } from "../../response/respond.js";
import { type PlainTrials, simulatePlain } from "../../run/plain.js";
import type { PageMap } from "../page-map.js";
import type { Simulator } from "../simulator.js";

export interface Trial {
  readonly outcome: Outcome;
  /** Null: absent. */
  readonly measures: Readonly<Record<MeasureId, number | null>>;
}

/** Flies SI gains. */
export function trialOf(bench: PlainTrials, p: number, d: number): Trial {
  const answers = emptyAnswers();
  const outcome = simulatePlain(bench, p, d, answers);
  const measures = MEASURE_IDS.map((id, k) => [id, answers.absent[k] === 0 ? answers.values[k] : null]);
  return { outcome, measures: Object.fromEntries(measures) };
}

/** SI gains of people's: on a grid line the very gain the map was flown with, elsewhere by the unit. */
export function siGains(
  survey: Pick<PageMap, "grid">,
  fleet: Simulator,
  p: number,
  d: number,
): readonly [number, number] {
  const [j, i] = [survey.grid.p.indexOf(p), survey.grid.d.indexOf(d)];
  return [fleet.grid.p[j] ?? p * P_UNIT, fleet.grid.d[i] ?? d * D_UNIT];
}

/** What the browser's console is offered: `gainscape.fly(0, 9, 1.05)` flies one trial and answers every digit. */
export interface DisplayRanges {
  /** Script, axis and level of each variant, by the number `fly` takes. */
  readonly variants: readonly string[];
  /** P in % per 100 deg/s, D in % per 1000 deg/s^2. */
  readonly fly: (variant: number, p: number, d: number) => Trial;
}

export function displayRanges(survey: PageMap, fleet: Simulator): DisplayRanges {
  const { variants, conditions } = fleet.plan;
  const named = ({ script, axis, throttle, condition }: Variant) =>
    `${script.name}, ${axis}, ${100 * throttle} %, ${conditions[condition]?.condition.name}`;
  return {
    variants: variants.map(named),
    fly(index, p, d) {
      const variant = variants[index];
      if (variant === undefined) throw new RangeError(`no variant ${index}, expected 0 to ${variants.length - 1}`);
      return trialOf(fleet.bench(variant), ...siGains(survey, fleet, p, d));
    },
  };
}
