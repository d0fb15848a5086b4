// A craft left alone at its trim stays there: the loop and the trim balance the same torques. An odd number of rotors is the
// hard case, since the no-load torque between bells and stators then has a sum (energy balance of a DC machine: it turns
// the rotor's drag into heat in the bearing and leaves no reaction on the body).
import { describe, expect, it } from "vitest";
import * as m from "../../src/kernel/memory.js";
import { rigOf } from "../../src/kernel/rig.js";
import { scratchFor, simulateTrial } from "../../src/kernel/simulate-trial.js";
import { FULL, nudge, planOf, stretchedX } from "../fixtures/airframe.js";

const fiveRotors = {
  ...stretchedX,
  rotors: [0, 1, 2, 3, 4].map((k) => ({
    at: [0.11 * Math.cos((2 * Math.PI * k) / 5), 0.11 * Math.sin((2 * Math.PI * k) / 5), 0.01] as const,
    spin: (k % 2 === 0 ? 1 : -1) as 1 | -1,
  })),
};

describe("a craft at its trim", () => {
  it.each([
    ["four rotors", stretchedX],
    ["five rotors, three of them turning one way", fiveRotors],
  ])("does not turn by itself: %s", (_, airframe) => {
    const plan = planOf(airframe, nudge(0), [0.4], [FULL]);
    const rig = rigOf(plan, plan.variants[0]);
    const scratch = scratchFor(rig);
    simulateTrial(rig, 0.002, 0, { from: 0, to: rig.steps }, scratch);
    for (const axis of [0, 1, 2]) expect(Math.abs(scratch.state[m.BODY_RATE + axis])).toBeLessThan(1e-9);
    expect(Math.max(...scratch.trace.map(Math.abs))).toBeLessThan(1e-9);
  });
});
