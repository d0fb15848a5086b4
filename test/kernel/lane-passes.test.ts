// Passes over the traces of all lanes at once against the plain code over each trace: the same bits.
import fc from "fast-check";
import { expect, test } from "vitest";
import { loadVectorKernel } from "../../src/kernel/load-vector.js";
import type { Rig } from "../../src/kernel/rig.js";
import { simulateManyOf } from "../../src/kernel/simulate-trial.js";
import { kernelShapeOf, type VectorKernel } from "../../src/kernel/vector.js";
import { lengths, type Pass, traceOf } from "../../src/response/reader.js";
import * as s from "../../src/response/sums.js";
import { rigs } from "./random-rig.js";

function kernelFor(rig: Rig): VectorKernel {
  const kernel = loadVectorKernel(kernelShapeOf(rig));
  if (kernel === null) throw new Error(`no kernel for ${rig.shape.rotors} rotors: npm run build`);
  return kernel;
}

/** Every pass once, over ranges of samples drawn from `shares`. */
function passesOver(steps: number, shares: readonly number[]): Pass[] {
  const at = (share: number, below: number) => Math.floor(share * below);
  const from = at(shares[0], steps - 2);
  const to = from + 2 + at(shares[1], steps - from - 1);
  const count = 1 + at(shares[2], to - from - 1);
  const again = to - 1 - count;
  const command = Float64Array.from({ length: steps }, (_, k) => Math.sin(0.3 * k));
  const weights = Float64Array.from({ length: count }, (_, k) => 1 - Math.cos(k));
  const given = lengths(to - from);
  return [
    { name: "swing", shared: null, given, counts: [from, to, 5] },
    { name: "kick", shared: command, given: [...given, 0.07], counts: [from, to] },
    { name: "wobble", shared: command, given, counts: [from, to] },
    { name: "energies", shared: weights, given: [], counts: [from, again, count] },
    { name: "ring", shared: Float64Array.of(0.3), given: [], counts: [from, to] },
  ];
}

const LEFT: Readonly<Record<Pass["name"], readonly number[]>> = {
  swing: [s.HALF_SWING],
  kick: [s.LARGEST_DEVIATION, s.LAST_BEYOND],
  wobble: [s.DEVIATION_SQUARES, s.ERROR_SUM, s.ERROR_SQUARES],
  energies: [s.EARLY_ENERGY, s.LATE_ENERGY],
  ring: [s.PASSAGES, s.FIRST_PASSAGE, s.PASSAGE_BEFORE_LAST, s.LAST_PASSAGE],
};

const gains = {
  p: Float64Array.from({ length: 11 }, (_, i) => 0.02 * i),
  d: Float64Array.from({ length: 11 }, (_, i) => 1e-4 * i),
};

test("every lane gives the bits of its own trace read alone, whatever passes run in which order", () => {
  const share = fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true });
  const cases = fc.record({
    rig: rigs.filter(({ steps, axis }) => steps > 4 && axis < 2),
    shares: fc.tuple(share, share, share),
    order: fc.shuffledSubarray([0, 1, 2, 3, 4], { minLength: 5 }),
  });
  fc.assert(
    fc.property(cases, ({ rig, shares, order }) => {
      const passes = passesOver(rig.steps, shares);
      let lanes = 0;
      simulateManyOf(rig, kernelFor(rig))(gains, { from: 0, to: rig.steps }, (_, { trace, reader }) => {
        const alone = traceOf(trace).reader;
        for (const at of order) {
          const pass = passes[at];
          alone.carryOut(pass);
          reader.carryOut(pass);
          const wanted = LEFT[pass.name].map((place) => alone.sum(place));
          expect(LEFT[pass.name].map((place) => reader.sum(place))).toEqual(wanted);
          lanes += wanted.length;
        }
      });
      expect(lanes).toBe(11 * 12);
    }),
    { seed: 7, numRuns: 60 },
  );
});

test("what is lent to a pass is that of the question at hand, though its room was another's before", () => {
  const [rig] = fc.sample(
    rigs.filter(({ steps, axis }) => steps > 50 && axis < 2),
    { seed: 8, numRuns: 1 },
  );
  const simulateMany = simulateManyOf(rig, kernelFor(rig));
  for (const level of [0, 1, -2, 3]) {
    const command = new Float64Array(rig.steps).fill(level);
    const pass: Pass = { name: "kick", shared: command, given: [...lengths(40), 0], counts: [5, 45] };
    simulateMany(gains, { from: 0, to: rig.steps }, (_, { trace, reader }) => {
      reader.carryOut(pass);
      let [deviation, largest] = [0, 0];
      for (let k = 6; k < 45; k++) {
        deviation += trace[k - 1] - level + (trace[k] - level);
        largest = Math.max(largest, Math.abs(deviation));
      }
      expect(reader.sum(s.LARGEST_DEVIATION)).toBe(largest);
    });
  }
});
