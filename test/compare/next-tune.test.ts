// What to set now, from two maps: the tune of before, what rules it out, and the candidate's own start.
import { describe, expect, it } from "vitest";
import { MEASURES } from "../../src/base/measures.js";
import { nextTune } from "../../src/compare/next-tune.js";
import type { PinnedPoint, StabilityMap } from "../../src/map/format.js";
import { nextLine, nextWords } from "../../src/words/next-words.js";
import { base, driftOf, unpinned, worse } from "../report/comparison/drifts.js";

const plain = (text: string | null | undefined): string => (text ?? "").replaceAll("\u00a0", " ");

/** The base with other facts about its pinned tune on roll. */
function pinnedAs(change: Partial<PinnedPoint>): StabilityMap {
  const map = base();
  const { roll } = map.axes;
  if (roll.pinned === undefined) throw new Error("no pinned tune");
  return { ...map, axes: { ...map.axes, roll: { ...roll, pinned: { ...roll.pinned, safe: false, ...change } } } };
}

const CASE = { script: "roll-stop", throttle: 80, rate: 500, condition: "fresh pack" };
const reasonOf = (change: Partial<PinnedPoint>) => {
  const candidate = pinnedAs(change);
  const drift = driftOf(base(), candidate);
  return { reason: nextTune("roll", base(), candidate).reason, words: nextWords(drift, "roll", candidate.variants) };
};

describe("the tune of before", () => {
  it("holds where it is safe now, and nothing else is said", () => {
    const drift = driftOf(base(), base());
    expect(drift.axes.roll.next).toMatchObject({ before: { p: 21, d: 3, pinned: true }, holds: true, reason: null });
    expect(plain(nextLine(drift, "roll"))).toBe("Roll: the pinned tune still holds, P 21, D 3.");
  });

  it("is the base's start where no tune is pinned", () => {
    const map = unpinned();
    const { next } = driftOf(map, map).axes.roll;
    expect(next?.before).toEqual({ p: map.axes.roll.start?.p, d: map.axes.roll.start?.d, pinned: false });
    expect(next?.start?.pFactor).toBe(1);
  });
});

describe("what rules it out", () => {
  it("is the measure beyond its limit that argues for the verdict, with value, limit and manoeuvre", () => {
    const limit = base().limits.overshoot ?? MEASURES.find(({ id }) => id === "overshoot")?.limit ?? 0;
    const { reason, words } = reasonOf({
      verdict: "ringing",
      decidedBy: CASE,
      measures: { overshoot: limit + 7, heat: 1e9, settling: 1 },
    });
    expect(reason).toMatchObject({ title: "Bounce-back", value: limit + 7, limit, by: CASE });
    expect(plain(words?.reason)).toBe(
      `Bounce-back ${limit + 7} %, at most ${limit} % (hard stop from a roll at 500 °/s, 80 % throttle, fresh pack)`,
    );
  });

  it("is the oscillation, with the P from which it stays", () => {
    const { words } = reasonOf({
      verdict: "sustained",
      decidedBy: CASE,
      boundary: { d: 3, p: 18 },
    });
    expect(plain(words?.reason)).toBe(
      "The oscillation does not die out from P 18 up, the tune has P 21 (hard stop from a roll at 500 °/s, 80 % throttle, fresh pack)",
    );
  });

  it("is the margin that is shortest of what is wanted", () => {
    const { words } = reasonOf({ verdict: "clean", margins: { gainUp: 5, gainDown: null, phase: 30 } });
    expect(plain(words?.reason)).toBe("Phase margin 30°, at least 45°");
  });

  it("is the verdict and its trial alone where that trial has no value to show", () => {
    const { words } = reasonOf({ verdict: "loose", decidedBy: CASE, measures: {} });
    expect(plain(words?.reason)).toMatch(/^Loose \(hard stop from a roll/);
  });
});

describe("what to set instead", () => {
  it("is the candidate's start as values and factors of the tune of before", () => {
    const drift = driftOf(base(), worse());
    const { start } = worse().axes.roll;
    expect(drift.axes.roll.next?.start?.pFactor).toBeCloseTo((start?.p ?? 0) / 21, 11);
    expect(drift.axes.roll.next?.start?.dFactor).toBeCloseTo((start?.d ?? 0) / 3, 11);
    expect(plain(nextWords(drift, "roll")?.set)).toBe("P 20.6 (× 0.981), D 2.94 (× 0.98)");
  });

  it("comes with care where a gain rises, and without where none does", () => {
    const drift = driftOf(base(), worse());
    expect(nextWords(drift, "pitch")?.caution).toContain("small steps");
    expect(nextWords(drift, "roll")?.caution).toBeNull();
  });

  it("is nothing, and no flight, where the candidate has no start", () => {
    const map = worse();
    const none = { ...map, axes: { ...map.axes, roll: { ...map.axes.roll, start: null } } };
    expect(plain(nextLine(driftOf(base(), none), "roll"))).toMatch(/no starting tune: do not fly before it has\.$/);
  });
});
