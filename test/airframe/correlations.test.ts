// Which correlations a model may declare. The nearest possible ones against the worked example of N.J. Higham, IMA Journal of
// Numerical Analysis 22 (2002) 329-343 (from memory), and against a property that defines the nearest.
import { EigenvalueDecomposition, inverse, Matrix } from "ml-matrix";
import { describe, expect, it } from "vitest";
import { correlationFaults } from "../../src/airframe/correlation-faults.js";
import { correlationPairs } from "../../src/airframe/correlation-pairs.js";
import { nearestCorrelations } from "../../src/airframe/nearest-correlations.js";
import { parseAirframe } from "../../src/airframe/resolve.js";
import { correlationMatrix, groupsOf, mendedBy } from "../../src/airframe/together.js";
import { InputError } from "../../src/base/problem.js";
import { fillGaussian, stream } from "../../src/base/random.js";
import { readYaml } from "../../src/files/yaml.js";
import { changed, SMALL_MODEL } from "../fixtures/small-model.js";

const SPREADING = changed(
  SMALL_MODEL,
  ["resistance: 75 mohm", "resistance: 75 mohm ± 40 %"],
  ["ct: 0.16", "ct: 0.16 ± 10 %"],
  ["inertia: 4.2e-6 kg m^2", "inertia: 4.2e-6 kg m^2 ± 10 %"],
  ["[0 mm, 0 mm, 0 mm]", "[0 mm ± 2 mm, 0 mm, 0 mm]"],
);
const model = (...pairs: string[]) =>
  readYaml("x.yaml", `${SPREADING}correlations:\n${pairs.map((pair) => `  - {${pair}}\n`).join("")}`);
const pair = (one: string, other: string, correlation: number | string) =>
  `one: "${one}", other: "${other}", correlation: ${correlation}`;
const [CT, OHMS, INERTIA] = ["propeller.ct", "motor.resistance", "propeller.inertia"] as const;
const FIRST_LINE = SPREADING.split("\n").length + 1;

