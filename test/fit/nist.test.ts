// The Levenberg-Marquardt library on nonlinear problems of NIST's Statistical Reference Datasets (StRD), with certified
// parameters and standard deviations. Data and certificates from memory, but for Misra1a; that the certified sum of squares comes
// out as well shows that they are right.
import { levenbergMarquardt } from "ml-levenberg-marquardt";
import { inverse, Matrix } from "ml-matrix";
import { describe, expect, it } from "vitest";

interface Problem {
  readonly name: string;
  readonly level: "lower" | "average" | "higher"; // of difficulty, as NIST has it
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly model: (b: readonly number[], x: number) => number;
  readonly starts: readonly (readonly number[])[];
  readonly certified: readonly number[];
  readonly deviations: readonly number[];
  readonly squares: number;
}

const PROBLEMS: readonly Problem[] = [
  {
    name: "Misra1a",
    level: "lower",
    x: [77.6, 114.9, 141.1, 190.8, 239.9, 289, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760],
    y: [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47, 81.78],
    model: ([b1 = 0, b2 = 0], x) => b1 * (1 - Math.exp(-b2 * x)),
    starts: [
      [500, 0.0001],
      [250, 0.0005],
    ],
    certified: [2.3894212918e2, 5.5015643181e-4],
    deviations: [2.7070075241, 7.2668688436e-6],
    squares: 1.2455138894e-1,
  },
  {
    name: "Thurber",
    level: "higher",
    x: [
      -3.067, -2.981, -2.921, -2.912, -2.84, -2.797, -2.702, -2.699, -2.633, -2.481, -2.363, -2.322, -1.501, -1.46,
      -1.274, -1.212, -1.1, -1.046, -0.915, -0.714, -0.566, -0.545, -0.4, -0.309, -0.109, -0.103, 0.01, 0.119, 0.377,
      0.79, 0.963, 1.006, 1.115, 1.572, 1.841, 2.047, 2.2,
    ],
    y: [
      80.574, 84.248, 87.264, 87.195, 89.076, 89.608, 89.868, 90.101, 92.405, 95.854, 100.696, 101.06, 401.672, 390.724,
      567.534, 635.316, 733.054, 759.087, 894.206, 990.785, 1090.109, 1080.914, 1122.643, 1178.351, 1260.531, 1273.514,
      1288.339, 1327.543, 1353.863, 1414.509, 1425.208, 1421.384, 1442.962, 1464.35, 1468.705, 1447.894, 1457.628,
    ],
    model: ([b1 = 0, b2 = 0, b3 = 0, b4 = 0, b5 = 0, b6 = 0, b7 = 0], x) =>
      (b1 + x * (b2 + x * (b3 + x * b4))) / (1 + x * (b5 + x * (b6 + x * b7))),
    starts: [
      [1000, 1000, 400, 40, 0.7, 0.3, 0.03],
      [1300, 1500, 500, 75, 1, 0.4, 0.05],
    ],
    certified: [
      1.28813968e3, 1.4910792535e3, 5.8323836877e2, 7.5416644291e1, 9.6629502864e-1, 3.9797285797e-1, 4.9727297349e-2,
    ],
    deviations: [
      4.6647963344, 3.9571156086e1, 2.8698696102e1, 5.567537027, 3.1333340687e-2, 1.4984928198e-2, 6.5842344623e-3,
    ],
    squares: 5.6427082397e3,
  },
  {
    name: "MGH09",
    level: "higher",
    x: [4, 2, 1, 0.5, 0.25, 0.167, 0.125, 0.1, 0.0833, 0.0714, 0.0625],
    y: [0.1957, 0.1947, 0.1735, 0.16, 0.0844, 0.0627, 0.0456, 0.0342, 0.0323, 0.0235, 0.0246],
    model: ([b1 = 0, b2 = 0, b3 = 0, b4 = 0], x) => (b1 * (x * x + x * b2)) / (x * x + x * b3 + b4),
    starts: [[0.25, 0.39, 0.415, 0.39]],
    certified: [1.9280693458e-1, 1.9128232873e-1, 1.2305650693e-1, 1.3606233068e-1],
    deviations: [1.1435312227e-2, 1.9633220911e-1, 8.0842031232e-2, 9.0025542308e-2],
    squares: 3.0750560385e-4,
  },
  {
    name: "Rat43",
    level: "higher",
    x: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15],
    y: [
      16.08, 33.83, 65.8, 97.2, 191.55, 326.2, 386.87, 520.53, 590.03, 651.92, 724.93, 699.56, 689.96, 637.56, 717.41,
    ],
    model: ([b1 = 0, b2 = 0, b3 = 0, b4 = 0], x) => b1 / (1 + Math.exp(b2 - b3 * x)) ** (1 / b4),
    starts: [[700, 5, 0.75, 1.3]],
    certified: [6.996415127e2, 5.2771253025, 7.5962938329e-1, 1.2792483859],
    deviations: [1.6302297817e1, 2.0828735829, 1.9566123451e-1, 6.8761936385e-1],
    squares: 8.786404908e3,
  },
];

/** Parameters in units of the start, residuals in units of the largest datum: the library damps each parameter alike. */
function solved({ x, y, model }: Problem, start: readonly number[]) {
  const unit = Math.max(...y.map(Math.abs));
  const scaled = (values: readonly number[]) => values.map((value, k) => value * (start[k] ?? 1));
  const slopes = (b: readonly number[], at: number) =>
    b.map((value, k) => {
      const step = 1e-5 * Math.abs(value);
      const moved = (by: number) => model(b.with(k, value + by), at);
      return (moved(step) - moved(-step)) / (2 * step);
    });
  const { parameterValues } = levenbergMarquardt(
    { x: [...x], y: y.map((value) => value / unit) },
    (values) => (at) => model(scaled(values), at) / unit,
    {
      initialValues: start.map(() => 1),
      jacobianFunction: (values) => (at) =>
        slopes(scaled(values), at).map((slope, k) => (slope * (start[k] ?? 1)) / unit),
      damping: 1e-2,
      errorTolerance: 0,
      maxIterations: 2000,
    },
  );
  const found = scaled(parameterValues);
  const squares = x.reduce((sum, at, k) => sum + ((y[k] ?? 0) - model(found, at)) ** 2, 0);
  const jacobian = new Matrix(x.map((at) => slopes(found, at).map((slope, k) => slope * Math.abs(found[k] ?? 1))));
  const covariance = inverse(jacobian.transpose().mmul(jacobian)).mul(squares / (x.length - found.length));
  return { found, squares, deviations: found.map((value, k) => Math.abs(value) * Math.sqrt(covariance.get(k, k))) };
}

describe.each(PROBLEMS.flatMap((p) => p.starts.map((start) => [p.name, p.level, start, p] as const)))(
  "%s (%s difficulty) from %s",
  (_, __, start, problem) => {
    const { found, squares, deviations } = solved(problem, start);

    it("has the certified parameters to six digits", () => {
      for (const [k, value] of found.entries()) expect(value / (problem.certified[k] ?? 0)).toBeCloseTo(1, 6);
    });

    it("has the certified standard deviations to four digits and the certified sum of squares", () => {
      for (const [k, value] of deviations.entries())
        expect(Math.abs(value / (problem.deviations[k] ?? 0) - 1)).toBeLessThan(5e-5);
      expect(Math.abs(squares / problem.squares - 1)).toBeLessThan(1e-8);
    });
  },
);
