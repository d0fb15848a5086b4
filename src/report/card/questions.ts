// Questions on the card after each flight, by step and axis: their answers are what a flight file takes as sightings.
import type { LadderKind } from "../../base/script-kinds.js";
import type { StabilityMap } from "../../map/format.js";
import type { LadderManoeuvre, LadderTune } from "../../map/ladder-format.js";
import { AXES, type Axis } from "../../words/axes.js";

export interface Question {
  /** Of the ladder, from 0. */
  readonly step: number;
  readonly axis: Axis;
  readonly tune: LadderTune;
  /** The manoeuvre that is asked about: the stop where the step has one. */
  readonly manoeuvre: LadderManoeuvre;
  /** Whether swings can be counted in it: after a stop; in disturbed air they never end. */
  readonly counted: boolean;
  /** Frequency of its picture, Hz, two digits; null where the picture swings too little to have one. */
  readonly picture: number | null;
}

const FREQUENCY: Readonly<Record<LadderKind, "ringFrequency" | "wobbleFrequency" | null>> = {
  stop: "ringFrequency",
  wobble: "wobbleFrequency",
  blip: null,
};

/** In the order of the card. */
export function questionsOf(map: StabilityMap): Question[] {
  const { steps, manoeuvres } = map.ladder ?? { steps: [], manoeuvres: [] };
  return steps.flatMap(({ axes }, step) =>
    AXES.flatMap((axis): Question[] => {
      const tune = axes[axis];
      const all = (tune?.trials ?? []).flatMap((trial) => manoeuvres[trial.manoeuvre] ?? []);
      const manoeuvre = all.find(({ kind }) => kind === "stop") ?? all[0];
      if (tune === undefined || manoeuvre === undefined) return [];
      const measure = FREQUENCY[manoeuvre.kind];
      const hertz = measure === null ? null : (tune.measures[measure] ?? null);
      const picture = hertz === null ? null : Number(hertz.toPrecision(2));
      return [{ step, axis, tune, manoeuvre, counted: manoeuvre.kind === "stop", picture }];
    }),
  );
}
