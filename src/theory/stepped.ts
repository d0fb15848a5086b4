// The linear plant over one control period as the loop itself steps it: half a step ahead by what the step before
// changed. It differs from the exact hold by terms of (w h)^2, which is what the loop's own step does to a boundary.
import { Matrix } from "ml-matrix";
import { substepsOf } from "../airframe/airframe.js";
import type { Craft } from "../airframe/craft.js";
import { delayOf, takeoverOf } from "../airframe/latency.js";
import type { Trim } from "../airframe/powered.js";
import type { HeldPlant } from "./hold.js";
import { type LinearPlant, slopesAt } from "./linear.js";

/**
 * States: rotor speeds, the speeds foreseen for mid-step (rad/s), the half change of the body rates in the step
 * before, the body rates (rad/s); inputs: duties.
 */
export function steppedPlant(craft: Craft, trim: Trim): HeldPlant {
  const substeps = substepsOf(craft.airframe);
  const { rate } = craft.airframe.controller;
  const step = oneStep(craft, trim, 1 / rate / substeps);
  const delay = delayOf(craft.airframe);
  const takeover = takeoverOf(delay, substeps);
  let { a, b } = step;
  if (delay.newerShare === 0) {
    for (let n = 1; n < substeps; n++) [a, b] = [step.a.mmul(a), Matrix.add(step.a.mmul(b), step.b)];
    return { a, b, newer: null };
  }
  const none = Matrix.zeros(b.rows, b.columns);
  const inputs = (n: number): Inputs => {
    if (n === takeover.olderSteps) return bothInputs(step, takeover.newerShare);
    return n < takeover.olderSteps ? { older: step.b, newer: none } : { older: none, newer: step.b };
  };
  let { older, newer } = inputs(0);
  for (let n = 1; n < substeps; n++) {
    const now = inputs(n);
    a = step.a.mmul(a);
    [older, newer] = [older, newer].map((before, k) =>
      Matrix.add(step.a.mmul(before), k === 0 ? now.older : now.newer),
    );
  }
  return { a, b: older, newer };
}

interface Inputs {
  readonly older: Matrix;
  readonly newer: Matrix;
}

/** The step in which the newer duties take over: the mean of both, and less lift than it by what the later change does. */
function bothInputs({ b, lift }: Step, share: number): Inputs {
  const hidden = Matrix.mul(lift, share * (1 - share));
  return {
    older: Matrix.add(Matrix.mul(b, 1 - share), hidden),
    newer: Matrix.sub(Matrix.mul(b, share), hidden),
  };
}

interface Step extends LinearPlant {
  /** What of `b` comes from the lift of speeds that the duties change within the step. */
  readonly lift: Matrix;
}

function oneStep(craft: Craft, trim: Trim, h: number): Step {
  const n = craft.arms.length;
  const { speeds, air, reaction } = slopesAt(craft, trim);
  const size = 2 * n + 6;
  const pick = (count: number, at: number) => {
    const rows = Matrix.zeros(count, size);
    for (let k = 0; k < count; k++) rows.set(k, at + k, 1);
    return rows;
  };
  const [speed, foreseen, halfTurn, turn] = [pick(n, 0), pick(n, n), pick(3, 2 * n), pick(3, 2 * n + 3)];
  const middleTurn = Matrix.add(turn, halfTurn);
  const middle = stacked(foreseen, middleTurn);
  const halfSpeed = Matrix.mul(speeds.byState.mmul(middle), 0.5 * h);
  const halfSpeedByDuty = Matrix.mul(speeds.byDuty, 0.5 * h);
  const still = Matrix.zeros(3, n);
  const halfRate = Matrix.add(
    air.mmul(stacked(Matrix.add(speed, halfSpeed), middleTurn)),
    reaction.byState.mmul(middle),
  ).mul(0.5 * h);
  const liftByDuty = air.mmul(stacked(halfSpeedByDuty, still));
  const halfRateByDuty = Matrix.add(liftByDuty, reaction.byDuty).mul(0.5 * h);
  const moved = (from: Matrix, half: Matrix, times: number) => Matrix.add(from, Matrix.mul(half, times));
  const none = Matrix.zeros(n, n);
  return {
    a: stacked(moved(speed, halfSpeed, 2), moved(speed, halfSpeed, 3), halfRate, moved(turn, halfRate, 2)),
    b: stacked(
      moved(none, halfSpeedByDuty, 2),
      moved(none, halfSpeedByDuty, 3),
      halfRateByDuty,
      moved(still, halfRateByDuty, 2),
    ),
    lift: stacked(none, none, moved(still, liftByDuty, 0.5 * h), moved(still, liftByDuty, h)),
  };
}

/** Matrices one below the other. */
const stacked = (...parts: readonly Matrix[]): Matrix => new Matrix(parts.flatMap((part) => part.to2DArray()));
