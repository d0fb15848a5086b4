// A real craft's axes: what the fit makes of its log, next to another identification and to what was published.
import { explained, published, REFERENCE, shapeOfMoves, TILT_AXES, type TiltAxis } from "../../fit/nano-quad.js";
import type { Check, Group } from "../check.js";

const LOG =
  "flight log of arXiv:2404.07837 (Eschmann, Albani and Loianno 2024; MIT), identified apart from this program";
const PAPER = "inertia and thrust curve published with arXiv:2404.07837";

type Rest = Pick<Check, "kind" | "source" | "status">;
const MEASURED: Rest = { kind: "estimate", source: LOG, status: "recomputed" };

const axisChecks = (axis: TiltAxis): Check[] => {
  const { authority, lag, delay, ratio } = REFERENCE[axis];
  const shape = () => shapeOfMoves(axis);
  const correlation = shape().correlationOfAuthorityAndLag.toFixed(2);
  return [
    {
      ...MEASURED,
      quantity: `${axis}: authority over lag`,
      unit: "rad/s^3",
      expected: ratio,
      within: { share: 0.07 },
      obtain: () => shape().authorityOverLag.middle,
    },
    {
      ...MEASURED,
      quantity: `${axis}: delay`,
      unit: "ms",
      expected: 1e3 * delay,
      within: { unit: 1 },
      obtain: () => 1e3 * shape().delay.middle,
    },
    {
      ...MEASURED,
      quantity: `${axis}: authority per whole command (correlation with the lag ${correlation})`,
      unit: "rad/s^2",
      expected: authority,
      within: { share: 0.15 },
      obtain: () => shape().authority.middle,
    },
    {
      ...MEASURED,
      quantity: `${axis}: lag of the motors (correlation with the authority ${correlation})`,
      unit: "ms",
      expected: 1e3 * lag,
      within: { share: 0.15 },
      obtain: () => 1e3 * shape().lag.middle,
    },
    {
      kind: "estimate",
      source: PAPER,
      status: "quoted; recomputed",
      quantity: `${axis}: authority, 4 x 28 mm x dT/du over the inertia at a duty of 0.66`,
      unit: "rad/s^2",
      expected: published(axis),
      within: { share: 0.25 },
      obtain: () => shape().authority.middle,
    },
    {
      ...MEASURED,
      source: "five seconds of the same log that were kept out; 1 is all of the variance from 1.5 to 30 Hz",
      quantity: `${axis}: share of the variance predicted from the motors' commands`,
      unit: "",
      expected: 1,
      within: { unit: 0.25 },
      obtain: () => explained(axis),
    },
  ];
};

export const REAL_CRAFT: Group = { title: "A real craft", checks: TILT_AXES.flatMap(axisChecks) };
