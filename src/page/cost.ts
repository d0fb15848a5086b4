// What a trial costs the page, so that opening a report keeps no browser busy: a map may hold the slowest trial that a
// model file allows, some thousand times as long as a common one.
import type { Plan, Variant } from "../plan/plan.js";

/** Rotor steps that are simulated without being asked for: some tenth of a second. */
export const UNASKED = 2e6;
/** Rotor steps between two turns of the page. */
export const SLICE = 8e6;

/** Physics steps of one trial, times its rotors. */
export const trialCost = ({ airframe }: Pick<Plan, "airframe">, { script }: Pick<Variant, "script">): number => {
  const { rate, substeps } = airframe.controller;
  return Math.round(script.duration * rate) * substeps * airframe.rotors.length;
};
