import { describe, expect, it } from "vitest";
import { ABSENCES, MEASURE_IDS, type MeasureId } from "../../src/base/measures.js";
import { SCRIPT_KINDS, type ScriptKind } from "../../src/base/script-kinds.js";
import { emptyAnswers, type Question, type Recording } from "../../src/response/answer.js";
import { traceOf } from "../../src/response/reader.js";
import { divergedAt, evaluateTrial } from "../../src/response/respond.js";
import { sampled, secondOrder } from "./traces.js";

const PERIOD = 1 / 4000; // s
const DEGREES = 180 / Math.PI;
const STEPS = 8000; // 2 s

const question = (kind: ScriptKind, stop: Question["stop"] = null): Question => ({
  kind,
  period: PERIOD,
  command: new Float64Array(STEPS),
  window: { from: 800, to: 4000 },
  tail: { from: 4000, to: STEPS },
  stop,
  restHeat: 40,
});

const recording = (f: (t: number) => number): Recording => {
  const trace = sampled(f, 2, PERIOD);
  return {
    ...traceOf(trace),
    fastest: Math.max(...trace.map((rate) => rate * rate)), // as the loop keeps it, what is no number stays
    limited: 320,
    effort: { heat: 50, commandRms: 0.02 },
  };
};

function answers(question: Question, recorded: Recording) {
  const out = emptyAnswers();
  const outcome = evaluateTrial(question, recorded, out);
  const entries = MEASURE_IDS.map(
    (id, i) => [id, out.absent[i] === 0 ? out.values[i] : ABSENCES[out.absent[i]]] as const,
  );
  return { outcome, ...(Object.fromEntries(entries) as Record<MeasureId, number | string>) };
}

const NOT_SHOWN = "this script does not show it";
const shown = (all: Record<MeasureId, number | string>) => MEASURE_IDS.filter((id) => all[id] !== NOT_SHOWN);
const calm = (t: number) => 0.2 * Math.exp(-8 * t) * Math.sin(2 * Math.PI * 9 * t);

describe("what each kind of script shows", () => {
  const ALWAYS = ["growth", "oscillation", "limited"];

  it.each([
    ["nudge", ["ringFrequency"]],
    ["stop", ["overshoot", "settling", "rebounds", "ringFrequency", "damping", "rise"]],
    ["blip", ["kick", "recovery"]],
    ["wobble", ["wobbleAngle", "wobbleFrequency"]],
    ["hover", ["heat", "commandNoise"]],
  ] as const)("%s", (kind, own) => {
    const all = answers(question(kind, { from: 600, level: 9 }), recording(calm));
    expect([...shown(all)].sort()).toEqual([...ALWAYS, ...own].sort());
    expect(SCRIPT_KINDS[kind].measures).toEqual(own);
  });

  it("in the catalogue's units", () => {
    const hover = answers(question("hover"), recording(calm));
    expect(hover.heat).toBeCloseTo(50 / 40, 12);
    expect(hover.commandNoise).toBeCloseTo(2, 12); // %
    expect(hover.limited).toBeCloseTo(10, 12); // % of the window
    const cycling = answers(
      question("nudge"),
      recording((t) => 0.1 * Math.sin(2 * Math.PI * 12 * t)),
    );
    expect(cycling.oscillation as number).toBeGreaterThan(0.099 * DEGREES);
    expect(cycling.oscillation as number).toBeLessThan(0.11 * DEGREES);
    expect(cycling.ringFrequency).toBeCloseTo(12, 1);
    const wobble = answers(
      question("wobble"),
      recording((t) => 0.5 * Math.cos(2 * Math.PI * 10 * (t - 0.6))),
    );
    expect(wobble.wobbleAngle as number).toBeCloseTo((DEGREES * 0.5) / (2 * Math.PI * 10) / Math.SQRT2, 1);
    expect(wobble.wobbleFrequency).toBeCloseTo(10, 1);
  });

  it("a stop is read from the level it leaves", () => {
    const begun = 600 * PERIOD;
    const stop = (t: number) => -9 * (t < begun ? 1 : 1 - secondOrder(0.3, 80)(t - begun));
    const all = answers(question("stop", { from: 600, level: -9 }), recording(stop));
    expect(all.rise).toBeCloseTo((1000 * 1.3213) / 80, 1);
    expect(answers(question("stop"), recording(stop)).rise).toBe(NOT_SHOWN);
  });
});

