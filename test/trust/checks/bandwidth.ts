// Attitude bandwidth and phase delay of published responses.
import { attitudeBandwidth } from "../../../src/theory/bandwidth.js";
import { frequencyGrid, sampled } from "../../../src/theory/frequency.js";
import { allPole } from "../../theory/plain-plants.js";
import { alike, type Check, type Group } from "../check.js";

function read(coefficients: readonly number[], deadTime: number) {
  const grid = frequencyGrid(0.02, 2000, 600);
  const found = attitudeBandwidth(grid, sampled(grid, allPole(coefficients, deadTime)));
  if (found === null) throw new Error("the phase never turns round");
  return found;
}

const ADS = "definitions of ADS-33E-PRF 3.3.2.1 (wording seen in a flight-test paper, delay formula from memory)";

const rows: readonly (readonly [string, readonly number[], number, byPhase: number, delay: number])[] = [
  ["helicopter roll, as identified there", [0, 55.35, 1 / 0.155, 1], 0.051, 4.00364, 0.122903],
  ["its first-order fit", [0, 9.27, 1], 0.155, 3.02934, 0.104499],
  ["lag 0.1 s, dead time 50 ms", [0, 1, 0.1], 0.05, 5.55968, 0.0360129],
  ["lag 30 ms, dead time 4 ms", [0, 1, 0.03], 0.004, 26.84606, 0.00296706],
  ["second order with dead time", [0, 100, 14, 1], 0.02, 4.64608, 0.0601181],
  ["second order", [0, 400, 28.284, 1], 0, 10.35282, 0.0203708],
];

const rest = { source: ADS, status: "from memory; recomputed", unit: "", within: { share: 5e-6 } } as const;

export const BANDWIDTH: Group = {
  title: "Attitude bandwidth",
  checks: rows.flatMap(([name, coefficients, deadTime, byPhase, delay]): Check[] =>
    alike(rest, [
      [`${name}: bandwidth by phase, rad/s`, byPhase, () => read(coefficients, deadTime).byPhase],
      [`${name}: phase delay, s`, delay, () => read(coefficients, deadTime).phaseDelay ?? Number.NaN],
    ]),
  ),
};
