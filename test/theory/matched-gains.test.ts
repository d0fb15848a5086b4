// Factors of P and D for a changed loop, against closed forms. A plant k times as strong behind the same delay needs 1/k of
// each gain, and has the same open loop then. A loop whose every time is s times as long is the same loop in slower time: an
// integrator K/s behind a dead time has L(jw) = (P + jwD) K/(jw) e^(-jwT), so P/s and an unchanged D give it the same curve
// (substitution of w by w/s; no source needed).
import { describe, expect, it } from "vitest";
import type { AxisGains } from "../../src/airframe/airframe.js";
import { at } from "../../src/base/at.js";
import { marginsOf } from "../../src/theory/margins.js";
import { matchedGains, worstMargins } from "../../src/theory/matched-gains.js";
import { referenceTune } from "../../src/theory/reference-tune.js";
import { type Complex, continuousLoop } from "./plain-plants.js";

const DELAY = 0.004; // s
const STRENGTH = 100; // 1/s per unit of command

/** An integrator behind a dead time. */
const integrator = (strength: number, delay: number) =>
  continuousLoop((w): Complex => {
    const size = strength / w;
    return [-size * Math.sin(w * delay), -size * Math.cos(w * delay)];
  }, 1 / delay);

const GAINS: AxisGains = { p: 1, i: 0, d: 0.001 };
const plain = integrator(STRENGTH, DELAY);

describe("factors of P and D", () => {
  it("are a half where a command is worth twice as much, I too", () => {
    const found = matchedGains([plain], [integrator(2 * STRENGTH, DELAY)], { ...GAINS, i: 5 });
    expect(found?.factors.p).toBeCloseTo(0.5, 9);
    expect(found?.factors.d).toBeCloseTo(0.5, 9);
    expect(found?.after.phase).toBeCloseTo(found?.before.phase ?? Number.NaN, 9);
    expect(found?.matched).toBe(true);
  });

  it.each([0.5, 1.5, 2, 3])(
    "leave D alone and divide P by %d where all that takes time takes so much longer",
    (slower) => {
      const found = matchedGains([plain], [integrator(STRENGTH, slower * DELAY)], GAINS);
      expect(found?.factors.p).toBeCloseTo(1 / slower, 4);
      expect(found?.factors.d).toBeCloseTo(1, 4);
    },
  );

  it("bring the worst margins of several loops to what they were, one loop's gain and another's phase", () => {
    const before = [integrator(STRENGTH, DELAY), integrator(1.3 * STRENGTH, 0.7 * DELAY)];
    const after = [integrator(1.7 * STRENGTH, 1.2 * DELAY), integrator(1.2 * STRENGTH, DELAY)];
    const found = matchedGains(before, after, GAINS);
    const { p = 0, d = 0 } = found?.factors ?? {};
    const [wanted, now] = [
      worstMargins(before, GAINS),
      worstMargins(after, { p: p * GAINS.p, i: 0, d: (d ?? 0) * GAINS.d }),
    ];
    expect(now.gainUp).toBeCloseTo(wanted.gainUp ?? Number.NaN, 3);
    expect(now.phase).toBeCloseTo(wanted.phase ?? Number.NaN, 2);
  });

  it("scale P alone where the tune has no D, and say that the phase is another", () => {
    const found = matchedGains([plain], [integrator(STRENGTH, 2 * DELAY)], { p: 1, i: 20, d: 0 });
    expect(found?.factors.d).toBeNull();
    expect(found?.after.gainUp).toBeCloseTo(found?.before.gainUp ?? Number.NaN, 6);
    expect(found?.matched).toBe(false);
  });

  it("are none for a tune that is unstable before", () =>
    expect(matchedGains([plain], [plain], { ...GAINS, p: 100 })).toBeNull());
});

describe("the reference tune", () => {
  it("keeps 10 dB and 55 degrees at every loop, and a fifth more of it does not", () => {
    const loops = [plain, integrator(1.4 * STRENGTH, DELAY)];
    const tune = referenceTune(loops, 0) as AxisGains;
    for (const loop of loops) {
      const { stable, gainUp, phase } = marginsOf(loop, tune);
      expect(stable).toBe(true);
      expect(gainUp).toBeGreaterThan(9.9);
      expect(phase).toBeGreaterThan(54.5);
    }
    const { gainUp, phase } = marginsOf(at(loops, 1), { ...tune, p: 1.2 * tune.p, d: 1.2 * tune.d });
    expect((gainUp ?? 0) < 10 || (phase ?? 0) < 55).toBe(true);
  });
});
