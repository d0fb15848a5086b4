// A comparison of two versions of one craft in the numbers its pilot types, in each of its three forms.
import { describe, expect, it } from "vitest";
import { renderComparison, renderDriftMarkdown, renderDriftTable } from "../../../src/report/index.js";
import { withScale } from "../fixture.js";
import { base, driftOf, worse } from "./drifts.js";

const plain = (text: string) => text.replaceAll("\u00a0", " ").replaceAll("\\", "");
const [before, after] = [withScale(base()), withScale(worse())];
const drift = driftOf(before, after);

describe("a comparison where both models say the same of their controller", () => {
  it("has what the pilot types in the table and in Markdown, and what it is worth", () => {
    for (const text of [plain(renderDriftTable(drift)), plain(renderDriftMarkdown(drift))]) {
      expect(text).toContain("P and D are the controller’s own numbers: 1000 of P are 4 % per 100 °/s");
      expect(text).toContain("Roll, pinned P 5250, D 6000"); // 21 / 0.004, 3 / 0.0005
      expect(text.toLowerCase()).toMatch(/oscillation from p.*12500.*8500/); // 50 and 34 / 0.004
      expect(text).toContain("P 5150, D 5880");
    }
  });

  it("has ours beside them in small on the page", async () => {
    const page = plain(await renderComparison({ drift, base: before, candidate: after }));
    expect(page).toContain('Pinned at P 5250, D 6000 <small class="ours">21 % per 100 °/s, 3 % per 1000 °/s²</small>');
    expect(page).toMatch(/<th scope="col">D <small class="ours">% per 1000 °\/s²<\/small><\/th>/);
    expect(page).toMatch(/<th scope="row">18000 <small class="ours">9<\/small><\/th>/); // the last D swept
    expect(page).toContain(">D (controller’s own, 10000 = 5 % per 1000 °/s²)</text>");
  });
});

it("keeps to our units where the two do not say the same", () => {
  const other = driftOf(before, withScale(worse(), { p: 1 }));
  expect(other.own).toBeNull();
  expect(plain(renderDriftTable(other))).toContain("P in % per 100 °/s, D in % per 1000 °/s².");
  expect(plain(renderDriftTable(other))).toContain("Roll, pinned P 21, D 3");
});
