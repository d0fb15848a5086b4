// Filter stages that move, control period by control period: their coefficients as the loop takes them (stages.ts), so that
// nothing of it is computed in there.
import type { FilterStage, LowPass } from "../airframe/airframe.js";
import { isNotch, warped } from "../airframe/filter.js";
import { meanSpeed, movingGyroChain, movingSlopeChain, stageAt } from "../airframe/moving-filter.js";
import type { TrialPlan, TrialVariant } from "../plan/plan.js";
import * as m from "./memory.js";
import type { Schedule } from "./schedule.js";

/**
 * Low-passes go with the throttle that the script commands, as gains do. Notches follow the rotors' mean speed as the vibration lines
 * have it: that of the throttle's schedule, at the start that of the trim, never that of the trial.
 */
export function movingStagesInto(
  values: Float64Array,
  shape: m.Shape,
  { steps, throttle, speed }: Schedule,
  { airframe }: Pick<TrialPlan, "airframe">,
  { trim }: Pick<TrialVariant, "trim">,
): void {
  const stages = [...movingGyroChain(airframe), ...movingSlopeChain(airframe)];
  if (stages.length === 0) return;
  const [width, first] = [m.driveWidth(shape), m.extensionAt(shape) + m.EXTENSION];
  const ofSchedule = speed[0] > 0 ? meanSpeed(trim) / speed[0] : 1;
  for (let k = 0, at = first; k < steps; k++, at += width) {
    if (k > 0 && throttle[k] === throttle[k - 1] && speed[k] === speed[k - 1]) {
      values.copyWithin(at, at - width, at - width + stages.length * m.STAGE_WIDTH);
      continue;
    }
    for (const [s, stage] of stages.entries()) {
      const standing = stageAt(stage, throttle[k], ofSchedule * speed[k], airframe);
      values.set(movingCells(standing, airframe.controller.rate), at + s * m.STAGE_WIDTH);
    }
  }
}

/** BAND_SHARE and what follows it, of a stage that stands there: while it does, the response of filter.ts. */
export function movingCells(stage: FilterStage, rate: number): readonly [number, number, number, number, number] {
  if (!isNotch(stage)) return lowPassCells(stage, rate);
  const tuning = warped("centre", stage.centre, rate);
  const damping = (warped("width", stage.width, rate) * (1 + tuning * tuning)) / tuning;
  return [bandShare(tuning, damping), tuning + damping, tuning, 1, 1 / tuning];
}

function lowPassCells({ order, cutoff }: LowPass, rate: number): readonly [number, number, number, number, number] {
  const tuning = warped("cutoff", cutoff, rate);
  if (order === 1) return [tuning / (1 + tuning), 0, 1, 0, 0];
  return [bandShare(tuning, Math.SQRT2), tuning + Math.SQRT2, tuning, 1, 0];
}

const bandShare = (tuning: number, damping: number): number => tuning / (1 + tuning * (tuning + damping));
