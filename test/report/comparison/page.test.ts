import { createHash } from "node:crypto";
import { beforeAll, describe, expect, it } from "vitest";
import { MAP_GATES } from "../../../src/base/gates.js";
import { renderComparison } from "../../../src/report/index.js";
import { base, driftOf, unpinned, worse } from "./drifts.js";

const page = async (from = base(), to = worse()): Promise<string> =>
  (await renderComparison({ drift: driftOf(from, to), base: from, candidate: to })).replaceAll("\u00a0", " ");
const all = (text: string, pattern: RegExp): string[] =>
  [...text.matchAll(pattern)].map((found) => found[1] ?? found[0]);

let shown = "";
beforeAll(async () => {
  shown = await page();
});

describe("the comparison page", () => {
  it("says first whether the pinned tune is still safe", () => {
    const first = shown.indexOf('class="state bad">No longer safe');
    expect(first).toBeGreaterThan(0);
    for (const later of ["Gate by gate", "What moved", "Both maps", "What changed in the model"])
      expect(shown.indexOf(`>${later}</h2>`)).toBeGreaterThan(first);
    expect(shown).toMatch(/<tr><th scope="row">Gain margin upwards<\/th><td>8\.2 dB<\/td><td>4\.4 dB<\/td><\/tr>/);
    expect(shown).toContain(
      "<dt>Why</dt><dd>Ringing (hard stop from a roll at 500 °/s, 80 % throttle, fresh pack).</dd>",
    );
  });

  it("shows every gate with both axes, what it allows and why it stands", () => {
    for (const { title, why } of MAP_GATES)
      expect(
        shown.includes(`<th scope="row">${title} <small>${why.replaceAll("'", "&#39;")}</small></th>`),
        title,
      ).toBe(true);
    expect(all(shown, /class="text gate (pass|fail|skipped)"/g)).toHaveLength(2 * MAP_GATES.length);
    expect(shown).toMatch(/✕<\/span> FAILED<\/b> <small>falls 10 % at D/);
  });

  it("draws shift, change and both maps for each axis, with a text for every picture", () => {
    expect(all(shown, /<figure class="axis-map">\s*<h3>(.*?)<\/h3>/g)).toEqual([
      "Roll: the boundary moves by −10 %",
      expect.stringMatching(/^Roll: \d+ safe points lost, 0 gained$/),
      "Pitch: the boundary moves by −10 %",
      expect.stringMatching(/^Pitch: \d+ safe points lost, 0 gained$/),
      ...["Roll", "Roll", "Pitch", "Pitch"].map((axis, k) =>
        expect.stringMatching(
          new RegExp(`^${axis}: [\\d.]+ % of the swept points are safe, Sandpiper r${1 + (k % 2)}$`),
        ),
      ),
    ]);
    expect(all(shown, /<svg [^>]*>/g).every((svg) => svg.includes('aria-hidden="true"'))).toBe(true);
    expect(all(shown, /role="img" aria-label="([^"]*)"/g).every((label) => label.length > 30)).toBe(true);
    expect(shown).toContain("gate: a fall of 5 %");
  });

  it("draws both maps at the same scales", () => {
    const [before = "", now = ""] = all(
      shown,
      /<h3>Roll: [^<]*, Sandpiper r\d<\/h3>\s*<div class="wide"[^>]*>(.*?)<\/div>/gs,
    );
    const numbers = (svg: string) => all(svg, /<text[^>]*>(\d[\d.]*)<\/text>/g);
    expect(numbers(before).length).toBeGreaterThan(8);
    expect(numbers(now)).toEqual(numbers(before));
  });

  it("lists the model key by key, both digests and the command", () => {
    expect(shown).toContain("<code>controller.latency</code></th><td>1 ms</td><td>2 ms</td>");
    expect(all(shown, new RegExp("3f1c".repeat(16), "g"))).toHaveLength(2);
    expect(shown).toContain("gainscape compare a b");
  });

  it("has one h1, skips no heading level, gives every id once and every link a target", () => {
    expect(all(shown, /<h1>(.*?)<\/h1>/g)).toEqual(["Sandpiper r1 → r2"]);
    const levels = all(shown, /<h([1-6])[ >]/g).map(Number);
    for (let k = 1; k < levels.length; k++) expect(levels[k]).toBeLessThanOrEqual((levels[k - 1] ?? 0) + 1);
    const ids = all(shown, / id="([^"]+)"/g);
    expect(new Set(ids).size).toBe(ids.length);
    for (const target of all(shown, /href="#([^"]+)"/g)) expect(ids).toContain(target);
    for (const name of all(shown, /aria-labelledby="([^"]+)"/g)) expect(ids).toContain(name);
    expect(all(shown, /<th(?! scope=)[ >]/g)).toEqual([]);
  });
});

describe("the comparison page as a file", () => {
  it("allows its one style sheet by hash and nothing else, and is the same bytes every time", async () => {
    const raw = await renderComparison({ drift: driftOf(base(), worse()), base: base(), candidate: worse() });
    const [style = "", ...others] = all(raw, /<style>([\s\S]*?)<\/style>/g);
    const [policy = ""] = all(raw, /http-equiv="Content-Security-Policy" content="([^"]*)"/g);
    expect(others).toEqual([]);
    expect(policy).toContain(createHash("sha256").update(style).digest("base64"));
    expect(raw).not.toMatch(/<script|<link rel="stylesheet|src="http| style="/);
    expect(raw.replaceAll("\u00a0", " ")).toBe(shown);
  });

  it("takes any text from a file as text", async () => {
    const hostile = await page(base(), worse('<img src=x onerror="1">\u001b[2J\u202e'));
    expect(hostile).not.toContain("<img");
    expect(hostile).toContain("&lt;img");
    expect(hostile).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u202a-\u202e]/);
  });
});

describe("where there is nothing to tell", () => {
  it("says that nothing changed", async () => {
    const same = await page(base(), base());
    expect(same).toContain('class="outcome pass">No regression');
    expect(same).toContain('class="state good">Still safe');
    expect(same).toContain("Nothing: both sides are the same craft.");
  });

  it("lets the starting tune stand in where no tune is pinned", async () => {
    const bare = await page(unpinned(), unpinned());
    expect(bare).toContain("No tune is pinned");
    expect(bare).toContain("Yesterday&#39;s starting tune is still safe.");
    expect(all(bare, /class="text gate skipped"/g)).toHaveLength(2);
  });
});
