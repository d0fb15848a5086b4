import fc from "fast-check";
import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import { describe, expect, it } from "vitest";
import type { Inertia, Vector3 } from "../../src/airframe/airframe.js";
import { assemble, inertiaFault, invertInertia, type Part } from "../../src/airframe/inertia.js";

const ORIGIN: Vector3 = [0, 0, 0];
const near = (value: number, expected: number, relative = 1e-9): void => {
  expect(Math.abs(value / expected - 1)).toBeLessThan(relative);
};
const asMatrix = ({ xx, yy, zz, xy, xz, yz }: Inertia) =>
  new Matrix([
    [xx, xy, xz],
    [xy, yy, yz],
    [xz, yz, zz],
  ]);
const diagonal = (xx: number, yy: number, zz: number): Inertia => ({ xx, yy, zz, xy: 0, xz: 0, yz: 0 });

describe("standard solids", () => {
  // J.L. Meriam and L.G. Kraige, Engineering Mechanics: Dynamics, App. D (from memory); numbers recomputed.
  it("box of 0.2 kg, 100 x 60 x 30 mm", () => {
    const { inertia } = assemble([{ shape: "box", mass: 0.2, size: [0.1, 0.06, 0.03], at: [0.3, 0, 0] }]);
    near(inertia.xx, 7.5e-5);
    near(inertia.yy, 1.816667e-4, 2e-7);
    near(inertia.zz, 2.266667e-4, 2e-7);
  });

  it.each(["x", "y", "z"] as const)("cylinder of 0.03 kg along %s", (axis) => {
    const { inertia } = assemble([{ shape: "cylinder", axis, mass: 0.03, radius: 0.014, length: 0.02, at: ORIGIN }]);
    const moments = { x: inertia.xx, y: inertia.yy, z: inertia.zz };
    for (const each of ["x", "y", "z"] as const) near(moments[each], each === axis ? 2.94e-6 : 2.47e-6);
  });

  it.each(["x", "y", "z"] as const)("rod of 0.05 kg, 250 mm along %s", (axis) => {
    const { inertia } = assemble([{ shape: "rod", axis, mass: 0.05, length: 0.25, at: ORIGIN }]);
    const moments = { x: inertia.xx, y: inertia.yy, z: inertia.zz };
    for (const each of ["x", "y", "z"] as const) {
      if (each === axis) expect(moments[each]).toBe(0);
      else near(moments[each], 2.604167e-4, 2e-7);
    }
  });

  it("a propeller as a rod of 4.5 g and 127 mm", () => {
    near(assemble([{ shape: "rod", axis: "y", mass: 0.0045, length: 0.127, at: ORIGIN }]).inertia.zz, 6.048375e-6);
  });

  it("two half rods make one: mL^2/3 about the end of each", () => {
    const half = (x: number): Part => ({ shape: "rod", axis: "x", mass: 0.05, length: 0.25, at: [x, 0, 0] });
    near(assemble([half(-0.125), half(0.125)]).inertia.zz, 2 * 1.0416667e-3, 1e-7);
  });
});

describe("parallel axes", () => {
  it("four points of 30 g at 125 mm on an X", () => {
    // Same text; recomputed.
    const d = 0.125 * Math.SQRT1_2;
    const parts = [
      [d, d],
      [d, -d],
      [-d, d],
      [-d, -d],
    ].map(([x, y]): Part => ({ shape: "point", mass: 0.03, at: [x, y, 0] }));
    const { mass, centreOfMass, inertia } = assemble(parts);
    near(mass, 0.12);
    near(inertia.zz, 1.875e-3);
    near(inertia.xx, 9.375e-4);
    near(inertia.yy, 9.375e-4);
    for (const zero of [...centreOfMass, inertia.xy, inertia.xz, inertia.yz])
      expect(Math.abs(zero)).toBeLessThan(1e-18);
  });

  it("products are matrix entries: mass in front-left and rear-right makes xy negative", () => {
    const { inertia } = assemble([
      { shape: "point", mass: 0.1, at: [0.1, 0.05, 0.02] },
      { shape: "point", mass: 0.1, at: [-0.1, -0.05, -0.02] },
    ]);
    near(inertia.xy, -2 * 0.1 * 0.1 * 0.05);
    near(inertia.xz, -2 * 0.1 * 0.1 * 0.02);
    near(inertia.yz, -2 * 0.1 * 0.05 * 0.02);
  });

  it("refuses parts that weigh nothing", () => {
    expect(() => assemble([])).toThrow(/weigh 0 kg/);
  });
});

const length = fc.double({ min: 0.001, max: 0.3, noNaN: true });
const position = fc.tuple(
  fc.double({ min: -0.2, max: 0.2, noNaN: true }),
  fc.double({ min: -0.2, max: 0.2, noNaN: true }),
  fc.double({ min: -0.2, max: 0.2, noNaN: true }),
);
const mass = fc.double({ min: 0.001, max: 0.5, noNaN: true });
const axis = fc.constantFrom("x" as const, "y" as const, "z" as const);
const part: fc.Arbitrary<Part> = fc.oneof(
  fc.record({ shape: fc.constant("box" as const), mass, size: fc.tuple(length, length, length), at: position }),
  fc.record({ shape: fc.constant("cylinder" as const), axis, mass, radius: length, length, at: position }),
);
const body = fc.array(part, { minLength: 1, maxLength: 8 });
const ENTRIES = ["xx", "yy", "zz", "xy", "xz", "yz"] as const;

