import { describe, expect, it } from "vitest";
import { renderDriftMarkdown, renderDriftTable, renderJunit } from "../../../src/report/index.js";
import { base, driftOf, tunedElsewhere, unpinned, worse } from "./drifts.js";

const plain = (text: string): string => text.replaceAll("\u00a0", " ");
const [same, regression] = [driftOf(base(), base()), driftOf(base(), worse())];

describe("the table for a terminal", () => {
  it("says the decision first, then the pinned tune", () => {
    expect(plain(renderDriftTable(same))).toMatch(
      /^Sandpiper r1 → r1, First tune: No regression\.\nP in % per 100 °\/s, D in % per 1000 °\/s²\.\nRoll: the pinned tune still holds, P 21, D 3\.\n/,
    );
    const text = plain(renderDriftTable(regression));
    expect(text).toMatch(
      /^Sandpiper r1 → r2, First tune: Regression: \d+ gates failed\.\nP in .*\nRoll: do not fly the pinned tune, P 21, D 3: ringing \(roll-stop at 500 °\/s, 80 % throttle, fresh pack\)\. Set instead P 20\.6 \(× 0\.981\), D 2\.94 \(× 0\.98\);/,
    );
    expect(text).toContain("Roll, pinned P 21, D 3: No longer safe.");
    expect(text).toContain("gain margin upwards 8.2 dB → 4.4 dB");
    expect(text).toContain("oscillation from P 50 → 34");
  });

  it("has a line per gate and axis with what was seen and what is allowed", () => {
    const lines = plain(renderDriftTable(regression)).split("\n");
    const row = lines.find((line) => line.startsWith("Sustained boundary holds") && line.includes(" roll "));
    expect(row).toMatch(/falls 10 % at D [\d.]+ +a fall up to 5 % +FAILED$/);
    expect(lines.filter((line) => / (passed|FAILED|skipped)$/.test(line))).toHaveLength(10);
  });

  it("says at how much of D the boundary was judged, in every form, and which share of the gates", () => {
    const some = structuredClone(same);
    for (const result of some.gates as unknown as Record<string, unknown>[])
      if (result.gate === "boundaryFall")
        Object.assign(
          result,
          result.axis === "roll"
            ? { judgedLines: { lines: 1, of: 14 } }
            : {
                outcome: "skipped",
                skipReason: "no boundary in the grid",
                value: null,
                judgedLines: { lines: 0, of: 14 },
              },
        );
    const table = plain(renderDriftTable(some));
    expect(table).toMatch(/No regression\. 1 of 10 gates not judged\.\n/);
    expect(table).toMatch(/^Roll: sustained boundary .*; judged at 1 of 14 D$/m);
    expect(table).toMatch(/^Pitch: sustained boundary .*; judged at 0 of 14 D$/m);
    const markdown = plain(renderDriftMarkdown(some));
    expect(markdown).toContain("| Boundary, judged at | 1 of 14 D | 0 of 14 D |");
    expect(markdown).toContain("> 1 of 10 gates not judged.");
    const junit = renderJunit([some]);
    for (const [axis, judged] of [
      ["roll", "1 of 14 D"],
      ["pitch", "0 of 14 D"],
    ])
      expect(junit).toContain(`<property name="${axis}: Sustained boundary holds, judged at" value="${judged}"/>`);
    expect(plain(renderDriftTable(same))).toMatch(/; judged at (all|\d+ of) 14 D$/m);
  });

  it("says how far the starting tune and the safe ground moved, with signs", () => {
    const moved = driftOf(base(), tunedElsewhere());
    const text = plain(renderDriftTable(moved));
    expect(text).toMatch(/starting tune P [\d.]+, D [\d.]+ → P [\d.]+, D [\d.]+ \(P −10 %, D \+20 %\)/);
    expect(plain(renderDriftTable(regression))).toMatch(/gained\), −\d+(\.\d)? %; verdicts/);
    const markdown = plain(renderDriftMarkdown(moved));
    expect(markdown).toMatch(/^\| Starting tune \| .* \(P −10 %, D \+20 %\) \| /m);
    expect(plain(renderDriftMarkdown(regression))).toMatch(/^\| Safe points \| .*gained\), −\d+(\.\d)? % \|/m);
    expect(markdown).toContain("First tune (first-tune). P in % per 100 °/s, D in % per 1000 °/s².");
  });

  it("lets no text from a file reach the terminal as a command", () => {
    const text = renderDriftTable(driftOf(base(), worse("\u001b[2J\u202eSand\npiper")));
    expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e]/);
  });
});

describe("the Markdown for a job page", () => {
  it("begins with the decision, and marks what failed", () => {
    const text = plain(renderDriftMarkdown(regression));
    expect(text).toMatch(/^## Sandpiper r1 → r2: Regression: \d+ gates failed\n/);
    expect(text).toContain("| Pinned tune stays safe | roll | no longer safe | stays safe | **FAILED** |");
    expect(text).toContain("| controller.latency | 1 ms | 2 ms |");
    expect(renderDriftMarkdown(same)).not.toContain("**FAILED**");
  });

  it("has as many cells in every row as its head", () => {
    for (const table of renderDriftMarkdown(regression).match(/(?:^\|.*\|$\n?)+/gm) ?? []) {
      const cells = table
        .trimEnd()
        .split("\n")
        .map((line) => line.replace(/\\\|/g, "").split("|").length);
      expect(new Set(cells).size).toBe(1);
    }
  });

  it("takes any text from a file as text", () => {
    const hostile = 'x|y `z` *w* [l](u) <img src=x onerror=1> # \\ &amp; "q"';
    const text = renderDriftMarkdown(driftOf(base(), worse(hostile)));
    const [head = ""] = text.split("\n");
    expect(head).not.toMatch(/<|(?<!\\)[|`*[\]]/);
    expect(head).toContain("&lt;img");
  });

  it("says so where no tune is pinned", () => {
    expect(renderDriftMarkdown(driftOf(unpinned(), unpinned()))).toContain("**Roll**: no pinned tune.");
  });
});
