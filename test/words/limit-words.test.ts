import { describe, expect, it } from "vitest";
import type { LimitRoom, StartingTune } from "../../src/map/format.js";
import { limitingCaseWords, limitWords, rangeWords, reach, SIDES, tightest } from "../../src/words/limit-words.js";
import { fixture } from "../report/fixture.js";

const map = fixture(8);
const start = map.axes.roll.start as StartingTune;
const plain = (text: string) => text.replaceAll("\u00a0", " ");
const side = (key: (typeof SIDES)[number]["key"]) => SIDES.find((one) => one.key === key) as (typeof SIDES)[number];
const free: LimitRoom = { limit: "grid edge", decidedBy: null, factor: null };
const withRoom = (room: Partial<StartingTune["room"]>): StartingTune => ({
  ...start,
  room: { ...start.room, ...room },
});

describe("limits in words", () => {
  it.each([
    ["overshoot", "bounce-back over 15 %"],
    ["Bounce-back", "bounce-back over 15 %"],
    ["wobbleAngle", "wobble angle over 4° rms"],
    ["damping", "damping ratio"],
    ["gain margin", "gain margin under 6 dB"],
    ["phase margin", "phase margin under 45°"],
    ["grid edge", "the edge of the swept range"],
  ])("says %s as: %s", (limit, words) => {
    expect(plain(limitWords(map, limit))).toBe(words);
  });

  it("names who decided by the script's title, its rate, throttle and condition", () => {
    const who = { script: "hover-noise", throttle: 32, rate: 0, condition: "tired pack" };
    expect(plain(limitingCaseWords(map, who))).toBe("Hover noise, 32 % throttle, tired pack");
    expect(plain(limitingCaseWords(map, { ...who, script: "unheard-of", rate: 400 }))).toBe(
      "unheard-of at 400 °/s, 32 % throttle, tired pack",
    );
  });
});

describe("room on a side", () => {
  it("reaches as far as the factor says, upwards and downwards", () => {
    expect(reach(withRoom({ pUp: { ...free, factor: 1.5 } }), side("pUp"))).toBeCloseTo(start.p * 1.5, 12);
    expect(reach(withRoom({ dDown: { ...free, factor: 0.5 } }), side("dDown"))).toBeCloseTo(start.d / 2, 12);
    expect(reach(withRoom({ dDown: free }), side("dDown"))).toBeNull();
  });

  it("is tightest where the factor is nearest to one, whichever way it goes", () => {
    const near = withRoom({
      pUp: { ...free, factor: 1.5 },
      pDown: { ...free, factor: 0.8 },
      dUp: { ...free, factor: 1.3 },
      dDown: free,
    });
    expect(tightest(near)?.side.key).toBe("pDown");
    expect(tightest(withRoom({ pUp: free, pDown: free, dUp: free, dDown: free }))).toBeNull();
  });

  it("runs down to zero where nothing is met on the way", () => {
    expect(rangeWords(null, withRoom({ dUp: { ...free, factor: 2 }, dDown: free }), "d")).toBe("0 to 5.88");
  });
});
