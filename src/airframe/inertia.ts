// From weighed parts to mass, centre of mass and inertia, and the checks on an inertia.
import type { Inertia, Vector3 } from "./airframe.js";

type Along = "x" | "y" | "z";

/** A homogeneous body, axes along the craft's; `at` is its own centre, m from the model's origin. Mass in kg. */
export type Part =
  | { readonly shape: "box"; readonly mass: number; readonly size: Vector3; readonly at: Vector3 }
  | {
      readonly shape: "cylinder";
      readonly axis: Along;
      readonly mass: number;
      readonly radius: number; // m
      readonly length: number; // m, along the axis
      readonly at: Vector3;
    }
  | {
      readonly shape: "rod";
      readonly axis: Along;
      readonly mass: number;
      readonly length: number;
      readonly at: Vector3;
    }
  | { readonly shape: "point"; readonly mass: number; readonly at: Vector3 };

/**
 * Parts as one rigid body: mass (kg), centre of mass (m, from the model's origin) and inertia about it
 * (kg m^2). RangeError when the parts weigh nothing.
 */
export function assemble(parts: readonly Part[]): { mass: number; centreOfMass: Vector3; inertia: Inertia } {
  const mass = parts.reduce((sum, part) => sum + part.mass, 0);
  if (!(mass > 0)) throw new RangeError(`the parts weigh ${mass} kg together, expected more than 0`);
  const mean = (axis: 0 | 1 | 2): number => parts.reduce((sum, { mass: m, at }) => sum + m * at[axis], 0) / mass;
  const centreOfMass: Vector3 = [mean(0), mean(1), mean(2)];
  const each = parts.map((part) => about(part, centreOfMass));
  const { xx, yy, zz, ...products } = each.reduce(added);
  const product = (key: "xy" | "xz" | "yz") => balanced(products[key], each, key);
  return { mass, centreOfMass, inertia: { xx, yy, zz, xy: product("xy"), xz: product("xz"), yz: product("yz") } };
}

/** A product of inertia whose parts cancel but for rounding is none: such a craft is mirrored. */
function balanced(sum: number, parts: readonly Inertia[], key: "xy" | "xz" | "yz"): number {
  const size = parts.reduce((total, part) => total + Math.abs(part[key]), 0);
  return Math.abs(sum) > 1e-12 * size ? sum : 0;
}

/** A part's inertia about a point, by the parallel-axis theorem; products are matrix entries, -m x y. */
function about(part: Part, [cx, cy, cz]: Vector3): Inertia {
  const [px, py, pz] = part.at;
  const [x, y, z] = [px - cx, py - cy, pz - cz];
  const [xx, yy, zz] = ownMoments(part);
  const m = part.mass;
  return {
    xx: xx + m * (y * y + z * z),
    yy: yy + m * (x * x + z * z),
    zz: zz + m * (x * x + y * y),
    xy: -m * x * y,
    xz: -m * x * z,
    yz: -m * y * z,
  };
}

/** Moments about the part's own centre; the standard solids of any mechanics text. */
function ownMoments(part: Part): Vector3 {
  switch (part.shape) {
    case "box": {
      const [a, b, c] = part.size;
      const share = part.mass / 12;
      return [share * (b * b + c * c), share * (a * a + c * c), share * (a * a + b * b)];
    }
    case "cylinder": {
      const { mass, radius, length } = part;
      return around(part.axis, (mass * radius * radius) / 2, (mass * (3 * radius * radius + length * length)) / 12);
    }
    case "rod":
      return around(part.axis, 0, (part.mass * part.length * part.length) / 12);
    case "point":
      return [0, 0, 0];
  }
}

function around(axis: Along, along: number, across: number): Vector3 {
  if (axis === "x") return [along, across, across];
  return axis === "y" ? [across, along, across] : [across, across, along];
}

function added(a: Inertia, b: Inertia): Inertia {
  return { xx: a.xx + b.xx, yy: a.yy + b.yy, zz: a.zz + b.zz, xy: a.xy + b.xy, xz: a.xz + b.xz, yz: a.yz + b.yz };
}

/** The inverse matrix, 1/(kg m^2), by cofactors; of an inertia that inertiaFault lets pass. */
export function invertInertia({ xx, yy, zz, xy, xz, yz }: Inertia): Inertia {
  const cxx = yy * zz - yz * yz;
  const cxy = xz * yz - xy * zz;
  const cxz = xy * yz - xz * yy;
  const scale = 1 / (xx * cxx + xy * cxy + xz * cxz);
  return {
    xx: cxx * scale,
    yy: (xx * zz - xz * xz) * scale,
    zz: (xx * yy - xy * xy) * scale,
    xy: cxy * scale,
    xz: cxz * scale,
    yz: (xy * xz - xx * yz) * scale,
  };
}

/** Rounding allowance of both checks, as a share of the trace: a flat plate must pass, a rod must not. */
const ALLOWANCE = 1e-9;

/** Why no rigid body can have this inertia, in one sentence; null when one can. */
export function inertiaFault(inertia: Inertia): string | null {
  const trace = inertia.xx + inertia.yy + inertia.zz;
  if (!(trace > 0) || !isPositive(shifted(inertia, 1, -ALLOWANCE * trace))) {
    return "it is not positive definite: the body would turn about some axis without resistance";
  }
  // half the trace less the inertia is the body's second moment of mass, which is never negative
  if (isPositive(shifted(inertia, -1, (0.5 + ALLOWANCE) * trace))) return null;
  return "one principal moment exceeds the sum of the other two, which no distribution of mass can do";
}

/** sign inertia + by identity. */
function shifted({ xx, yy, zz, xy, xz, yz }: Inertia, sign: 1 | -1, by: number): Inertia {
  return { xx: sign * xx + by, yy: sign * yy + by, zz: sign * zz + by, xy: sign * xy, xz: sign * xz, yz: sign * yz };
}

/** Positive definite: every pivot of the elimination is above 0. */
function isPositive({ xx, yy, zz, xy, xz, yz }: Inertia): boolean {
  const second = yy - (xy * xy) / xx;
  const below = yz - (xy * xz) / xx;
  return xx > 0 && second > 0 && zz - (xz * xz) / xx - (below * below) / second > 0;
}

/** The inertia of a body that every torque turns by a factor more. */
export const turnedMore = ({ xx, yy, zz, xy, xz, yz }: Inertia, factor: number): Inertia => ({
  xx: xx / factor,
  yy: yy / factor,
  zz: zz / factor,
  xy: xy / factor,
  xz: xz / factor,
  yz: yz / factor,
});
