// Why it moved: against closed forms, and against theory's own answer where one number alone is changed.
import { describe, expect, it } from "vitest";
import type { Airframe } from "../../src/airframe/airframe.js";
import { at } from "../../src/base/at.js";
import { ln } from "../../src/base/elementary.js";
import { D_UNIT, I_UNIT, P_UNIT } from "../../src/base/units.js";
import { changedGroups } from "../../src/compare/changed-groups.js";
import { changedValues } from "../../src/compare/model-changes.js";
import { readAirframe, readSweep } from "../../src/flow/read.js";
import { axisTheory } from "../../src/map/margins.js";
import { usefulFirst } from "../../src/map/useful.js";
import { planSweep } from "../../src/plan/plan.js";
import type { RequestedSweep } from "../../src/sweep/sweep.js";
import { stableIntervals } from "../../src/theory/boundary.js";
import type { AxisQuestion } from "../../src/why/answers.js";
import type { Asked } from "../../src/why/loops.js";
import { mixed } from "../../src/why/mixed.js";
import { type WhyAnswer, whyMoved } from "../../src/why/why.js";
import { FULL, nudge, planOf, stretchedX } from "../fixtures/airframe.js";

const RANGE = { from: 1 * P_UNIT, to: 700 * P_UNIT };
const AXES = ["roll", "pitch"] as const;

const question = (airframe: Airframe, d: number): AxisQuestion => ({
  d: d * D_UNIT,
  range: RANGE,
  tune: { p: 8 * P_UNIT, d: d * D_UNIT },
  start: { p: 8 * P_UNIT, d: d * D_UNIT, i: airframe.controller.roll.i },
});

interface Why extends WhyAnswer {
  readonly ids: readonly string[];
  readonly unread: readonly string[];
}

/** The teams by the keys they hold. */
function whyOf(
  base: Airframe,
  candidate: Airframe,
  asked: Asked = planOf(base, nudge(3), [0.5], [FULL]).sweep,
  d = 0,
): Why {
  const { groups, unread } = changedGroups(changedValues(base, candidate), base, candidate);
  const one = question(base, d);
  const answer = whyMoved({ base, candidate, groups, asked, axes: { roll: one, pitch: one } });
  if (answer === null) throw new Error("no answer");
  const ids = answer.teams.map((team) => team.map((group) => at(groups, group).id).join(" + "));
  return { ...answer, ids, unread };
}

const partsOf = ({ ids, axes }: Why, axis: "roll" | "pitch", measure: keyof WhyAnswer["axes"]["roll"]) =>
  Object.fromEntries(ids.map((id, k) => [id, axes[axis][measure]?.parts[k] ?? Number.NaN]));

/** Thrust that no motion of the air changes, and no integral: the loop is then its gain times its lags. */
const plain: Airframe = {
  ...stretchedX,
  propeller: { ...stretchedX.propeller, zeroThrustAdvance: 1e9 },
  controller: {
    ...stretchedX.controller,
    roll: { p: 4 * P_UNIT, i: 0, d: 0 },
    pitch: { p: 5 * P_UNIT, i: 0, d: 0 },
  },
};

const withPropeller = (airframe: Airframe, change: Partial<Airframe["propeller"]>): Airframe => ({
  ...airframe,
  propeller: { ...airframe.propeller, ...change },
});

// At a fixed throttle ct changes neither the rotors' speed nor their lag: authority alone, which the loop's gain is proportional
// to. Textbook loop algebra: K P is what gives out.
describe("a doubled thrust coefficient", () => {
  const found = whyOf(plain, withPropeller(plain, { ct: 2 * plain.propeller.ct }));

  it("takes the logarithm of two from the boundary, all of it by propeller.ct", () => {
    expect(found.ids).toEqual(["propeller.ct"]);
    for (const axis of AXES) {
      expect(found.axes[axis].boundary?.whole).toBeCloseTo(ln(0.5), 4);
      expect(found.axes[axis].gain?.whole).toBeCloseTo((20 * ln(0.5)) / Math.LN10, 3);
      expect(found.axes[axis].startP?.whole).toBeCloseTo(ln(0.5), 4);
    }
  });

  it("keeps its part beside others, whatever they do", () => {
    const latency = { ...plain, controller: { ...plain.controller, latency: 3e-3 } };
    const both = whyOf(plain, withPropeller(latency, { ct: 2 * plain.propeller.ct }));
    const parts = partsOf(both, "roll", "boundary");
    expect(parts["propeller.ct"]).toBeCloseTo(ln(0.5), 4);
    expect(parts["controller.latency"]).toBeLessThan(-0.1);
  });

  it("is undone by a doubled inertia, each part as large as the other", () => {
    const { xx, yy, zz, ...products } = plain.inertia;
    const inertia = { ...products, xx: 2 * xx, yy: 2 * yy, zz: 2 * zz };
    const found = whyOf(plain, { ...withPropeller(plain, { ct: 2 * plain.propeller.ct }), inertia });
    const parts = partsOf(found, "pitch", "boundary");
    expect(parts["propeller.ct"]).toBeCloseTo(ln(0.5), 4);
    expect(parts.frame).toBeCloseTo(ln(2), 4);
    expect(found.axes.pitch.boundary?.whole).toBeCloseTo(0, 4);
  });
});

