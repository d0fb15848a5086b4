// The page of a sweep's changes, drawn again from the files that the sweep wrote.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { canonicalJson } from "../../src/base/canonical.js";
import { sealed } from "../../src/base/seal.js";
import type { Effects } from "../../src/compare/effect-format.js";
import { effectFiles } from "../../src/flow/paths.js";
import { readEffects } from "../../src/flow/read-effects.js";
import { writeEffects } from "../../src/flow/write-effects.js";
import type { StabilityMap } from "../../src/map/format.js";
import { run } from "../cli/command.js";
import { changesMap } from "../fixtures/changes-map.js";
import { complaintsOf } from "../fixtures/complaints.js";

const folder = mkdtempSync(join(tmpdir(), "gainscape-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const { effects: file, effectsPage: page } = effectFiles(folder);

let asItIs: StabilityMap;
let effects: Effects;
let drawn: string;
beforeAll(async () => {
  const made = await changesMap();
  asItIs = made.asItIs;
  effects = made.changed.effects;
  await writeEffects(made.changed, asItIs, folder);
  writeFileSync(join(folder, "map.json"), canonicalJson(sealed(asItIs)));
  drawn = readFileSync(page, "utf8");
}, 60_000);

describe("gainscape report", () => {
  it("draws effects.html again from effects.json and map.json, byte by byte", async () => {
    expect(drawn).toContain('<h2 id="findings">What each of them does</h2>');
    rmSync(page);
    const { code, stdout, stderr } = await run("report", folder);
    expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
    expect(stdout).toContain(`Changes: ${page}\n`);
    expect(readFileSync(page, "utf8")).toBe(drawn);
  });

  it("says nothing of changes where the sweep had none", () => {
    expect(readEffects(join(folder, "elsewhere"), asItIs)).toBe(null);
  });
});

describe("effects.json", () => {
  const spoilt = (change: (copy: Effects) => void): string[] => {
    const copy = structuredClone(effects);
    change(copy);
    writeFileSync(file, canonicalJson(sealed(copy)));
    const complaints = complaintsOf(() => readEffects(folder, asItIs));
    writeFileSync(file, canonicalJson(sealed(effects)));
    return complaints.map((line) => line.slice(folder.length));
  };

  it("is read back as it was written", () => {
    expect(readEffects(folder, asItIs)).toEqual(effects);
  });

  it("is refused where it was changed, with one line", () => {
    writeFileSync(file, canonicalJson({ ...sealed(effects), command: "another" }));
    expect(complaintsOf(() => readEffects(folder, asItIs))).toEqual([
      expect.stringMatching(/effects\.json seal: broken, .*simulate the sweep again$/),
    ]);
    writeFileSync(file, canonicalJson(sealed(effects)));
  });

  it("is refused beside another map", () => {
    expect(spoilt((copy) => Object.assign(copy, { planDigest: "0" }))).toEqual([
      expect.stringMatching(/effects\.json planDigest: not that of the map beside it/),
    ]);
  });

  it("is refused where a key is of another shape, or a map contradicts itself, at its place", () => {
    expect(spoilt((copy) => Object.assign(copy, { delayFrequency: "fast" }))).toEqual([
      expect.stringMatching(/effects\.json delayFrequency: expected a number/),
    ]);
    const backwards = ({ effects: [first] }: Effects): void => {
      const lines = (first?.found?.map.axes.roll.grid.p ?? []) as number[];
      lines.reverse();
    };
    expect(spoilt(backwards)).toEqual([expect.stringMatching(/effects\.json axes\.roll\.grid\.p: does not rise/)]);
  });
});
