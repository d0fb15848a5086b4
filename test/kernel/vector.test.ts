// The vector kernel against the loop it was made from: the same bits in every lane, whatever the craft and the gains.
import { existsSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { LANES, SEGMENT_KINDS } from "../../src/base/vector-layout.js";
import { loadVectorKernel, vectorCode } from "../../src/kernel/load-vector.js";
import { advance } from "../../src/kernel/loop.js";
import * as m from "../../src/kernel/memory.js";
import type { Rig } from "../../src/kernel/rig.js";
import { countsOfKind, type Segment } from "../../src/kernel/segments.js";
import { simulateManyOf, type TrialSums } from "../../src/kernel/simulate-trial.js";
import { type KernelShape, kernelShapeOf, type VectorKernel, vectorKernelOf } from "../../src/kernel/vector.js";
import { BUILDS, kernelModule } from "../../src/translator/kernel-module.js";
import { readSources } from "../../src/translator/sources.js";
import { rigs } from "./random-rig.js";

const ROTORS = [4, 5, 6, 7, 8];

const { loop, passes } = readSources("src");
const SHAPES = ROTORS.flatMap((rotors) => BUILDS.map((build) => ({ rotors, ...build })));
const named = ({ rotors, coupled, extended, yaw }: KernelShape) => `${rotors}-${coupled}-${extended}-${yaw}`;
const codes = new Map(SHAPES.map((shape) => [named(shape), kernelModule(loop, passes, shape)]));
const kernels = new Map([...codes].map(([name, code]) => [name, vectorKernelOf(code)]));
const kernelFor = (rig: Rig) => kernels.get(named(kernelShapeOf(rig))) as VectorKernel;

/** Bits as text, so that -0 is not 0; what is no number has no bits of its own. */
const bits = (value: number): string =>
  Number.isNaN(value) ? "NaN" : new BigUint64Array(Float64Array.of(value).buffer)[0].toString(16);

/** Trace and state after the segments, one after another. */
function byLoop(rig: Rig, start: Float64Array, segments: readonly Segment[]): string[] {
  const { shape, craft, drive, axis, steps } = rig;
  const state = start.slice();
  const trace = new Float64Array(steps);
  const counts = m.countsOf(shape);
  for (const { from, to, kind } of segments)
    advance(craft, drive.values, state, trace, ...counts, axis, ...countsOfKind(kind), from, to);
  return [...trace, ...state].map(bits);
}

type Width = "wide" | "narrow";

function byLanes(rig: Rig, width: Width, starts: readonly Float64Array[], segments: readonly Segment[]): string[][] {
  const mounted = kernelFor(rig).mount(rig)[width];
  expect(mounted.lanes).toBe(starts.length);
  mounted.restart();
  starts.forEach((start, lane) => {
    start.forEach((value, place) => {
      mounted.set(lane, place, value);
    });
  });
  for (const segment of segments) mounted.advance(segment);
  return starts.map((start, lane) => {
    const state = start.map((_, place) => mounted.get(lane, place));
    return [...mounted.traces[lane], ...state].map(bits);
  });
}

test("every lane has the bits of the loop, for any craft, drive and gains", () => {
  const cases = fc.record({
    rig: rigs,
    gains: fc.array(
      fc.tuple(fc.double({ min: 0, max: 0.3, noNaN: true }), fc.double({ min: 0, max: 8, noNaN: true })),
      {
        minLength: LANES,
        maxLength: LANES,
      },
    ),
    cuts: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 4 }),
    kinds: fc.array(fc.constantFrom(...SEGMENT_KINDS), { minLength: 5, maxLength: 5 }),
  });
  fc.assert(
    fc.property(cases, ({ rig, gains, cuts, kinds }) => {
      const inner = cuts.map((share) => Math.floor(share * rig.steps)).sort((a, b) => a - b);
      const ends = [0, ...inner, rig.steps];
      const segments = kinds.slice(0, ends.length - 1).map((kind, i) => ({ kind, from: ends[i], to: ends[i + 1] }));
      const starts = gains.map(([p, d]) => {
        const start = rig.start.slice();
        start[m.P_GAIN + rig.axis] = p;
        start[m.D_GAIN + rig.axis] = d;
        return start;
      });
      const alike = (width: Width, some: readonly Float64Array[], parts: readonly Segment[]) =>
        expect(byLanes(rig, width, some, parts)).toEqual(some.map((start) => byLoop(rig, start, parts)));
      // Yaw and few lanes simulate still air as moving air that does not move, and here it does.
      const moving = segments.map(({ kind, ...span }) => ({ kind: kind === "still" ? "disturbed" : kind, ...span }));
      alike("wide", starts, rig.axis === 2 ? moving : segments);
      alike("narrow", starts.slice(0, 2), moving);
    }),
    { seed: 20261125, numRuns: 60 },
  );
});

describe("many trials", () => {
  const simulated = (rig: Rig, kernel: VectorKernel | null, effort = true, count = 11) => {
    const gains = {
      p: Float64Array.from({ length: count }, (_, i) => 0.01 * i),
      d: Float64Array.from({ length: count }, (_, i) => 1e-4 * i),
    };
    const records: { index: number; trace: string[]; trial: TrialSums }[] = [];
    const window = { from: Math.floor(rig.steps / 4), to: rig.steps - Math.floor(rig.steps / 4), effort };
    simulateManyOf(rig, kernel)(gains, window, (index, { trace, reader: _, ...trial }) => {
      records.push({ index, trace: [...trace].map(bits), trial: { ...trial } });
    });
    return records;
  };

  test("come out in order and alike with the kernel and without, the last group short", () => {
    fc.assert(
      fc.property(rigs, (rig) => {
        const alone = simulated(rig, null);
        expect(alone.map(({ index }) => index)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
        expect(simulated(rig, kernelFor(rig))).toEqual(alone);
        expect(simulated(rig, kernelFor(rig), false)).toEqual(simulated(rig, null, false));
        for (const count of [1, 2, 10])
          expect(simulated(rig, kernelFor(rig), true, count)).toEqual(alone.slice(0, count));
      }),
      { seed: 1, numRuns: 10 },
    );
  });

  test("of one rig do not depend on the rig mounted before", () => {
    const [first, second] = fc.sample(
      rigs.filter(({ shape }) => shape.rotors === 4 && shape.coupled === 1),
      { seed: 2, numRuns: 2 },
    );
    const alone = simulated(second, kernelFor(second));
    simulated(first, kernelFor(first));
    expect(simulated(second, kernelFor(second))).toEqual(alone);
  });
});

test.each(SHAPES.map(named))("the kernel shipped for %s is what loop.ts translates to", (name) => {
  const file = `dist/kernel/vector-${name}.wasm`;
  expect(existsSync(file), `${file} is missing: npm run build`).toBe(true);
  expect(Buffer.compare(readFileSync(file), codes.get(name) as Uint8Array), `${file} is stale: npm run build`).toBe(0);
});

test("a build without a kernel for a craft has none, and nothing breaks", () => {
  const unbuilt = { rotors: 9, coupled: 0, extended: 0, yaw: 0 } as const;
  expect(loadVectorKernel({ rotors: 4, coupled: 0, extended: 0, yaw: 0 })?.lanes).toBe(LANES);
  expect([vectorCode(unbuilt), loadVectorKernel(unbuilt)]).toEqual([null, null]);
});

test("a machine without vectors, or invalid code, is distinguished from a kernel", () => {
  expect(() => vectorKernelOf(Uint8Array.of(0, 97, 115, 109, 2, 0, 0, 0))).toThrow();
});
