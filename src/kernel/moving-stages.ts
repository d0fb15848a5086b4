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
      values.copyWithin(at, at - width, at - width + stages.length * m.MOVING_WIDTH);
      continue;
    }
    for (const [s, stage] of stages.entries()) {
      const standing = stageAt(stage, throttle[k], ofSchedule * speed[k], airframe);
      values.set(movingCells(standing, airframe.controller.rate), at + s * m.MOVING_WIDTH);
    }
  }
}

/** BAND_BY_GAP to OUTSIDE. */
type Cells = readonly [number, number, number, number];

/** Of a stage that stands there: while it does, the response of filter.ts. */
export function movingCells(stage: FilterStage, rate: number): Cells {
  if (!isNotch(stage)) return lowPassCells(stage, rate);
  const tuning = warped("centre", stage.centre, rate);
  const damping = (warped("width", stage.width, rate) * (1 + tuning * tuning)) / tuning;
  return [...bandCells(tuning, damping), tuning, 1 / tuning];
}

function lowPassCells({ order, cutoff }: LowPass, rate: number): Cells {
  const tuning = warped("cutoff", cutoff, rate);
  if (order === 1) return [tuning / (1 + tuning), 0, 1, 0];
  return [...bandCells(tuning, Math.SQRT2), tuning, 0];
}

/** The trapezoidal rule solved for the first memory at mid-period. */
function bandCells(tuning: number, damping: number): readonly [byGap: number, left: number] {
  const whole = 1 + tuning * (tuning + damping);
  return [tuning / whole, 1 / whole];
}
