// One trial in numbers, in full digits: what the map was made of.
import { at } from "../../base/at.js";
import { MEASURE_IDS, type MeasureId } from "../../base/measures.js";
import { D_UNIT, P_UNIT } from "../../base/units.js";
import type { Variant } from "../../plan/plan.js";
import { type Answers, emptyAnswers } from "../../response/answer.js";
import type { Outcome } from "../../response/respond.js";
import { type PlainTrials, simulatePlain } from "../../run/plain.js";
import type { Axis } from "../../words/axes.js";
import type { PageMap } from "../page-map.js";
import type { Simulator } from "../simulator.js";

export interface Trial {
  readonly outcome: Outcome;
  /** Null: absent. */
  readonly measures: Readonly<Record<MeasureId, number | null>>;
  /** Index into ABSENCES; 0: there. */
  readonly absent: Readonly<Record<MeasureId, number>>;
}

/** At SI gains. */
export function trialOf(trials: PlainTrials, p: number, d: number): Trial {
  const answers = emptyAnswers();
  return trialFrom(answers, simulatePlain(trials, p, d, answers));
}

/** From the answers of one trial, in the catalogue's order. */
export function trialFrom({ values, absent }: Answers, outcome: Outcome): Trial {
  const perMeasure = <T>(of: (place: number) => T) =>
    Object.fromEntries(MEASURE_IDS.map((id, place) => [id, of(place)])) as Record<MeasureId, T>;
  return {
    outcome,
    measures: perMeasure((place) => (absent[place] === 0 ? at(values, place) : null)),
    absent: perMeasure((place) => absent[place] ?? 0),
  };
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