describe("what changed", () => {
  it("has its mass, balance and inertia as one, and a table's slope with cp", () => {
    const other = withPropeller(
      { ...stretchedX, mass: 0.7, centreOfMass: [0.002, 0, 0], inertia: { ...stretchedX.inertia, xx: 1.4e-3 } },
      { cp: 0.11, cpSlope: -0.03 },
    );
    expect(whyOf(stretchedX, other).ids).toEqual(["propeller.cp", "frame"]);
  });

  it("names what theory does not read, and neither spreads nor what a unit is worth", () => {
    const { sensing, controller, wash } = stretchedX;
    const other: Airframe = {
      ...stretchedX,
      sensing: { ...sensing, noiseDensity: 2 * sensing.noiseDensity },
      controller: { ...controller, latency: 2e-3, scale: { p: 1, d: 1 } },
      wash: { ...wash, rms: 0.2 },
      spreads: [{ key: "motor.kv", nominal: 1950, law: "normal", size: 20, least: 1800, most: 2100 }],
    };
    const found = whyOf(stretchedX, other);
    expect(found.ids).toEqual(["controller.latency"]);
    expect([...found.unread].sort()).toEqual(["sensing.noise", "wash.rms"]);
  });

  it("is one where a slower loop needs the lower filter", () => {
    const { sensing, controller } = stretchedX;
    const base: Airframe = { ...stretchedX, sensing: { ...sensing, lowPass: [{ order: 2, cutoff: 900 }] } };
    const candidate: Airframe = {
      ...stretchedX,
      sensing: { ...sensing, lowPass: [{ order: 2, cutoff: 200 }] },
      controller: { ...controller, rate: 1500, latency: 1.2e-3 },
    };
    expect([...whyOf(base, candidate).ids].sort()).toEqual(
      ["controller.latency", "sensing.low_pass + controller.rate"].sort(),
    );
  });

  it("takes hover and holding from each craft on the way: a heavier one hovers at more throttle", () => {
    const { scripts, conditions } = planOf(stretchedX, nudge(3), [0.5], [FULL]).sweep;
    const asked = { scripts: scripts.map((one) => ({ ...one, throttle: ["hover" as const] })), conditions };
    const found = whyOf(stretchedX, { ...stretchedX, mass: 0.9 }, asked);
    // More throttle, more speed, more thrust per duty (momentum of the same rotor): the boundary falls without any other cause.
    expect(found.axes.roll.boundary?.whole).toBeLessThan(-0.05);
    expect(whyOf(stretchedX, { ...stretchedX, mass: 0.9 }).axes.roll.boundary?.whole).toBeCloseTo(0, 6);
  });

  it("has no answer where a side cannot hover", () => {
    const asked = planOf(stretchedX, nudge(3), [0.5], [FULL]).sweep;
    const heavy: Airframe = { ...stretchedX, mass: 6 };
    const { groups } = changedGroups(changedValues(stretchedX, heavy), stretchedX, heavy);
    const one = question(stretchedX, 0);
    expect(whyMoved({ base: stretchedX, candidate: heavy, groups, asked, axes: { roll: one, pitch: one } })).toBeNull();
  });
});

