// Estimates of a model from the kitchen scale, and numbers from a bench table.
import { benched } from "../../../src/estimate/bench.js";
import type { BenchKey } from "../../../src/estimate/numbers.js";
import { within } from "../../estimate/leave-one-out.js";
import { alike, type Group } from "../check.js";

// KV 2300, 60 mohm, 0.8 A on a 5.0x3.75: volts, rad/s, A, N m, N.
const WORKED = [
  [3.7, 843.5017, 3.29821, 0.010372, 0.744271],
  [7.4, 1635.1076, 10.18748, 0.038976, 2.796741],
  [11.1, 2375.5801, 20.61508, 0.08227, 5.903354],
  [14.8, 3073.7087, 33.97278, 0.137729, 9.882912],
] as const;

const rows = WORKED.map(([volts, speed, current, torque, thrust]) => ({ volts, speed, current, torque, thrust }));
const fromBench = (key: BenchKey): number => benched({ rows, unused: [] }, 0.127)[key]?.value ?? Number.NaN;

export const ESTIMATES: Group = {
  title: "Estimates",
  checks: [
    ...alike(
      {
        kind: "coverage",
        source: "UIUC Propeller Database vol. 1 to 3, forty static rows, each propeller left out in its turn",
        status: "recomputed",
        unit: "of 80",
        within: { unit: 3 }, // 73 to 79: 95 % of a binomial, so that spreads that hold all are too wide
      },
      [["forty propellers left out: ct and cp within their spreads", 76, () => within(1)]],
    ),
    ...alike(
      {
        kind: "coverage",
        source: "UIUC Propeller Database vol. 1 to 3, forty static rows, each propeller left out in its turn",
        status: "recomputed",
        unit: "of 80",
        within: { unit: 8 },
      },
      [["forty propellers left out: ct and cp within half their spreads", 55, () => within(0.5)]],
    ),
    ...alike(
      {
        source:
          "first-order motor (Drela, MIT 2007) with a UIUC propeller, worked through elsewhere, read as a bench table",
        status: "from memory; recomputed",
        unit: "",
        within: { share: 1e-3 },
      },
      [
        ["bench table: KV, rpm/V", 2300, () => fromBench("kv")],
        ["bench table: resistance, ohm", 0.06, () => fromBench("resistance")],
        ["bench table: no-load current, A", 0.8, () => fromBench("noLoadCurrent")],
        ["bench table: ct", 0.129589, () => fromBench("ct")],
        ["bench table: cp", 0.089348, () => fromBench("cp")],
      ],
    ),
  ],
};
