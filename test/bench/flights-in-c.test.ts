// The benchmark's C is the loop: printed from it, and held to its bits wherever gcc is at hand.
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { expect, test } from "vitest";
import { fly, scratchFor } from "../../src/kernel/fly.js";
import * as m from "../../src/kernel/memory.js";
import { readConstants } from "../../src/translator/constants.js";
import { printC } from "../../src/translator/print-c.js";
import { readProgram } from "../../src/translator/program.js";
import { rigs } from "../kernel/random-rig.js";
import { compiler, flightsInC } from "./flights-in-c.mjs";

const text = (name: string) => readFileSync(`src/kernel/${name}`, "utf8");
const loop = printC(readProgram("loop.ts", text("loop.ts"), readConstants("memory.ts", text("memory.ts"))));
const bits = (values: Float64Array) => [...new BigUint64Array(values.slice().buffer)];

test.skipIf(compiler() === null)("the loop in C has the bits of the loop in TypeScript", () => {
  const inC = flightsInC(loop, m);
  try {
    for (const rig of fc.sample(rigs, { seed: 3, numRuns: 12 })) {
      const gains = { p: Float64Array.of(0.01, 0.1), d: Float64Array.of(0, 2e-4) };
      const window = { from: Math.floor(rig.steps / 3), to: rig.steps - Math.floor(rig.steps / 3) };
      const { traces, states } = inC.fly(rig, gains, window, 1);
      gains.p.forEach((p, i) => {
        const scratch = scratchFor(rig);
        fly(rig, p, gains.d[i], window, scratch);
        expect(bits(traces.subarray(i * rig.steps, (i + 1) * rig.steps))).toEqual(bits(scratch.trace));
        expect(bits(states.subarray(i * rig.start.length, (i + 1) * rig.start.length))).toEqual(bits(scratch.state));
      });
    }
  } finally {
    inC.close();
  }
});
