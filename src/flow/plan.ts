// One plan from a sweep and an airframe.
import type { Airframe } from "../airframe/airframe.js";
import { drawsOf } from "../airframe/draws.js";
import type { OperatingPoints } from "../plan/operating-points.js";
import { type Plan, planSweep, type SharedPlan } from "../plan/plan.js";
import type { RequestedSweep } from "../sweep/sweep.js";
import { planProblems } from "./plan-faults.js";
import type { WithDocument } from "./read.js";
import { unmovedFaults } from "./unmoved.js";

/** Draws that lines chosen by theory are to suit: their boundary from 5 to 95 of 100. */
const DRAWS_FOR_GRID = 16;

function drawnForGrid(
  { value, document }: WithDocument<Airframe>,
  { grid, uncertainty, seed }: RequestedSweep,
): Airframe[] {
  if (uncertainty === undefined || value.spreads === undefined) return [];
  if (!("auto" in grid.roll || "auto" in grid.pitch)) return [];
  const options = { count: DRAWS_FOR_GRID, seed, purpose: "grid", loopGain: uncertainty.loopGain };
  return drawsOf(document, options).draws.map(({ airframe }) => airframe);
}

/**
 * The plan of a sweep for an airframe. Throws InputError where a condition cannot be simulated, an axis is not stabilised, or
 * an axis never moves. `points`: those of firstAnswerFor, where it was asked.
 */
export function planFor(
  airframe: WithDocument<Airframe>,
  sweep: WithDocument<RequestedSweep>,
  shared?: SharedPlan,
  points?: OperatingPoints,
): Plan {
  const drawn = shared?.grid === undefined ? { drawn: drawnForGrid(airframe, sweep.value) } : {};
  const plan = planSweep(airframe.value, sweep.value, { ...shared, ...drawn }, points);
  const faults = "variants" in plan ? unmovedFaults(plan) : plan;
  if ("variants" in plan && faults.length === 0) return plan;
  throw planProblems(faults, airframe, sweep);
}
