// Doubts about gyro, filters and controller. Common practice, no source.
import type { Airframe } from "../airframe/airframe.js";
import { figures, quantityText } from "../base/units.js";
import { type Doubt, type Figures, twoDigits } from "./doubt.js";

const NOISE = 0.05; // deg/s/sqrt(Hz)

export function noise(_: Airframe, { noise: { gyroDegPerSPerRootHz } }: Figures): string | null {
  if (gyroDegPerSPerRootHz <= NOISE) return null;
  return `${figures(gyroDegPerSPerRootHz)} deg/s/sqrt(Hz) is far above what data sheets of small gyros give, 0.003 to 0.02`;
}

const SHAKING = 10; // deg/s in hover

export function vibration(_: Airframe, { noise: { vibration: lines } }: Figures): string | null {
  const worst = Math.max(0, ...lines.map(({ amplitudeDegPerS }) => amplitudeDegPerS));
  if (worst <= SHAKING) return null;
  return `one rotor shakes the gyro by ${figures(worst)} deg/s in hover: a bent shaft or a broken propeller, or at_hover is off`;
}

/** Filters' delay as a share of the motors' lag. */
const SLOW = 0.5;

export function slowFilters(of: "gyro" | "d"): Doubt {
  return (_, { delays, hover }) => {
    const stages = delays.filter(({ key }) =>
      key.startsWith(of === "gyro" ? "sensing." : "controller.rate_derivative_"),
    );
    const sum = stages.reduce((total, { ms }) => total + ms, 0);
    if (sum <= SLOW * hover.motorLagMs) return null;
    return `${stages.map(({ title }) => title).join(" and ")} are ${twoDigits(sum)} ms late, as slow as the motors themselves (${twoDigits(hover.motorLagMs)} ms); corners are usually far higher`;
  };
}

const LATEST = 4; // ms

export function latency({ controller }: Airframe): string | null {
  if (1000 * controller.latency <= LATEST) return null;
  return `${quantityText(controller.latency, "duration", "ms")} from the gyro's sample to the motors; loops of small craft have 0.3 to 2 ms`;
}
