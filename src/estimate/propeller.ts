// What a propeller does, from its size: thrust, power and advance by published propellers, inertia by its weight.
import { exp, ln, pow } from "../base/elementary.js";
import { figures } from "../base/units.js";
import { COMMON, combined, type Estimate } from "./estimate.js";
import { ADVANCE_RUNS, type AdvanceRun, PROPELLER_ROWS, type PropellerRow } from "./propeller-rows.js";
import { leastSquares } from "./regression.js";

export interface PropellerSize {
  readonly inches: number;
  readonly pitchInches: number;
  readonly blades: number;
}

/** What the logarithms of ct and cp are linear in. */
const terms = ({ inches, pitchInches, blades }: PropellerSize): number[] => [
  1,
  pitchInches / inches,
  ln(blades / 2),
  ln(inches / 5),
];

const SOURCE = "UIUC Propeller Database vol. 1-3";

/**
 * ct and cp of a propeller that nobody measured: least squares over the rows, with the interval of a new propeller.
 * RangeError where the rows do not fix it.
 */
export function staticCoefficients(
  size: PropellerSize,
  rows: readonly PropellerRow[] = PROPELLER_ROWS,
): { readonly ct: Estimate; readonly cp: Estimate } {
  const estimate = (of: "ct" | "cp"): Estimate => {
    const fit = leastSquares(
      rows.map(terms),
      rows.map((row) => ln(row[of])),
    );
    if (fit === null) throw new RangeError(`${rows.length} propellers are too few to estimate ${of}`);
    const { value, half } = fit.predict(terms(size));
    const source = `from ${rows.length} propellers by pitch, diameter and blades (${SOURCE})`;
    return { value: exp(value), spread: exp(half) - 1, source };
  };
  return { ct: estimate("ct"), cp: estimate("cp") };
}

// A hovering craft works near the fall of ct at rest, a fast climb near where thrust vanishes: between the two.
const advanceOf = ({ vanishes, near, ctStatic }: AdvanceRun): number => {
  const fall = near.reduce((sum, [j, ct]) => sum + j * (ctStatic - ct), 0) / near.reduce((sum, [j]) => sum + j * j, 0);
  return Math.sqrt((vanishes * ctStatic) / fall);
};

const ADVANCE_SPREAD = 0.25; // two runs tell no spread; this one holds both their crossings and their slopes

/** Advance ratio at which the model's straight line of ct ends: a line in pitch over diameter through the measured runs. */
export function zeroThrustAdvance({ inches, pitchInches }: Omit<PropellerSize, "blades">): Estimate {
  const points = ADVANCE_RUNS.map((run) => [run.pitchInches / run.inches, advanceOf(run)] as const);
  const mean = (of: 0 | 1): number => points.reduce((sum, point) => sum + point[of], 0) / points.length;
  const [x, y] = [mean(0), mean(1)];
  const slope =
    points.reduce((sum, [px, py]) => sum + (px - x) * (py - y), 0) /
    points.reduce((sum, [px]) => sum + (px - x) * (px - x), 0);
  const source = `from the ${points.length} runs against the wind at hand (${SOURCE}), between hover and climb; ± a guess`;
  return { value: y + slope * (pitchInches / inches - x), spread: ADVANCE_SPREAD, source };
}

/** kg, of a propeller that was not weighed. */
export const propellerMass = ({ inches, blades }: PropellerSize): Estimate => ({
  value: 3.4e-3 * pow(inches / 5, 2.4) * pow(blades / 2, 0.7),
  spread: 0.35,
  source: `not weighed; by diameter and blades, ${COMMON}`,
});

/** Share of m D²/12, a slender rod's: blades are thin at the tip, the hub heavy. */
const ROD_SHARE = 0.77;

/** kg m², about the shaft; mass in kg. */
export function propellerInertia({ inches }: PropellerSize, mass: { value: number; spread: number }): Estimate {
  const diameter = 0.0254 * inches;
  return {
    value: (ROD_SHARE * mass.value * diameter * diameter) / 12,
    spread: combined(mass.spread, 0.25),
    source: `${figures(100 * ROD_SHARE)} % of a slender rod's of that weight, m D²/12; ${COMMON}`,
  };
}
