// What the first screen says and draws of ground to avoid.
import { describe, expect, it } from "vitest";
import { avoidStripSvg } from "../../src/charts/avoid-strip.js";
import type { StabilityMap } from "../../src/map/format.js";
import { avoidWords } from "../../src/words/avoid-words.js";
import { fixture, withoutStart, withScale } from "./fixture.js";

const map = fixture(16);
const plain = (text: string) => text.replaceAll("\u00a0", " ");
const limited = (limit: string, factor: number): StabilityMap => {
  const { roll, pitch } = map.axes;
  if (roll.start === null) throw new Error("no start");
  const start = { ...roll.start, room: { ...roll.start.room, pUp: { ...roll.start.room.pUp, limit, factor } } };
  return { ...map, axes: { roll: { ...roll, start }, pitch } };
};
const texts = (svg: string | null): string[] =>
  [...(svg ?? "").matchAll(/>([^<>]+)<\/text>/g)].map(([, text = ""]) => text);

describe("avoid", () => {
  it("names the end of the margin first, then from where the oscillation stays", () => {
    expect(plain(avoidWords(limited("phase margin", 1.5), "roll"))).toMatch(
      /^At D 2\.94, above P 30\.9 the margin shrinks \(phase margin under 45°\); from P 51\.\d up the oscillation does not die out/,
    );
    expect(plain(avoidWords(withScale(limited("gain margin", 1.25)), "roll"))).toMatch(
      /^At D 5880, above P 6440 the margin shrinks \(gain margin under 6 dB\); from P 1[23]\d00 up/,
    );
  });

  it("draws both along P, with the numbers of the words and the start", () => {
    const shown = texts(avoidStripSvg(limited("phase margin", 1.5), "roll"));
    expect(shown).toEqual(expect.arrayContaining(["safe", "margin shrinks", "never fly", "30.9", "start 20.6"]));
    expect(shown.some((text) => /^51\.\d$/.test(text))).toBe(true);
    expect(texts(avoidStripSvg(withScale(limited("phase margin", 1.5)), "roll"))).toContain("start 5150");
  });

  it("draws nothing where there is no start to stand against it", () => {
    expect(avoidStripSvg(withoutStart(map, "roll", "None."), "roll")).toBeNull();
  });
});