describe("absence is a reason, never a number", () => {
  it.each([
    ["nothing", 0],
    ["rounding", 0.9e-7],
  ])("an axis that %s moved says nothing, and neither dies out nor sustains an oscillation", (_, rate) => {
    for (const kind of ["nudge", "stop", "blip", "wobble", "hover"] as const) {
      const still = answers(
        question(kind),
        recording((t) => rate * Math.sin(60 * t)),
      );
      expect(still.outcome).toBe("at rest");
      for (const id of MEASURE_IDS) expect(still[id]).toBe("the axis did not move");
    }
  });

  it("one that moved and came to rest dies out", () => {
    const calm = answers(
      question("nudge"),
      recording((t) => (t < 0.1 ? 1.1e-7 : 0)),
    );
    expect(calm).toMatchObject({ outcome: "dies out", growth: "no swing to measure" });
    expect(calm.ringFrequency).toBe("too few swings to count");
    expect(
      answers(
        question("wobble"),
        recording((t) => (t < 0.1 ? 1.1e-7 : 0)),
      ),
    ).toMatchObject({ wobbleAngle: 0, wobbleFrequency: "too few swings to count" });
  });

  it("growth is not read from a swing too slow for six half-cycles in the tail", () => {
    // Loses 6 % a second; from one and a half cycles of it the two windows read anything, by the phase of the swing.
    const slow = (phase: number) => (t: number) => 4 * Math.exp(-0.06 * t) * Math.sin(2 * Math.PI * 1.12 * t + phase);
    for (const phase of [0, 1, 2, 3]) {
      const all = answers(question("stop", { from: 600, level: 9 }), recording(slow(phase)));
      expect(all).toMatchObject({ outcome: "dies out", growth: "too few swings to count" });
      expect(all.oscillation as number).toBeGreaterThan(4); // deg/s: it still moves
    }
    const quick = answers(
      question("stop", { from: 600, level: 9 }),
      recording((t) => 4 * Math.exp(-1.5 * t) * Math.sin(2 * Math.PI * 9 * t)),
    );
    expect(quick.growth as number).toBeCloseTo(-1.5, 2);
  });

  it.each([
    ["runs away", (t: number) => (t < 1 ? 0 : 1e4)],
    ["becomes no number", (t: number) => (t < 1 ? 0 : Number.NaN)],
    ["becomes infinite", (t: number) => (t < 1 ? 0 : Number.NEGATIVE_INFINITY)],
  ])("a trace that %s has no measures at all", (_, f) => {
    const all = answers(question("stop", { from: 600, level: 9 }), recording(f));
    expect(all.outcome).toBe("diverged");
    for (const id of MEASURE_IDS) expect(all[id]).toBe("the trial diverged");
    expect(divergedAt(recording(f).trace)).toBe(4000);
  });

  it("a fast but finite rate is no divergence", () => {
    expect(divergedAt(Float64Array.of(0, -9999))).toBe(null);
    expect(
      answers(
        question("hover"),
        recording((t) => (t < 1 ? 0 : -9999)),
      ).outcome,
    ).not.toBe("diverged");
  });

  it("effort that was not summed", () => {
    expect(shown(answers(question("hover"), { ...recording(calm), effort: null }))).not.toContain("heat");
  });

  it("nothing is left of the trial before", () => {
    const out = emptyAnswers();
    evaluateTrial(question("hover"), recording(calm), out);
    evaluateTrial(question("blip"), recording(calm), out);
    const heat = MEASURE_IDS.indexOf("heat");
    expect([out.values[heat], ABSENCES[out.absent[heat]]]).toEqual([0, NOT_SHOWN]);
  });
});

describe("the outcome", () => {
  it("follows the tail", () => {
    expect(
      answers(
        question("stop"),
        recording((t) => Math.sin(2 * Math.PI * 9 * t)),
      ).outcome,
    ).toBe("sustained");
    expect(
      answers(
        question("stop"),
        recording((t) => (t < 1 ? Math.sin(2 * Math.PI * 9 * t) : 0)),
      ).outcome,
    ).toBe("dies out");
    expect(
      answers(
        question("nudge"),
        recording((t) => 1e-3 * Math.sin(2 * Math.PI * 9 * t)),
      ).outcome,
    ).toBe("sustained");
    expect(
      answers(
        question("stop"),
        recording((t) => 1e-3 * Math.sin(2 * Math.PI * 9 * t)),
      ).outcome,
    ).toBe("dies out");
  });
});
