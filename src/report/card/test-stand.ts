// One axis of a climb alone, for a craft held on a test stand: its stops. Nobody can order prop wash there.
import type { MeasureId } from "../../base/measures.js";
import { SCRIPT_KINDS } from "../../base/script-kinds.js";
import type { StabilityMap } from "../../map/format.js";
import type { LadderStep, LadderTune } from "../../map/ladder-format.js";
import type { Axis } from "../../words/axes.js";

export function onTestStand(map: StabilityMap, axis: Axis): StabilityMap {
  const { ladder } = map;
  if (ladder === undefined) return map;
  const isStop = ({ manoeuvre }: { readonly manoeuvre: number }) => ladder.manoeuvres[manoeuvre]?.kind === "stop";
  const steps = ladder.steps.flatMap(({ axes, ...step }): LadderStep[] => {
    const tune = axes[axis];
    const trials = (tune?.trials ?? []).filter(isStop);
    return tune === undefined || trials.length === 0
      ? []
      : [{ ...step, axes: { [axis]: { ...tune, trials, measures: shownOf(tune) } } }];
  });
  return { ...map, ladder: { ...ladder, steps } };
}

const SHOWN: readonly MeasureId[] = [...SCRIPT_KINDS.stop.measures, ...SCRIPT_KINDS.hover.measures];

const shownOf = ({ measures }: LadderTune): LadderTune["measures"] =>
  Object.fromEntries(SHOWN.map((id) => [id, measures[id] ?? null]));

/** What to tick before propellers turn on a stand. Common practice, no source. */
export const STAND_CHECKS: readonly string[] = Object.freeze([
  "stand bolted down; it turns about this axis alone, and freely",
  "a cage or screen between the craft and everybody; eyes covered",
  "somebody at a switch that cuts the power",
  "nothing loose within a metre, nothing that burns below",
  "propellers on last, pack off before anybody reaches in",
]);
