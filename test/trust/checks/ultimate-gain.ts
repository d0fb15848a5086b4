// Ultimate gain and period of textbook loops: by theory, and by simulating the loop itself with that plant.
import { ultimateGain } from "../../../src/theory/boundary.js";
import type { LoopPieces } from "../../../src/theory/pieces.js";
import { boundary, integrator, lagAndDeadTime } from "../../kernel/plain-loops.js";
import { allPole, continuousLoop, sampledIntegrator, sampledIntegratorAndLag } from "../../theory/plain-plants.js";
import { alike, type Group } from "../check.js";

const first = (pieces: LoopPieces) => {
  const [point] = ultimateGain(pieces, 0, 0, { from: 0, to: 1e6 });
  return { gain: point.p, period: (2 * Math.PI) / point.frequency };
};

/** Loop around 1/(c0 + c1 s + ...) with dead time, looked at near a frequency in rad/s. */
const loop = (coefficients: readonly number[], deadTime: number, around: number) =>
  first(continuousLoop(allPole(coefficients, deadTime), around));

const exact = { unit: "", within: { share: 1e-6 } };
const OGATA = "K. Ogata, Modern Control Engineering";

const simulatedLag = () => {
  const plant = lagAndDeadTime(0.03, 0.004);
  return boundary(plant, 0, 248, 263, Math.round((12 * 0.07) / plant.period));
};

