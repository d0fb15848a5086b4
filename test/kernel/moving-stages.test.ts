// Filter stages that move: while they stand they are those of filter.ts; while they move nothing grows and a steady rate passes
// as it is. And where the drive of a trial has them, period by period.
import { expect, test } from "vitest";
import type { Airframe, FilterStage } from "../../src/airframe/airframe.js";
import { filtered, lowPassStage, notchStage } from "../../src/airframe/filter.js";
import { meanSpeed, stageAt } from "../../src/airframe/moving-filter.js";
import { stream } from "../../src/base/random.js";
import * as m from "../../src/kernel/memory.js";
import { movingCells } from "../../src/kernel/moving-stages.js";
import { rigOf } from "../../src/kernel/rig.js";
import { scheduleOf } from "../../src/kernel/schedule.js";
import { throughMovingStages, throughStages } from "../../src/kernel/stages.js";
import type { Script } from "../../src/sweep/sweep.js";
import { askew, FULL, nudge, planOf, stretchedX } from "../fixtures/airframe.js";
import { onOneAxis } from "../fixtures/one-axis.js";

const RATE = 4000;
const coefficients = (stage: FilterStage) => ("centre" in stage ? notchStage(stage, RATE) : lowPassStage(stage, RATE));

const cellsOf = (stage: FilterStage) => Float64Array.from(movingCells(stage, RATE));

const KINDS: readonly FilterStage[] = [
  { order: 1, cutoff: 30 },
  { order: 1, cutoff: 1900 },
  { order: 2, cutoff: 12 },
  { order: 2, cutoff: 700 },
  { centre: 10, width: 2 },
  { centre: 210, width: 70 },
  { centre: 1900, width: 900 },
];

test.each(KINDS)("%j: standing still it answers as the stage of the fixed chain does", (stage) => {
  const input = Float64Array.from({ length: 400 }, (_, k) => (k === 0 ? 3 : Math.sin(0.001 * k * k)));
  const wanted = filtered(Float64Array.from([0, ...input]), [coefficients(stage)]).subarray(1);
  const state = new Float64Array(2);
  const found = input.map((x) => onOneAxis(throughMovingStages, cellsOf(stage), state, x));
  const off = found.map((y, k) => Math.abs(y - wanted[k]));
  expect(Math.max(...off)).toBeLessThan(1e-11);
});

/** Anywhere within the range, of any kind, anew in every period. */
const anyPlace = (source: { next: () => number }, order: 1 | 2 | "notch"): FilterStage => {
  const share = () => source.next() / 2 ** 32;
  const frequency = 20 * 95 ** share();
  return order === "notch"
    ? { centre: frequency, width: (0.02 + 0.98 * share()) * frequency }
    : { order, cutoff: frequency };
};

const energy = (state: Float64Array) => state.reduce((sum, one) => sum + one * one, 0);

test.each([1, 2, "notch"] as const)("order %s: moved at random in every period, what it holds never grows", (order) => {
  const source = stream("moving", order);
  const state = Float64Array.of(0.7, 1);
  // Nothing is read from the first memory of a stage of order 1.
  const memory = order === 1 ? state.subarray(1) : state;
  let before = energy(memory);
  for (let k = 0; k < 5000 && before > 1e-200; k++) {
    onOneAxis(throughMovingStages, cellsOf(anyPlace(source, order)), state, 0);
    expect(energy(memory)).toBeLessThanOrEqual(before * (1 + 1e-14));
    before = energy(memory);
  }
  expect(before).toBeLessThan(1e-6);
});

test("a steady rate passes unmoved, wherever the stages jump to; in transposed direct form it would not", () => {
  const through = (kernel: typeof throughStages, cells: (stage: FilterStage) => readonly number[]) => {
    const source = stream("steady");
    const state = new Float64Array(4);
    const table = () => Float64Array.from((["notch", 2] as const).flatMap((kind) => cells(anyPlace(source, kind))));
    const resting = table();
    for (let k = 0; k < 20_000; k++) onOneAxis(kernel, resting, state, 1);
    return Math.max(...Array.from({ length: 500 }, () => Math.abs(onOneAxis(kernel, table(), state, 1) - 1)));
  };
  expect(through(throughMovingStages, (stage) => movingCells(stage, RATE))).toBeLessThan(1e-12);
  expect(through(throughStages, coefficients)).toBeGreaterThan(0.1);
});

const moving = (airframe: Airframe): Airframe => ({
  ...airframe,
  sensing: {
    ...airframe.sensing,
    lowPassSchedule: [
      {
        order: 2,
        corners: [
          { throttle: 0.3, cutoff: 150 },
          { throttle: 0.7, cutoff: 350 },
        ],
      },
    ],
    trackingNotch: [{ harmonic: 1, width: 0.3, lowest: 80 }],
  },
  controller: {
    ...airframe.controller,
    derivativeTrackingNotch: [{ harmonic: 0.25, width: 0.5, lowest: 90 }],
  },
});

/** From the trial's level up by a quarter of full throttle and back. */
const surge: Script = {
  ...nudge(100),
  throttle: [
    [0, { kind: "level", plus: 0 }],
    [0.2, { kind: "level", plus: 0 }],
    [0.4, { kind: "level", plus: 0.25 }],
    [1, { kind: "level", plus: 0 }],
  ],
};

test.each([
  ["stretched X", stretchedX],
  ["built askew", askew],
])("%s: the drive has each stage where throttle and rotors put it, from the trim on", (_, plain) => {
  const airframe = moving(plain);
  const plan = planOf(airframe, surge, [0.4], [FULL]);
  const [variant] = plan.variants;
  const { drive, shape, steps } = rigOf(plan, variant);
  expect([shape.movingSensorStages, shape.movingDerivativeStages, shape.extended]).toEqual([2, 1, 1]);
  const { throttle, speed } = scheduleOf(plan, variant);
  const stages = [
    ...(airframe.sensing.lowPassSchedule ?? []),
    ...(airframe.sensing.trackingNotch ?? []),
    ...(airframe.controller.derivativeTrackingNotch ?? []),
  ];
  const places = new Set<number>();
  for (const k of [0, 1, 799, 1000, 1600, 2400, steps - 1]) {
    const turns = (meanSpeed(variant.trim) * speed[k]) / speed[0];
    const wanted = stages.flatMap((stage) => [...movingCells(stageAt(stage, throttle[k], turns, airframe), RATE)]);
    const at = k * drive.width + m.extensionAt(shape) + m.EXTENSION;
    const found = drive.values.subarray(at, at + wanted.length);
    expect(Math.max(...found.map((value, n) => Math.abs(value / wanted[n] - 1) || 0))).toBeLessThan(1e-12);
    places.add(found[2]);
  }
  expect(places.size).toBe(4);
});