describe("more changes than can be looked at exactly", () => {
  it("have parts that add up to theory's whole, and a known one lies within its stated error", () => {
    const { propeller, motor, pack, controller } = stretchedX;
    const other: Airframe = {
      ...stretchedX,
      mass: 0.65,
      propeller: { ...propeller, ct: 0.17, cp: 0.11, zeroThrustAdvance: 0.85, inertia: 5e-6, diameter: 0.128 },
      motor: { constant: 1.05 * motor.constant, resistance: 0.08, noLoadCurrent: 0.9, bellInertia: 2.8e-6 },
      pack: { ...pack, resistance: 0.02 },
      controller: { ...controller, latency: 1.2e-3, roll: { ...controller.roll, i: 45 * I_UNIT } },
    };
    const found = whyOf(stretchedX, other);
    expect(found.ids.length).toBeGreaterThan(10);
    expect(found.orders).toBe(80);
    const boundary = found.axes.roll.boundary;
    const { propeller: before } = stretchedX;
    // Theory's whole, with nothing on the way.
    const whole =
      ln(boundaryOf(other, planOf(stretchedX, nudge(3), [0.5], [FULL]).sweep, "roll", 0)) -
      ln(boundaryOf(stretchedX, planOf(stretchedX, nudge(3), [0.5], [FULL]).sweep, "roll", 0));
    expect(boundary?.whole).toBeCloseTo(whole, 5);
    // Of the thrust coefficient alone the closed form is known: its part is that, nearly, whatever else changed.
    const ct = found.ids.indexOf("propeller.ct");
    expect(Math.abs((boundary?.parts[ct] ?? 0) - ln(before.ct / 0.17))).toBeLessThan(
      0.01 + (boundary?.errors?.[ct] ?? 0),
    );
    expect(Math.max(...(boundary?.errors ?? []))).toBeLessThan(0.02);
  });
});

/** P at which a craft gives out, by the loops that a map of it would be made with. */
function boundaryOf(airframe: Airframe, asked: RequestedSweep, axis: "roll" | "pitch", d: number): number {
  const plan = planSweep(airframe, asked);
  if (!("variants" in plan)) throw new Error("no plan");
  const { loops } = axisTheory(
    plan,
    axis,
    plan.variants.filter((one) => one.axis === axis),
  );
  const ends = loops.map(({ pieces }) =>
    usefulFirst(stableIntervals(pieces, d * D_UNIT, airframe.controller[axis].i, RANGE)),
  );
  return Math.min(...ends.map(([first]) => first?.to ?? 0));
}

// Each number changed alone, answered by the plan and the loops that a map of that craft would have.
describe("the shipped sweeps", () => {
  const base = readAirframe("models/sandpiper-r1.yaml").value;
  const D = 1.2;

  it.each([
    ["propeller-change", "r2", { "propeller.ct": -1, "propeller.cp": 1, "propeller.inertia": 1 }],
    ["battery-change", "r3", { "pack.cells": -1, "pack.resistance": 1, frame: 1 }],
    ["battery-change", "r4", { "pack.cells": -1, "motor.resistance": 1, "motor.kv": 1 }],
    ["slow-loop", "r5", { "sensing.low_pass": -1, "controller.latency": -1 }],
  ] as const)("%s, Sandpiper %s: signs and order are those of each key changed alone", (name, version, signs) => {
    const sweep = readSweep(`sweeps/${name}.yaml`).value;
    const candidate = readAirframe(`models/sandpiper-${version}.yaml`).value;
    const { groups } = changedGroups(changedValues(base, candidate), base, candidate);
    const found = whyOf(base, candidate, sweep, D);
    const parts = partsOf(found, "roll", "boundary");
    const from = ln(boundaryOf(base, sweep, "roll", D));
    const to = ln(boundaryOf(candidate, sweep, "roll", D));
    expect(found.axes.roll.boundary?.whole).toBeCloseTo(to - from, 5);
    const named = Object.keys(signs);
    const alone = named.map((id) => {
      const only = groups.map((group) => group.id === id);
      return ln(boundaryOf(mixed(base, candidate, groups, only), sweep, "roll", D)) - from;
    });
    for (const [k, id] of named.entries()) {
      const wanted = (signs as Readonly<Record<string, number>>)[id];
      expect(Math.sign(parts[id] ?? 0), id).toBe(wanted);
      expect(Math.sign(alone[k] ?? 0), `${id} alone`).toBe(wanted);
    }
    const size = (values: readonly number[], k: number) => Math.abs(at(values, k));
    const shares = named.map((id) => parts[id] ?? 0);
    // What is twice as much alone is more beside the others.
    for (const one of named.keys())
      for (const other of named.keys())
        if (size(alone, one) > 2 * size(alone, other)) expect(size(shares, one)).toBeGreaterThan(size(shares, other));
  });
});