export const ULTIMATE_GAIN: Group = {
  title: "Ultimate gain and period",
  checks: [
    ...alike({ ...exact, source: `${OGATA}, example 8-1`, status: "quoted; recomputed" }, [
      ["1/(s(s+1)(s+5)): gain", 30, () => loop([0, 5, 6, 1], 0, 2.2).gain],
      ["1/(s(s+1)(s+5)): period, s", 2.8099259, () => loop([0, 5, 6, 1], 0, 2.2).period],
    ]),
    ...alike({ ...exact, source: "K.J. Astrom and T. Hagglund, PID Controllers", status: "from memory; recomputed" }, [
      ["1/(s+1)^3: gain", 8, () => loop([1, 3, 3, 1], 0, 1.7).gain],
      ["1/(s+1)^3: period, s", 3.627599, () => loop([1, 3, 3, 1], 0, 1.7).period],
      ["1/(s+1)^4: gain", 4, () => loop([1, 4, 6, 4, 1], 0, 1).gain],
      ["1/(s+1)^4: period, s", 6.283185, () => loop([1, 4, 6, 4, 1], 0, 1).period],
    ]),
    ...alike({ ...exact, source: "Routh-Hurwitz", status: "from memory; recomputed" }, [
      ["1/(s(s+1)(s+2)): gain", 6, () => loop([0, 2, 3, 1], 0, 1.4).gain],
      ["1/(s(s+1)(s+2)): period, s", 4.442883, () => loop([0, 2, 3, 1], 0, 1.4).period],
      ["1/(s(s+2)(s+4)): gain", 48, () => loop([0, 8, 6, 1], 0, 2.8).gain],
      ["1/((s+1)(s+2)(s+3)): gain", 60, () => loop([6, 11, 6, 1], 0, 3.3).gain],
      ["1/((s+1)(s+2)(s+3)): period, s", 1.894452, () => loop([6, 11, 6, 1], 0, 3.3).period],
    ]),
    ...alike(
      { ...exact, source: "N.S. Nise, Control Systems Engineering, example 6.9", status: "from memory; recomputed" },
      [["1/(s(s+7)(s+11)): gain", 1386, () => loop([0, 77, 18, 1], 0, 8.8).gain]],
    ),
    ...alike({ ...exact, source: `${OGATA}, example 5-14`, status: "from memory; recomputed" }, [
      ["1/(s(s^2+s+1)(s+2)): gain", 14 / 9, () => loop([0, 2, 3, 3, 1], 0, 0.8).gain],
    ]),
    ...alike({ ...exact, source: "pi/2 of phase from dead time alone, textbook", status: "quoted; recomputed" }, [
      ["integrator, dead time 10 ms: gain", Math.PI / 2 / 0.01, () => loop([0, 1], 0.01, 157).gain],
      ["integrator, dead time 10 ms: period, s", 0.04, () => loop([0, 1], 0.01, 157).period],
    ]),
    ...alike({ ...exact, source: "first order with dead time, textbook", status: "recomputed" }, [
      ["lag 1 s, dead time 0.1 s: gain", 16.350554, () => loop([1, 1], 0.1, 16).gain],
      ["lag 1 s, dead time 0.1 s: period, s", 0.3850004, () => loop([1, 1], 0.1, 16).period],
      ["lag 1 s, dead time 0.2 s: gain", 8.502425, () => loop([1, 1], 0.2, 8).gain],
      ["lag 1 s, dead time 0.5 s: gain", 3.806883, () => loop([1, 1], 0.5, 4).gain],
      ["lag 1 s, dead time 1 s: gain", 2.261826, () => loop([1, 1], 1, 2).gain],
      ["lag 1 s, dead time 2 s: gain", 1.519803, () => loop([1, 1], 2, 1.1).gain],
    ]),
    ...alike({ ...exact, source: "integrator, lag and dead time, a lecture note", status: "quoted; recomputed" }, [
      ["lag 1 s, dead time 0.1 s: gain", 10.163095, () => loop([0, 1, 1], 0.1, 3.1).gain],
      ["lag 1 s, dead time 0.1 s: period, s", 2.019974, () => loop([0, 1, 1], 0.1, 3.1).period],
    ]),
    ...alike({ ...exact, source: "two lags and dead time", status: "recomputed" }, [
      ["lags 1, 1 s, dead time 0.1 s: gain", 20.671069, () => loop([1, 2, 1], 0.1, 4.4).gain],
      ["lags 1, 1 s, dead time 1 s: gain", 2.707053, () => loop([1, 2, 1], 1, 1.3).gain],
      ["lags 1, 0.5 s, dead time 0.2 s: gain", 8.252809, () => loop([1, 1.5, 0.5], 0.2, 4).gain],
      ["lags 20, 5 ms, dead time 2 ms: gain", 13.514107, () => loop([1, 0.025, 1e-4], 0.002, 340).gain],
    ]),
    ...alike(
      {
        ...exact,
        source: "S.A. Levin and R.M. May, Theor. Popul. Biol. 9 (1976) 178-187: 2 cos(k pi/(2k+1))",
        status: "from memory; recomputed",
      },
      [
        ["sampled integrator, 1 sample of delay: gain", 1, () => first(sampledIntegrator(1)).gain],
        ["sampled integrator, 4 samples of delay: gain", 0.3472964, () => first(sampledIntegrator(4)).gain],
        ["sampled integrator, 4 samples of delay: period, samples", 18, () => first(sampledIntegrator(4)).period],
      ],
    ),
    ...alike(
      { ...exact, source: "K. Ogata, Discrete-Time Control Systems, ch. 4", status: "from memory; recomputed" },
      [["1/(s(s+1)) behind a hold of 1 s: gain", 2.392211, () => first(sampledIntegratorAndLag(1)).gain]],
    ),
    ...alike(
      {
        unit: "",
        within: { share: 5e-4 },
        source: "integrator, lag and dead time: closed form, simulated by the loop itself",
        status: "recomputed",
      },
      [
        ["simulated, lag 30 ms, dead time 4 ms: gain", 255.397443, () => simulatedLag().p],
        ["simulated, lag 30 ms, dead time 4 ms: period, s", 0.0703546, () => simulatedLag().period],
        [
          "simulated, sampled integrator, 4 samples: gain",
          0.3472964,
          () => boundary(integrator(4), 0, 0.34, 0.355, 900).p,
        ],
      ],
    ),
  ],
};
