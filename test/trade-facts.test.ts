// What everybody who tunes small multirotors knows, checked on the shipped Sandpiper. Each fact is common practice,
// without a source; each test fails where the physics has it the other way round.
import { describe, expect, it } from "vitest";
import { sandpiperPlan, trialTools } from "./fixtures/sandpiper.js";

const plan = sandpiperPlan();
const { simulate, find, boundary } = trialTools(plan);
const FRESH = "fresh pack";
const TIRED = "tired pack";

describe("at low P the craft answers loosely (common practice, no source)", () => {
  const wash = find("wash-turn", "roll", "hover", FRESH);

  it("raises the wobble's frequency and shrinks its angle as P rises", () => {
    const trials = [6, 10, 16, 24, 32].map((p) => simulate(wash, p, 1));
    const angles = trials.map((trial) => trial.value("wobbleAngle") as number);
    const frequencies = trials.map((trial) => trial.value("wobbleFrequency") as number);
    for (let i = 1; i < trials.length; i++) expect(angles[i], `angle at step ${i}`).toBeLessThan(angles[i - 1]);
    expect(frequencies.at(-1)).toBeGreaterThan(1.5 * frequencies[0]);
    expect(angles[0]).toBeGreaterThan(3 * (angles.at(-1) as number));
  });

  it("takes the wobble without D from under 10 Hz to about twice that before it sustains itself", () => {
    const low = simulate(wash, 6, 0);
    const high = simulate(wash, 28, 0);
    expect(low.value("wobbleFrequency")).toBeLessThan(10);
    expect(high.value("wobbleFrequency")).toBeGreaterThan(12);
    expect(high.diesOut).toBe(true);
  });
});

describe("beyond a limit in P the oscillation sustains itself, sooner at high throttle (common practice, no source)", () => {
  const at = (level: number | "hover") => boundary(find("nudge", "roll", level, FRESH), 0.5, 6, 200);

  it("has a lower limit at more throttle, roughly as one over rotor speed", () => {
    const [hover, brisk, hard] = [at("hover"), at(45), at(70)];
    expect(brisk).toBeLessThan(hover);
    expect(hard).toBeLessThan(brisk);
    const speedRatio =
      find("nudge", "roll", 70, FRESH).trim.speeds[0] / find("nudge", "roll", "hover", FRESH).trim.speeds[0];
    expect(hover / hard).toBeGreaterThan(0.6 * speedRatio);
    expect(hover / hard).toBeLessThan(1.6 * speedRatio);
  });

  it("dies out in hover at a P that sustains itself at 70 % throttle, and a brief throttle rise starts it", () => {
    const between = Math.sqrt(at("hover") * at(70));
    expect(simulate(find("nudge", "roll", "hover", FRESH), between, 0.5).diesOut).toBe(true);
    expect(simulate(find("throttle-blip", "roll", 70, FRESH), between, 0.5).diesOut).toBe(false);
  });
});

describe("bounce-back and D (common practice, no source)", () => {
  const stop = find("roll-stop", "roll", 45, FRESH);

  it("leaves no P without D that removes the bounce-back before the oscillation sustains itself", () => {
    for (let p = 6; p <= 40; p += 2) {
      const trial = simulate(stop, p, 0);
      if (!trial.diesOut) break;
      expect(trial.value("overshoot"), `P ${p}`).toBeGreaterThan(15);
    }
  });

  it("removes it with D", () => {
    expect(simulate(stop, 16, 0).value("overshoot")).toBeGreaterThan(20);
    expect(simulate(stop, 16, 1.2).value("overshoot")).toBeLessThan(6);
  });

  it("raises the P limit with D", () => {
    const nudge = find("nudge", "roll", 45, FRESH);
    expect(boundary(nudge, 0.6, 6, 400)).toBeGreaterThan(1.4 * boundary(nudge, 0, 6, 400));
  });

  it("brings fast oscillation and hot motors with too much D", () => {
    const hover = find("hover-noise", "roll", 70, FRESH);
    const [calm, hot] = [simulate(hover, 12, 1), simulate(hover, 12, 6)];
    expect(calm.diesOut).toBe(true);
    expect(hot.diesOut).toBe(false);
    expect(hot.value("heat")).toBeGreaterThan(3 * (calm.value("heat") as number));
    const nudge = find("nudge", "roll", 70, FRESH);
    const slow = simulate(nudge, boundary(nudge, 0, 6, 100) * 1.02, 0);
    const fast = simulate(nudge, 12, 6);
    expect(fast.value("ringFrequency")).toBeGreaterThan(1.6 * (slow.value("ringFrequency") as number));
  });
});

describe("on a stretched X the short-arm axis gives out first (common practice, no source)", () => {
  it("oscillates on roll, the axis with the larger arm over inertia, before pitch at equal gains", () => {
    const { arms, inertia } = plan.conditions[0].craft;
    const arm = (k: 0 | 1) => arms.reduce((sum, place) => sum + Math.abs(place[k]), 0);
    expect(arm(1) / inertia.xx).toBeGreaterThan(arm(0) / inertia.yy);
    for (const d of [0, 0.5]) {
      const roll = boundary(find("nudge", "roll", 45, FRESH), d, 6, 400);
      const pitch = boundary(find("nudge", "pitch", 45, FRESH), d, 6, 400);
      expect(roll, `D ${d}`).toBeLessThan(pitch);
    }
  });
});

describe("a tired pack is calmer than a fresh one (common practice, no source)", () => {
  it("sustains an oscillation only at a higher P", () => {
    for (const level of [45, 70]) {
      const fresh = boundary(find("nudge", "roll", level, FRESH), 0.5, 6, 400);
      const tired = boundary(find("nudge", "roll", level, TIRED), 0.5, 6, 400);
      expect(tired, `${level} %`).toBeGreaterThan(1.05 * fresh);
    }
  });
});
