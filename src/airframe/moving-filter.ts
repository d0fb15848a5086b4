// Filter stages that move: low-passes whose corner goes with throttle, notches that follow the rotors. They stand behind the
// fixed ones of their chain, low-passes first.
import type { Airframe, FilterStage, MovingStage, TrackingNotch } from "./airframe.js";
import { gyroChain, isNotch, slopeChain } from "./filter.js";
import type { Trim } from "./powered.js";
import { rowsAround } from "./throttle-rows.js";

/** What the controller knows of where it works: the collective command (fraction) and the rotors' speeds (rad/s). */
export type WorkingPoint = Pick<Trim, "throttle" | "speeds">;

/** What the measured rate passes behind the fixed stages. */
export const movingGyroChain = ({ sensing }: Airframe): readonly MovingStage[] => [
  ...(sensing.lowPassSchedule ?? []),
  ...(sensing.trackingNotch ?? []),
];

/** What the filtered rate's slope passes behind the fixed stages. */
export const movingSlopeChain = ({ controller }: Airframe): readonly MovingStage[] => [
  ...(controller.derivativeFilterSchedule ?? []),
  ...(controller.derivativeTrackingNotch ?? []),
];

export const isTracking = (stage: MovingStage): stage is TrackingNotch => "harmonic" in stage;

/** As a share of the loop's rate: no notch can follow a line to half of it. */
const HIGHEST = 0.49;

/** A stage where it stands at a collective command (fraction) and a mean rotor speed (rad/s). */
export function stageAt(
  stage: MovingStage,
  throttle: number,
  speed: number,
  { controller }: Pick<Airframe, "controller">,
): FilterStage {
  if (isTracking(stage)) {
    const line = (stage.harmonic * speed) / 2 / Math.PI;
    const centre = Math.min(HIGHEST * controller.rate, Math.max(stage.lowest, line));
    return { centre, width: stage.width * centre };
  }
  const around = rowsAround(stage.corners, throttle);
  if (around === null) throw new RangeError("a low-pass without corners");
  const [before, after, share] = around;
  return { order: stage.order, cutoff: before.cutoff + share * (after.cutoff - before.cutoff) };
}

/** Mean over the rotors, rad/s: the one speed that the notches follow. */
export const meanSpeed = ({ speeds }: Pick<Trim, "speeds">): number =>
  speeds.reduce((sum, speed) => sum + speed, 0) / speeds.length;

const standing = (chain: readonly MovingStage[], point: WorkingPoint, airframe: Airframe): FilterStage[] =>
  chain.map((stage) => stageAt(stage, point.throttle, meanSpeed(point), airframe));

/** All that the measured rate passes on its way to P, as it stands at a working point. */
export const gyroChainAt = (airframe: Airframe, point: WorkingPoint): readonly FilterStage[] => [
  ...gyroChain(airframe),
  ...standing(movingGyroChain(airframe), point, airframe),
];

/** All that the filtered rate's slope passes on its way to D, as it stands at a working point. */
export const slopeChainAt = (airframe: Airframe, point: WorkingPoint): readonly FilterStage[] => [
  ...slopeChain(airframe),
  ...standing(movingSlopeChain(airframe), point, airframe),
];

/** Whether the loop's rate leaves room for every stage, wherever it moves. */
export function filtersFit(airframe: Airframe): boolean {
  const half = airframe.controller.rate / 2;
  const fixed = [...gyroChain(airframe), ...slopeChain(airframe)].flatMap((stage) =>
    isNotch(stage) ? [stage.centre, stage.width] : [stage.cutoff],
  );
  const moving = [...movingGyroChain(airframe), ...movingSlopeChain(airframe)].flatMap((stage) =>
    isTracking(stage) ? [stage.lowest] : stage.corners.map(({ cutoff }) => cutoff),
  );
  return [...fixed, ...moving].every((frequency) => frequency < half);
}