describe("any body of boxes and cylinders", () => {
  it("keeps its inertia when the origin moves, and its centre moves along", () => {
    fc.assert(
      fc.property(body, position, (parts, shift) => {
        const moved = parts.map((p) => ({ ...p, at: p.at.map((v, i) => v + shift[i]) as unknown as Vector3 }));
        const [before, after] = [assemble(parts), assemble(moved)];
        const scale = before.inertia.xx + before.inertia.yy + before.inertia.zz;
        for (const e of ENTRIES)
          expect(Math.abs(after.inertia[e] - before.inertia[e])).toBeLessThan(1e-12 * (scale + before.mass));
        after.centreOfMass.forEach((c, i) => {
          expect(c).toBeCloseTo(before.centreOfMass[i] + shift[i], 12);
        });
      }),
      { seed: 6 },
    );
  });

  it("is the same body when a box is cut in two", () => {
    fc.assert(
      fc.property(mass, fc.tuple(length, length, length), position, (m, [a, b, c], at) => {
        const uncut = assemble([{ shape: "box", mass: m, size: [a, b, c], at }]).inertia;
        const half = (side: number): Part => ({
          shape: "box",
          mass: m / 2,
          size: [a / 2, b, c],
          at: [at[0] + (side * a) / 4, at[1], at[2]],
        });
        const halves = assemble([half(1), half(-1)]).inertia;
        for (const e of ENTRIES) expect(Math.abs(halves[e] - uncut[e])).toBeLessThan(1e-12 * uncut.zz + 1e-17);
      }),
      { seed: 7 },
    );
  });

  it("has an inertia without a fault, and inverse times inertia is the identity", () => {
    fc.assert(
      fc.property(body, (parts) => {
        const { inertia } = assemble(parts);
        expect(inertiaFault(inertia)).toBeNull();
        const identity = asMatrix(inertia).mmul(asMatrix(invertInertia(inertia)));
        const worst = identity.sub(Matrix.eye(3)).abs().max();
        // rounding grows with the ratio of largest to smallest principal moment
        const moments = new EigenvalueDecomposition(asMatrix(inertia)).realEigenvalues;
        expect(worst).toBeLessThan(1e-13 * (Math.max(...moments) / Math.min(...moments)));
      }),
      { seed: 8 },
    );
  });
});

describe("faults of an inertia", () => {
  it("every principal moment is at most the sum of the other two, a flat plate just so", () => {
    // Triangle inequality of the principal moments of any mass distribution: algebra, from memory.
    expect(inertiaFault(diagonal(1e-3, 2e-3, 3e-3))).toBeNull();
    for (const [x, y, z] of [
      [1, 2, 3.001],
      [3.001, 1, 2],
      [2, 3.001, 1],
    ] as const) {
      expect(inertiaFault(diagonal(x * 1e-3, y * 1e-3, z * 1e-3))).toMatch(/exceeds the sum of the other two/);
    }
  });

  it("agrees with the principal moments of a turned matrix, on both sides of the limit", () => {
    fc.assert(
      fc.property(
        fc.tuple(mass, mass, mass),
        fc.tuple(length, length, length),
        fc.double({ min: -1, max: 1, noNaN: true }),
        ([a, b, c], [u, v, w], tilt) => {
          const axisOf = new Matrix([[u, v, tilt * w]]);
          const n = axisOf.div(axisOf.norm());
          const mirror = Matrix.eye(3).sub(n.transpose().mmul(n).mul(2));
          const turned = mirror.mmul(Matrix.diag([a, b, c])).mmul(mirror);
          const inertia: Inertia = {
            xx: turned.get(0, 0),
            yy: turned.get(1, 1),
            zz: turned.get(2, 2),
            xy: turned.get(0, 1),
            xz: turned.get(0, 2),
            yz: turned.get(1, 2),
          };
          const room = a + b + c - 2 * Math.max(a, b, c);
          fc.pre(Math.abs(room) > 1e-6);
          expect(inertiaFault(inertia) === null).toBe(room > 0);
        },
      ),
      { seed: 9 },
    );
  });

  it("products can break what the diagonal hides", () => {
    expect(inertiaFault({ ...diagonal(1, 1, 1.2), xy: 0.2 })).toBeNull();
    expect(inertiaFault({ ...diagonal(1, 1, 1.2), xy: 0.7 })).toMatch(/exceeds the sum/);
    expect(inertiaFault({ ...diagonal(1, 1, 1.2), xy: 1.1 })).toMatch(/not positive definite/);
  });

  it.each([
    ["zero", diagonal(0, 0, 0)],
    ["a thin rod", diagonal(0, 1, 1)],
    ["negative", diagonal(-1, 2, 2)],
    ["not a number", diagonal(NaN, 1, 1)],
    ["infinite", diagonal(Infinity, 1, 1)],
  ])("%s is not positive definite", (_, inertia) => {
    expect(inertiaFault(inertia)).toMatch(/not positive definite/);
  });
});