describe("correlations of a model", () => {
  it("are carried by the airframe as they are written, whichever of two stands first", () => {
    const { correlations, ...rest } = parseAirframe(
      model(pair(OHMS, CT, 0.83), pair(CT, "frame.centre_of_mass[0]", -0.2)),
    );
    expect(correlations).toEqual([
      { one: OHMS, other: CT, correlation: 0.83 },
      { one: CT, other: "frame.centre_of_mass[0]", correlation: -0.2 },
    ]);
    expect(rest).toEqual(parseAirframe(readYaml("x.yaml", SPREADING)));
  });

  it.each([
    [
      "an unknown number",
      [pair("motor.resistence", CT, 0.5)],
      /:11 .*no number motor\.resistence.* mean "motor\.resistance"/,
    ],
    ["a number that is nothing like one", [pair("weight of the pilot", CT, 0.5)], /expected a key as this file has it/],
    ["the loop gain, which is no key", [pair("loop gain", CT, 0.5)], /no number loop gain with a spread/],
    ["a number without a spread", [pair(CT, "motor.kv", 0.5)], /motor\.kv has no spread.*write ±/],
    ["a key of what every group has", [pair(CT, "constructor", 0.5)], /no number constructor/],
    ["one number twice", [pair(CT, CT, 0.5)], /correlations\[0\]\.other: is propeller\.ct again/],
    [
      "a pair twice",
      [pair(CT, OHMS, 0.5), pair(OHMS, CT, 0.5)],
      /correlations\[1\]: .* stand in correlations\[0\] already/,
    ],
    ["more than 1", [pair(CT, OHMS, 1.01)], /1\.01 is out of range, expected a number from -1 to 1/],
    ["a percentage", [pair(CT, OHMS, "80 %")], /"80 %" is not a number, expected a number from -1 to 1/],
    ["a missing key", [`one: ${CT}, correlation: 0.5`], /correlations\[0\]\.other: missing/],
    ["no pair", [], /expected a list of pairs of numbers/],
  ])("%s is refused", (_, pairs, message) => {
    expect(() => parseAirframe(model(...pairs))).toThrow(InputError);
    expect(() => parseAirframe(model(...pairs))).toThrow(message);
  });

  it("that no numbers can have are refused with line, column and the pair", () => {
    // Two that go with a third by 0.9 go together by 0.62 at least: 0.81 - 0.19.
    const refusal = (...correlations: [number, number, number?]) => {
      const [first, second, third] = correlations;
      const pairs = [pair(CT, OHMS, first), pair(OHMS, INERTIA, second)];
      try {
        parseAirframe(model(...pairs, ...(third === undefined ? [] : [pair(CT, INERTIA, third)])));
        return null;
      } catch (error) {
        return (error as InputError).message;
      }
    };
    expect(refusal(0.9, 0.9, 0.62)).toBe(null);
    expect(refusal(0.9, 0.9, 0.2)).toMatch(
      new RegExp(
        `^x\\.yaml:${FIRST_LINE}:\\d+ correlations\\[0\\]\\.correlation: 0\\.9 for propeller\\.ct and motor\\.resistance cannot be`,
      ),
    );
    expect(refusal(0.5, 0.5, -0.9)).toMatch(
      new RegExp(
        `^x\\.yaml:${FIRST_LINE + 2}:\\d+ correlations\\[2\\].*: -0\\.9 for propeller\\.ct and propeller\\.inertia cannot be beside the other pairs; of those that can, the nearest have -0\\.\\d\\d here$`,
      ),
    );
    expect(refusal(0.9, 0.9)).toMatch(/^x\.yaml:\d+:\d+ correlations\[0\].*the nearest have 0\.\d\d here$/);
  });

  it("may be broken by a pair that is left out", () => {
    // Two numbers that are nearly the same sum of five others, and are no pair.
    const sum = [0, 1, 2, 3, 4];
    const keys = ["x", "y", ...sum.map(String)].map((key) => ({ key }));
    const pairs = sum.flatMap((k) => ["x", "y"].map((one) => ({ one, other: String(k), correlation: 0.44 })));
    expect(correlationFaults(pairs, keys, {})).toEqual([
      {
        path: ["correlations"],
        message: expect.stringMatching(/^y and x are no pair, which means 0, .* the nearest have 0\.\d\d here$/),
      },
    ]);
    expect(correlationFaults([...pairs, { one: "x", other: "y", correlation: 0.97 }], keys, {})).toEqual([]);
  });

  it("join a hundred numbers at most", () => {
    const chain = (count: number) => {
      const keys = Array.from({ length: count }, (_, k) => ({ key: `k${k}` }));
      const pairs = keys.slice(1).map(({ key }, k) => ({ one: `k${k}`, other: key, correlation: 0.4 }));
      return correlationFaults(pairs, keys, {});
    };
    expect(chain(100)).toEqual([]);
    expect(chain(101)).toEqual([
      { path: ["correlations"], message: "more than 100 numbers go together; expected fewer" },
    ]);
  });

  it("that rounding broke are mended, and say by how much", () => {
    const rounded = [
      { one: CT, other: OHMS, correlation: 0.9 },
      { one: OHMS, other: INERTIA, correlation: 0.9 },
      { one: CT, other: INERTIA, correlation: 0.61 },
    ];
    expect(() =>
      parseAirframe(model(...rounded.map((one) => pair(one.one, one.other, one.correlation)))),
    ).not.toThrow();
    const [group] = groupsOf([{ key: CT }, { key: OHMS }, { key: INERTIA }], rounded);
    expect(group && mendedBy(group)).toBeGreaterThan(0.001);
    expect(group && mendedBy(group)).toBeLessThan(0.01);
  });

  it("may be 1 and -1: two names for one unknown", () => {
    for (const sign of [1, -1]) {
      const document = model(pair(CT, OHMS, sign));
      const [group] = groupsOf(parseAirframe(document).spreads ?? [], parseAirframe(document).correlations ?? []);
      expect(group && mendedBy(group)).toBeLessThan(1e-8);
    }
  });
});

