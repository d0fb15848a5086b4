// Maps and baselines under their seal: no bit of them can change without being seen, or it changes nothing that is said.
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { canonicalJson, lineJson } from "../../src/base/canonical.js";
import { InputError } from "../../src/base/problem.js";
import { stream } from "../../src/base/random.js";
import { sealed } from "../../src/base/seal.js";
import { baselineOf } from "../../src/compare/baseline.js";
import { compareMaps } from "../../src/compare/compare.js";
import { readMap } from "../../src/flow/read-map.js";
import type { StabilityMap } from "../../src/map/format.js";
import { renderCard, renderPage, renderSummary } from "../../src/report/index.js";
import { tinyMap } from "../run/tiny-map.js";

const FLIPS = 400; // of each file

const folder = mkdtempSync(join(tmpdir(), "gainscape-seal-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const file = join(folder, "map.json");

const map = await tinyMap();

function reading(content: string | Uint8Array, unsealed = false): StabilityMap {
  writeFileSync(file, content);
  return readMap(file, { unsealed });
}

const FILES = [
  ["map.json", `${canonicalJson(sealed(map))}\n`],
  ["a baseline", `${lineJson(sealed(baselineOf(map)))}\n`],
] as const;

describe.each(FILES)("%s", (_, text) => {
  const intact = reading(text);

  it("reads back as it was written, and says nothing of its seal", () => {
    expect(intact.unsealed).toBe(undefined);
    expect(intact).not.toHaveProperty("seal");
  });

  it("with any single bit flipped is refused, or says the same", () => {
    const random = stream(20261128, "flips");
    const bytes = Buffer.from(text);
    const same = canonicalJson(intact);
    let refused = 0;
    for (let k = 0; k < FLIPS; k++) {
      const bit = random.next() % (8 * bytes.length);
      const flipped = Buffer.from(bytes);
      flipped[bit >> 3] ^= 1 << (bit & 7);
      try {
        expect([bit, canonicalJson(reading(flipped))]).toEqual([bit, same]);
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
        expect(error.problems).toHaveLength(1);
        refused++;
      }
    }
    expect(refused).toBeGreaterThan(0.9 * FLIPS);
  });

  it("formatted anew is still valid", () => {
    expect(reading(JSON.stringify(JSON.parse(text), null, 2))).toEqual(intact);
  });

  it("without its seal, or with another one, is refused in a line that says what to do", () => {
    const { seal, ...bare } = JSON.parse(text);
    expect(() => reading(JSON.stringify(bare))).toThrow(/^\S+ seal: missing, [^\n]* --unsealed$/);
    const other = seal.replace(/^./, (digit: string) => (digit === "0" ? "1" : "0"));
    expect(() => reading(JSON.stringify({ ...bare, seal: other }))).toThrow(/^\S+ seal: broken, [^\n]* --unsealed$/);
    expect(() => reading(text.replace(/"provenance"/, '"x":1e999,"provenance"'))).toThrow(/seal: broken/);
    expect(() => reading(text.replace(/"provenance"/, '"x":1e999,"provenance"'), true)).toThrow(/seal: broken/);
  });

  it("edited on purpose is taken unsealed, and is marked for good", () => {
    const edited = reading(text.replace(/("safeShare": ?|"start": ?)/, '"later":1,$1'), true);
    expect(edited.unsealed).toBe(true);
    expect(reading(canonicalJson(sealed(edited))).unsealed).toBe(true);
    const drift = compareMaps(edited, intact, { productVersion: "0", command: "" });
    expect(drift).toMatchObject({ outcome: "pass", notes: [expect.stringMatching(/^The base was changed by hand/)] });
    expect(reading(text, true).unsealed).toBe(undefined); // nothing is wrong with it
  });
});

describe("a map that was taken unsealed", () => {
  it("says so on page, card and terminal; a sealed one never does", async () => {
    const drawn = async (one: StabilityMap) => [await renderPage(one), await renderCard(one), renderSummary(one)];
    for (const text of await drawn({ ...map, unsealed: true })) expect(text).toContain("its seal is broken");
    for (const text of await drawn(map)) expect(text).not.toContain("seal");
  });
});
