// Every delay that the loop's signal meets, from the gyro through the controller to the rotors' speed.
import type { Airframe, FilterStage } from "../airframe/airframe.js";
import { isNotch, stageDelay } from "../airframe/filter.js";
import { figures } from "../base/units.js";
import type { SheetDelay } from "./format.js";

/** Delays for signals much slower than each stage; `motorLag` in s. */
export function delaysOf(airframe: Airframe, motorLag: number): SheetDelay[] {
  const { sensing, controller } = airframe;
  const { rate, latency } = controller;
  const stages = (chain: readonly FilterStage[] = [], key: string, words: string, ofDAlone: boolean): SheetDelay[] =>
    chain.map((stage, at) => ({
      key: `${key}[${at}]`,
      title: `${words} ${isNotch(stage) ? `${figures(stage.centre)} Hz, ${figures(stage.width)} Hz wide` : `${figures(stage.cutoff)} Hz, order ${stage.order}`}`,
      ms: 1000 * stageDelay(stage, rate),
      ofDAlone,
    }));
  return [
    ...stages(sensing.lowPass, "sensing.low_pass", "gyro low-pass", false),
    ...stages(sensing.notch, "sensing.notch", "gyro notch", false),
    ...stages(controller.derivativeFilter, "controller.rate_derivative_filter", "low-pass of D", true),
    ...stages(controller.derivativeNotch, "controller.rate_derivative_notch", "notch of D", true),
    // the difference of two samples tells of the middle between them
    { key: "controller.rate", title: "slope for D: half a period", ms: 500 / rate, ofDAlone: true },
    { key: "controller.latency", title: "latency", ms: 1000 * latency, ofDAlone: false },
    { key: "controller.rate", title: "commands come in steps: half a period", ms: 500 / rate, ofDAlone: false },
    { key: "motor", title: "motor lag in hover", ms: 1000 * motorLag, ofDAlone: false },
  ];
}

/** What P's share of the command meets, and D's; ms. */
export function delaySum(delays: readonly SheetDelay[]): { p: number; d: number } {
  const sum = (counted: readonly SheetDelay[]) => counted.reduce((total, { ms }) => total + ms, 0);
  return { p: sum(delays.filter(({ ofDAlone }) => !ofDAlone)), d: sum(delays) };
}
