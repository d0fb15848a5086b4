// Every delay that the loop's signal meets, from the gyro through the controller to the rotors' speed.
import type { Airframe, FilterStage, MovingStage } from "../airframe/airframe.js";
import { isNotch, stageDelay } from "../airframe/filter.js";
import { isTracking, meanSpeed, stageAt } from "../airframe/moving-filter.js";
import type { Trim } from "../airframe/powered.js";
import { figures } from "../base/units.js";
import type { SheetDelay } from "./format.js";

/** Delays for signals much slower than each stage, in hover; `motorLag` in s. */
export function delaysOf(airframe: Airframe, hover: Trim, motorLag: number): SheetDelay[] {
  const { sensing, controller } = airframe;
  const { rate, latency } = controller;
  const stages = (chain: readonly FilterStage[] = [], key: string, words: string, ofDAlone: boolean): SheetDelay[] =>
    chain.map((stage, at) => ({
      key: `${key}[${at}]`,
      title: `${words} ${isNotch(stage) ? `${figures(stage.centre)} Hz, ${figures(stage.width)} Hz wide` : `${figures(stage.cutoff)} Hz, order ${stage.order}`}`,
      ms: 1000 * stageDelay(stage, rate),
      ofDAlone,
    }));
  const moving = (chain: readonly MovingStage[] = [], key: string, words: string, ofDAlone: boolean): SheetDelay[] =>
    chain.map((stage, at) => {
      const standing = stageAt(stage, hover.throttle, meanSpeed(hover), airframe);
      return {
        key: `${key}[${at}]`,
        title: `${words} ${placeText(stage, standing)}`,
        ms: 1000 * stageDelay(standing, rate),
        ofDAlone,
      };
    });
  return [
    ...stages(sensing.lowPass, "sensing.low_pass", "gyro low-pass", false),
    ...stages(sensing.notch, "sensing.notch", "gyro notch", false),
    ...moving(sensing.lowPassSchedule, "sensing.low_pass_schedule", "gyro low-pass", false),
    ...moving(sensing.trackingNotch, "sensing.tracking_notch", "gyro notch", false),
    ...stages(controller.derivativeFilter, "controller.rate_derivative_filter", "low-pass of D", true),
    ...stages(controller.derivativeNotch, "controller.rate_derivative_notch", "notch of D", true),
    ...moving(controller.derivativeFilterSchedule, "controller.rate_derivative_filter_schedule", "low-pass of D", true),
    ...moving(controller.derivativeTrackingNotch, "controller.rate_derivative_tracking_notch", "notch of D", true),
    // the difference of two samples tells of the middle between them
    { key: "controller.rate", title: "slope for D: half a period", ms: 500 / rate, ofDAlone: true },
    { key: "controller.latency", title: "latency", ms: 1000 * latency, ofDAlone: false },
    { key: "controller.rate", title: "commands come in steps: half a period", ms: 500 / rate, ofDAlone: false },
    { key: "motor", title: "motor lag in hover", ms: 1000 * motorLag, ofDAlone: false },
  ];
}

/** What moves a stage, and where it stands in hover. */
function placeText(stage: MovingStage, standing: FilterStage): string {
  if (isTracking(stage) && isNotch(standing)) {
    const { centre, width } = standing;
    const place =
      centre === stage.lowest ? `at its lowest, ${figures(centre)} Hz, in hover` : `${figures(centre)} Hz in hover`;
    return `on ${figures(stage.harmonic)} times rotor speed, ${place}, ${figures(width)} Hz wide`;
  }
  return isNotch(standing)
    ? ""
    : `that goes with throttle, ${figures(standing.cutoff)} Hz in hover, order ${standing.order}`;
}

/** What P's share of the command meets, and D's; ms. */
export function delaySum(delays: readonly SheetDelay[]): { p: number; d: number } {
  const sum = (counted: readonly SheetDelay[]) => counted.reduce((total, { ms }) => total + ms, 0);
  return { p: sum(delays.filter(({ ofDAlone }) => !ofDAlone)), d: sum(delays) };
}
