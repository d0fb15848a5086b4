// The pieces of one axis of a craft, with all that the other axes do to it.
import { EigenvalueDecomposition } from "ml-matrix";
import type { Craft } from "../airframe/craft.js";
import type { Trim } from "../airframe/powered.js";
import { controllerPieces } from "./controller.js";
import { coarseGrid, loopGrid } from "./frequency.js";
import { unstablePoles } from "./margins.js";
import { type LoopPieces, loopPieces } from "./pieces.js";
import {
  AXES,
  type AxisName,
  closedPlant,
  exactPeriod,
  type GainsByAxis,
  openPlant,
  type Period,
  plantResponse,
  sharedOpenPlant,
} from "./plant.js";
import { refined } from "./refine.js";
import { denserAtNotches } from "./stage-grid.js";

/** Pieces of one axis of a craft at a trim, on a grid from 0.5 rad/s to half the control rate, denser where it must be. */
export function axisPieces(
  craft: Craft,
  trim: Trim,
  axis: AxisName,
  holding: GainsByAxis,
  period: Period = exactPeriod,
): LoopPieces {
  const grid = denserAtNotches(loopGrid(1 / craft.airframe.controller.rate), craft.airframe, trim);
  const { frequencies, values: plant } = refined(grid, plantResponse(craft, trim, axis, holding, period));
  const controller = controllerPieces(craft.airframe, trim, frequencies);
  return loopPieces(frequencies, plant, controller, {
    closes: true,
    unstable: () => brokenUnstable(craft, trim, axis, holding, period),
  });
}

/**
 * Pieces of one axis of a craft that hardly differs from one whose pieces are at hand, on the frequencies of those: where
 * that craft's response asked for no denser ones, this one's is as smooth. Unstable poles of the open loop are not searched for.
 */
export function nearbyPieces(
  near: Pick<LoopPieces, "frequencies">,
  craft: Craft,
  trim: Trim,
  axis: AxisName,
  holding: GainsByAxis,
): LoopPieces {
  const { frequencies } = near;
  if (frequencies !== loopGrid(1 / craft.airframe.controller.rate)) return axisPieces(craft, trim, axis, holding);
  const plant = plantResponse(craft, trim, axis, holding)(frequencies);
  return loopPieces(frequencies, plant, controllerPieces(craft.airframe, trim, frequencies), { closes: true });
}

/**
 * Pieces of any axis under any holding from one pass over the physics, on a coarser grid: for a choice among many
 * holdings. Margins carry an error below 0.01 dB and 0.1 degrees. What is broken must leave a stable loop: unstable
 * poles of the open loop are not searched for. What is `shared` of the physics stays as long as the craft does.
 */
export function coarsePieces(
  craft: Craft,
  trim: Trim,
  period: Period = exactPeriod,
  kept: "shared" | "own" = "own",
): (axis: AxisName, holding: GainsByAxis) => LoopPieces {
  const frequencies = denserAtNotches(coarseGrid(1 / craft.airframe.controller.rate), craft.airframe, trim);
  const open = (kept === "shared" ? sharedOpenPlant : openPlant)(craft, trim, period)(frequencies);
  const controller = controllerPieces(craft.airframe, trim, frequencies);
  return (axis, holding) =>
    loopPieces(frequencies, closedPlant(craft, trim, open, axis, holding, frequencies), controller, { closes: true });
}

const BROKEN = Object.freeze({ p: 0, i: 0, d: 0 });

/**
 * Unstable poles of a craft with the loop of one axis broken, the other two closed by `holding`. They are closed one after
 * the other and each time Nyquist's criterion says what that adds: the work depends on the frequencies, not on how many control
 * periods of latency are states of the loop.
 */
export function brokenUnstable(
  craft: Craft,
  trim: Trim,
  axis: AxisName,
  holding: GainsByAxis,
  period: Period = exactPeriod,
): number {
  let closed: GainsByAxis = { roll: BROKEN, pitch: BROKEN, yaw: BROKEN };
  let unstable = plantUnstable(craft, trim, period);
  for (const next of AXES.filter((other) => other !== axis)) {
    const before = unstable;
    const grid = denserAtNotches(coarseGrid(1 / craft.airframe.controller.rate), craft.airframe, trim);
    const { frequencies, values } = refined(grid, plantResponse(craft, trim, next, closed, period));
    const controller = controllerPieces(craft.airframe, trim, frequencies);
    const pieces = loopPieces(frequencies, values, controller, { closes: true, unstable: () => before });
    const gains = next === "yaw" ? { ...holding.yaw, d: 0 } : holding[next];
    unstable = unstablePoles(pieces, gains);
    closed = { ...closed, [next]: holding[next] };
  }
  return unstable;
}

/** A pole at 1 (a rate that nothing damps) is found with an error of rounding; slower growth shows in no trial. */
const ROUNDING = 1e-6;

function plantUnstable(craft: Craft, trim: Trim, period: Period): number {
  const { realEigenvalues, imaginaryEigenvalues } = new EigenvalueDecomposition(period(craft, trim).a);
  return realEigenvalues.filter((re, k) => re * re + imaginaryEigenvalues[k] ** 2 > 1 + ROUNDING).length;
}
