// Textbook plants as frequency responses, for loops with a textbook controller.
import { Matrix } from "ml-matrix";
import { idealController, sampledController, wholeDelay } from "../../src/theory/controller.js";
import { type ComplexArray, frequencyGrid, product, sampled } from "../../src/theory/frequency.js";
import { zeroOrderHold } from "../../src/theory/hold.js";
import { type LoopPieces, loopPieces } from "../../src/theory/pieces.js";
import { stateResponse } from "../../src/theory/response.js";

export type Complex = readonly [re: number, im: number];

export const times = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c];
const over = (top: Complex, [c, d]: Complex): Complex => times(top, [c / (c * c + d * d), -d / (c * c + d * d)]);

/** 1 / (c0 + c1 s + c2 s^2 + ...) at s = jw, times e^(-s deadTime). */
export function allPole(coefficients: readonly number[], deadTime: number): (w: number) => Complex {
  return (w) => {
    const denominator = coefficients.reduceRight<Complex>(
      (sum, c) => {
        const [re, im] = times(sum, [0, w]);
        return [re + c, im];
      },
      [0, 0],
    );
    return over([Math.cos(w * deadTime), -Math.sin(w * deadTime)], denominator);
  };
}

/** Continuous loop around a plant given as a rule, on a grid around the frequency (rad/s) of interest. */
export function continuousLoop(plant: (w: number) => Complex, around: number): LoopPieces {
  const grid = frequencyGrid(around / 100, around * 30, 600);
  return loopPieces(grid, sampled(grid, plant), idealController(grid), { closes: false });
}

/** Sampled loop around a response, on a grid up to half the sampling rate. */
function sampledLoop(rate: number, plant: (grid: Float64Array) => ComplexArray): LoopPieces {
  const grid = frequencyGrid(1e-3 * Math.PI * rate, Math.PI * rate, 600);
  return loopPieces(grid, plant(grid), sampledController(rate, grid), { closes: true });
}

/** y[n+1] = y[n] + u[n - delay] at one sample per second: 1/(z - 1) z^-delay. */
export const sampledIntegrator = (delay: number): LoopPieces =>
  sampledLoop(1, (grid) =>
    product(
      sampled(grid, (w) => [-0.5, (-0.5 * Math.cos(w / 2)) / Math.sin(w / 2)]),
      wholeDelay(delay, 1, grid),
    ),
  );

/** 1/(s(s + 1)) behind a zero-order hold of `period` seconds, from its state space. */
export function sampledIntegratorAndLag(period: number): LoopPieces {
  const plant = zeroOrderHold(
    {
      a: new Matrix([
        [0, 1],
        [0, -1],
      ]),
      b: new Matrix([[0], [1]]),
    },
    period,
  );
  return sampledLoop(1 / period, (grid) => stateResponse(plant.a, plant.b, [0], grid, period)[0][0]);
}
