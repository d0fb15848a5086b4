// What a step is compared with: the nearest step before it in which the axis met the same kind of manoeuvre.
import { at } from "../base/at.js";
import type { LadderKind } from "../base/script-kinds.js";
import type { StabilityMap } from "../map/format.js";
import type { LadderManoeuvre, LadderTrial, LadderTune } from "../map/ladder-format.js";
import type { Axis } from "./axes.js";

export interface EarlierTrial {
  readonly step: number; // from 0
  readonly tune: LadderTune;
  readonly trial: LadderTrial;
  readonly manoeuvre: LadderManoeuvre;
}

/** Null for a kind that the axis meets for the first time. `step`: from 0. */
export function earlierTrial(
  { ladder }: StabilityMap,
  step: number,
  axis: Axis,
  kind: LadderKind,
): EarlierTrial | null {
  const { steps, manoeuvres } = ladder ?? { steps: [], manoeuvres: [] };
  for (let before = step - 1; before >= 0; before--) {
    const tune = at(steps, before).axes[axis];
    for (const trial of tune?.trials ?? []) {
      const manoeuvre = manoeuvres[trial.manoeuvre];
      if (tune !== undefined && manoeuvre?.kind === kind) return { step: before, tune, trial, manoeuvre };
    }
  }
  return null;
}
