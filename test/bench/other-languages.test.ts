// The benchmark's C and NumPy are the loop: printed from it, and held to its bits wherever gcc and NumPy are at hand.
import fc from "fast-check";
import { expect, test } from "vitest";
import * as m from "../../src/kernel/memory.js";
import { countsOfKind, segmentsOf } from "../../src/kernel/segments.js";
import { scratchFor, simulateTrial } from "../../src/kernel/simulate-trial.js";
import { printC } from "../../src/translator/print-c.js";
import { printNumpy } from "../../src/translator/print-numpy.js";
import { readSources } from "../../src/translator/sources.js";
import { rigs } from "../kernel/random-rig.js";
import { gcc, loopInC, loopInNumpy, numpy } from "./other-languages.mjs";

const { loop: program } = readSources("src");
const bits = (values: Float64Array) => [...new BigUint64Array(values.slice().buffer)];

test.each([
  ["C", gcc(), () => loopInC(printC(program), m), 12],
  ["NumPy", numpy(), () => loopInNumpy(printNumpy(program), m), 2],
])("the loop in %s has the bits of the loop in TypeScript", (language, at, open, runs) => {
  if (at === null) return console.warn(`SKIPPED: ${language} is not at hand`);
  const inProcess = open();
  try {
    for (const rig of fc.sample(rigs, { seed: 3, numRuns: runs })) {
      const gains = { p: Float64Array.of(0.01, 0.1), d: Float64Array.of(0, 2e-4) };
      const window = { from: Math.floor(rig.steps / 3), to: rig.steps - Math.floor(rig.steps / 3), effort: true };
      const segments = segmentsOf(rig.steps, rig.drive.disturbed, window, true).map(({ from, to, kind }) => [
        from,
        to,
        ...countsOfKind(kind),
      ]);
      const { traces, states } = inProcess.simulate(rig, gains, segments, 1);
      gains.p.forEach((p, i) => {
        const scratch = scratchFor(rig);
        simulateTrial(rig, p, gains.d[i], window, scratch);
        expect(bits(traces.subarray(i * rig.steps, (i + 1) * rig.steps))).toEqual(bits(scratch.trace));
        expect(bits(states.subarray(i * rig.start.length, (i + 1) * rig.start.length))).toEqual(bits(scratch.state));
      });
    }
  } finally {
    inProcess.close();
  }
});
