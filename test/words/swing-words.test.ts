import { describe, expect, it } from "vitest";
import { swingOf, swingWords } from "../../src/words/swing-words.js";

describe("the words for a swing", () => {
  it.each([
    [4, 3, 2, "wide and slow"],
    [2.01, 3.99, 2, "wide and slow"],
    [2, 4, 2, "moderate and brisk"],
    [1.01, 7.99, 2, "moderate and brisk"],
    [1, 8, 2, "small and fast"],
    [0.3, 16, 2, "small and fast"],
    [2.5, 5, 3, "moderate and brisk"],
  ] as const)("%f deg at %f Hz against %f deg: %s", (angle, frequency, limit, words) => {
    expect(swingWords(swingOf(angle, frequency, limit))).toBe(words);
  });

  it("a swing too slow to be counted is slow, and 2 deg stand in for a limit that is not there", () => {
    expect(swingWords(swingOf(2.1, null, null))).toBe("wide and slow");
    expect(swingWords(swingOf(1.9, null, null))).toBe("moderate and slow");
  });
});
