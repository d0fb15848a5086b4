import { expect, it } from "vitest";
import { stream, uniform } from "../../src/base/random.js";
import { trendsOf } from "../../src/trend/follow.js";
import type { Creep } from "../../src/trend/trend.js";
import { record, startWith } from "./records.js";

const day = (k: number): string => new Date(Date.UTC(2026, 0, 1 + k)).toISOString().slice(0, 10);

/** Creeps of roll where the boundary at D 1 takes these values, version after version. */
const creepsOver = (values: readonly number[]): readonly Creep[] =>
  trendsOf(values.map((p, k) => record({ version: `r${k + 1}`, date: day(k), boundary: [30, p, 50] })))[0]?.creeps ??
  [];

it("is found where no step shows it: eight changes of 0.7 % one way", () => {
  const [creep, ...others] = creepsOver(Array.from({ length: 9 }, (_, k) => 40 * 0.993 ** k));
  expect(others).toEqual([]);
  expect(creep).toMatchObject({ axis: "roll", better: false, stages: [0, 8] });
  expect(creep?.size).toBeCloseTo(100 * (0.993 ** 8 - 1), 0);
  expect(creep?.chance).toBeLessThan(0.001);
});

it.each([
  ["too few changes to tell", [40, 39.7, 39.4, 39.1]],
  ["to and fro", [40, 39.7, 40, 39.7, 40, 39.7, 40, 39.7]],
  ["within the tolerance all together", [40, 39.95, 39.9, 39.85, 39.8, 39.75, 39.7]],
  ["a step between two still stretches", [40, 40.01, 40, 40.01, 30, 30.01, 30, 30.01]],
])("is none: %s", (_, values) => {
  expect(creepsOver(values)).toEqual([]);
});

/** A measure that seeds move: its value creeps down, night by night. */
const seeded = (fall: number, half: number) =>
  trendsOf(
    Array.from({ length: 10 }, (_, k) => {
      const value = 2 - fall * k;
      const wobbleAngle = { value, range: [value - half, value + half] as const };
      return record({ version: `r${k + 1}`, date: day(k), roll: { start: startWith({ seeded: { wobbleAngle } }) } });
    }),
  )[0]?.creeps ?? [];

it("is held against what seeds alone do", () => {
  expect(seeded(0.05, 0.05)).toHaveLength(1);
  expect(seeded(0.05, 0.5)).toEqual([]);
});

it("is seldom found where a new seed each night is all that moves", () => {
  const source = stream("creep");
  const trials = 200;
  let found = 0;
  for (let trial = 0; trial < trials; trial++) {
    const values = Array.from({ length: 12 }, () => 40 * (1 + 0.006 * (uniform(source) - 0.5)));
    const trend = trendsOf(values.map((p, k) => record({ seed: k + 1, date: day(k), boundary: [30, p, 50] })))[0];
    found += trend?.creeps.length ?? 0;
  }
  expect(found).toBeLessThan(0.05 * trials);
});