describe("the nearest correlations", () => {
  it("are those of Higham's example", () => {
    const found = nearestCorrelations(
      new Matrix([
        [1, 1, 0],
        [1, 1, 1],
        [0, 1, 1],
      ]),
    );
    expect(found.get(0, 1)).toBeCloseTo(0.7607, 4);
    expect(found.get(0, 2)).toBeCloseTo(0.1573, 4);
  });

  it("are nearer than any others that numbers can have", () => {
    const declared = new Matrix([
      [1, 0.9, 0.9, 0],
      [0.9, 1, 0.2, -0.5],
      [0.9, 0.2, 1, 0.4],
      [0, -0.5, 0.4, 1],
    ]);
    const far = (one: Matrix) => Matrix.sub(one, declared).norm("frobenius");
    const nearest = nearestCorrelations(declared);
    const source = stream("others");
    for (let other = 0; other < 200; other++) {
      // A step towards the correlations of numbers at hand: all of them are possible, and so is the way there.
      const rows = Array.from({ length: 4 }, () => [...fillGaussianInto(5, source)]);
      const unit = rows.map((row) => row.map((value) => value / Math.hypot(...row)));
      const possible = new Matrix(unit).mmul(new Matrix(unit).transpose());
      const between = Matrix.add(Matrix.mul(nearest, 0.99), Matrix.mul(possible, 0.01));
      expect(far(between)).toBeGreaterThan(far(nearest) - 1e-7);
    }
  });
});

function fillGaussianInto(length: number, source: ReturnType<typeof stream>): Float64Array {
  const values = new Float64Array(length);
  fillGaussian(values, source);
  return values;
}

describe("correlations written as pairs", () => {
  const keys = ["a", "b", "c", "d", "e", "f"];
  /** Of six numbers of which `known` combinations were measured to `error` of their spreads: (1 + H'H / error²)⁻¹. */
  function measured(known: number, error: number): Matrix {
    const source = stream("measured", known, error);
    const rows = Array.from({ length: known }, () => [...fillGaussianInto(keys.length, source)]);
    const [h, one] = [new Matrix(rows), Matrix.eye(keys.length)];
    const covariance = inverse(
      Matrix.add(
        one,
        h
          .transpose()
          .mmul(h)
          .div(error ** 2),
      ),
    );
    const sigma = covariance.diagonal().map(Math.sqrt);
    return new Matrix(
      sigma.map((row, i) =>
        sigma.map((column, j) => (i === j ? 1 : (covariance.get(i, j) + covariance.get(j, i)) / (2 * row * column))),
      ),
    );
  }

  it.each([
    [1, 0.3],
    [2, 0.05],
    [3, 0.01],
  ])("leave %d combinations known to %d as wide as they are", (known, error) => {
    const matrix = measured(known, error);
    const back = correlationMatrix(
      keys.map((key) => ({ key })),
      correlationPairs(keys, matrix),
    );
    const { eigenvectorMatrix: directions } = new EigenvalueDecomposition(matrix, { assumeSymmetric: true });
    for (const w of directions.transpose().to2DArray()) {
      const width = (of: Matrix) => Math.sqrt(Matrix.rowVector(w).mmul(of).mmul(Matrix.columnVector(w)).get(0, 0));
      expect(Math.abs(width(back) / width(matrix) - 1)).toBeLessThan(0.051);
    }
  });

  it("are the strongest first, few and plain where that is enough", () => {
    const matrix = new Matrix([
      [1, 0.012, -0.714],
      [0.012, 1, 0.3049],
      [-0.714, 0.3049, 1],
    ]);
    expect(correlationPairs(["a", "b", "c"], matrix)).toEqual([
      { one: "a", other: "c", correlation: -0.71 },
      { one: "b", other: "c", correlation: 0.3 },
    ]);
    expect(correlationPairs(["a", "b"], Matrix.eye(2))).toEqual([]);
  });
});
