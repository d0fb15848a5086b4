import { describe, expect, it } from "vitest";
import { GAIN_UNITS } from "../../src/map/display-units.js";
import type { FirstAnswer, FirstStart } from "../../src/map/first-answer.js";
import type { StabilityMap } from "../../src/map/format.js";
import { againstFirstLines, firstAnswerLines } from "../../src/words/first-answer-words.js";

const START: FirstStart = {
  p: 8,
  d: 0.5,
  own: null,
  margins: { gainUp: 10.2, gainDown: null, phase: 57.4 },
  enough: true,
  boundary: {
    lowest: { p: 40, throttle: 70, condition: "fresh pack" },
    highest: { p: 60, throttle: 33.9, condition: "tired pack" },
  },
};

const answer = (roll: FirstStart | null, pitch: FirstStart | null = null): FirstAnswer => ({
  airframe: { name: "Plover", version: "r1" },
  sweep: { name: "test" },
  units: GAIN_UNITS,
  roll,
  pitch,
});

const rollLine = (start: FirstStart, own: Parameters<typeof firstAnswerLines>[1] = null) =>
  firstAnswerLines(answer(start), own)[1]?.replaceAll("\u00a0", " ");

describe("theory's first answer in words", () => {
  it("says first that it is an estimate, and where there is no start", () => {
    const [lead, , pitch] = firstAnswerLines(answer(START), null);
    expect(lead).toBe("By theory alone, an estimate that the trials now check and not yet a tune to fly:");
    expect(pitch).toBe("Pitch: no P and D keep even 1 dB and 10°.");
  });

  it("gives our units where the model does not say what its controller's numbers are worth", () => {
    expect(rollLine(START)).toBe(
      "Roll: start near P 8 % per 100 °/s, D 0.5 % per 1000 °/s², with margins of 10.2 dB and 57°; at this D the oscillation no longer dies out from P 40 up (70 % throttle, fresh pack; elsewhere up to P 60).",
    );
  });

  it("gives the controller's own numbers first where it does", () => {
    const line = rollLine(START, { p: 250, i: null, d: 2000, yaw: null });
    expect(line).toContain("start near P 2000 (8 % per 100 °/s), D 1000 (0.5 % per 1000 °/s²)");
    expect(line).toContain("from P 10000 up (70 % throttle, fresh pack; elsewhere up to P 15000).");
  });

  it("says where margins are less than the sweep asks for, and where no level or not every one gives out", () => {
    expect(rollLine({ ...START, enough: false })).toContain("10.2 dB and 57°, less than the sweep asks for; ");
    const one = { ...START.boundary, highest: null };
    expect(rollLine({ ...START, boundary: one })).toContain("(70 % throttle, fresh pack; not at all at some level)");
    const none = { lowest: null, highest: null };
    expect(rollLine({ ...START, boundary: none })).toMatch(
      /; no P near it makes an oscillation that does not die out\.$/,
    );
  });
});

describe("theory's first answer against the trials", () => {
  const map = (roll: object | null, pitch: object | null) =>
    ({ axes: { roll: { start: roll }, pitch: { start: pitch } } }) as unknown as StabilityMap;
  const against = (first: FirstAnswer, roll: object | null, pitch: object | null) =>
    againstFirstLines(first, map(roll, pitch)).map((line) => line.replaceAll("\u00a0", " "));

  it("says how far each gain was off, in parts of the simulated one", () => {
    expect(against(answer(START, START), { p: 10, d: 0.4 }, { p: 8, d: 0 })).toEqual([
      "Theory alone had said: roll P 20 % lower, D 25 % higher; pitch P the same, D above 0.",
    ]);
  });

  it("takes a start back where the trials find none that is safe", () => {
    expect(against(answer(START, START), null, { p: 8, d: 0.5 })).toEqual([
      "Theory’s first start of roll is withdrawn: the trials find none that is safe.",
      "Theory alone had said: pitch P the same, D the same.",
    ]);
  });

  it("has nothing to say where theory had no start", () => {
    expect(against(answer(null), { p: 8, d: 0.5 }, null)).toEqual([]);
  });
});
