// One trial in numbers, in full digits: what the map was made of.
import { MEASURE_IDS, type MeasureId } from "../../base/measures.js";
import { D_UNIT, P_UNIT } from "../../base/units.js";
import type { Variant } from "../../plan/plan.js";
import { emptyAnswers } from "../../response/answer.js";
import type { Outcome } from "../../response/respond.js";
import { type PlainTrials, simulatePlain } from "../../run/plain.js";
import type { Axis } from "../../words/axes.js";
import type { PageMap } from "../page-map.js";
import type { Simulator } from "../simulator.js";

export interface Trial {
  readonly outcome: Outcome;
  /** Null: absent. */
  readonly measures: Readonly<Record<MeasureId, number | null>>;
}

/** At SI gains. */
export function trialOf(trials: PlainTrials, p: number, d: number): Trial {
  const answers = emptyAnswers();
  const outcome = simulatePlain(trials, p, d, answers);
  const measures = MEASURE_IDS.map((id, k) => [id, answers.absent[k] === 0 ? answers.values[k] : null]);
  return { outcome, measures: Object.fromEntries(measures) };
}

/** SI gains from display units: on a grid line exactly the gain the map was simulated with, elsewhere converted. */
export function siGains(
  pageMap: Pick<PageMap, "axes">,
  simulator: Pick<Simulator, "grid">,
  axis: Axis,
  p: number,
  d: number,
): readonly [number, number] {
  const { grid } = pageMap.axes[axis];
  const si = simulator.grid[axis];
  return [si.p[grid.p.indexOf(p)] ?? p * P_UNIT, si.d[grid.d.indexOf(d)] ?? d * D_UNIT];
}

/** For the browser's console: `gainscape.simulate(0, 9, 1.05)` simulates one trial and returns it in full digits. */
export interface ConsoleApi {
  /** Script, axis and level of each variant, by the number `simulate` takes. */
  readonly variants: readonly string[];
  /** P in % per 100 deg/s, D in % per 1000 deg/s^2. */
  readonly simulate: (variant: number, p: number, d: number) => Trial;
}

export function consoleApi(pageMap: PageMap, simulator: Simulator): ConsoleApi {
  const { variants, conditions } = simulator.plan;
  const named = ({ script, axis, throttle, condition }: Variant) =>
    `${script.name}, ${axis}, ${100 * throttle} %, ${conditions[condition]?.condition.name}`;
  return {
    variants: variants.map(named),
    simulate(index, p, d) {
      const variant = variants[index];
      if (variant === undefined) throw new RangeError(`no variant ${index}, expected 0 to ${variants.length - 1}`);
      return trialOf(simulator.trialsFor(variant), ...siGains(pageMap, simulator, variant.axis, p, d));
    },
  };
}
