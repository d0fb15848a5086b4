// Faults of a model's filter stages: what the loop's rate leaves no room for, and rows that do not rise.
import type { Path } from "../base/problem.js";
import { quantityText } from "../base/units.js";
import { type Fault, notRising } from "./fault.js";
import type { AirframeFile } from "./schema.js";

type Sensing = AirframeFile["sensing"];

export function filterFaults({ sensing, controller }: AirframeFile): Fault[] {
  const half = controller.rate / 2;
  return [
    ...fixedFaults(sensing.low_pass, ["sensing", "low_pass"], half),
    ...fixedFaults(sensing.notch, ["sensing", "notch"], half),
    ...scheduleFaults(sensing.low_pass_schedule, ["sensing", "low_pass_schedule"], half),
    ...trackingFaults(sensing.tracking_notch, ["sensing", "tracking_notch"], half),
    ...fixedFaults(controller.rate_derivative_notch, ["controller", "rate_derivative_notch"], half),
    ...fixedFaults(controller.command_low_pass, ["controller", "command_low_pass"], half),
    ...fixedFaults(controller.rate_derivative_filter, ["controller", "rate_derivative_filter"], half),
    ...scheduleFaults(
      controller.rate_derivative_filter_schedule,
      ["controller", "rate_derivative_filter_schedule"],
      half,
    ),
    ...trackingFaults(
      controller.rate_derivative_tracking_notch,
      ["controller", "rate_derivative_tracking_notch"],
      half,
    ),
  ];
}

function fixedFaults(stages: Sensing["low_pass"] | Sensing["notch"], path: Path, half: number): Fault[] {
  return (stages ?? []).flatMap((stage, at) =>
    Object.entries(stage).flatMap(([key, value]: [string, number]) =>
      key === "order" ? [] : tooHigh(value, [...path, at, key], half),
    ),
  );
}

function scheduleFaults(stages: Sensing["low_pass_schedule"], path: Path, half: number): Fault[] {
  return (stages ?? []).flatMap(({ corners }, at) => [
    ...notRising(
      corners.map(({ throttle }) => throttle),
      [...path, at, "corners"],
      "throttle",
    ),
    ...corners.flatMap(({ cutoff }, row) => tooHigh(cutoff, [...path, at, "corners", row, "cutoff"], half)),
  ]);
}

const trackingFaults = (stages: Sensing["tracking_notch"], path: Path, half: number): Fault[] =>
  (stages ?? []).flatMap(({ lowest }, at) => tooHigh(lowest, [...path, at, "lowest"], half));

function tooHigh(frequency: number, path: Path, half: number): Fault[] {
  if (frequency < half) return [];
  const [found, limit] = [frequency, half].map((one) => quantityText(one, "frequency"));
  return [{ path, message: `${found} is not below half the loop rate, ${limit}` }];
}
