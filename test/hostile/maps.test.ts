// Malformed map.json files and baselines: refused, or drawn and compared without harm.
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { canonicalJson, lineJson } from "../../src/base/canonical.js";
import { sealed } from "../../src/base/seal.js";
import { baselineOf } from "../../src/compare/baseline.js";
import { type Comparison, compare } from "../../src/flow/compare.js";
import { readFullMap, readMap } from "../../src/flow/read-map.js";
import type { StabilityMap } from "../../src/map/format.js";
import {
  renderCard,
  renderComparison,
  renderCsv,
  renderDriftMarkdown,
  renderDriftTable,
  renderJunit,
  renderPage,
  renderSummary,
} from "../../src/report/index.js";
import { redigested } from "../compare/remade.js";
import { tinyMap } from "../run/tiny-map.js";
import { cut, cuts, edited, edits, MARKUP, triedSlowly } from "./cases.js";
import { expectReadable, usedOrRefused } from "./outcome.js";

const intact = await tinyMap();

const folder = mkdtempSync(join(tmpdir(), "gainscape-hostile-"));
const file = join(folder, "map.json");
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let base: StabilityMap;
beforeAll(() => {
  writeFileSync(file, canonicalJson(sealed(intact)));
  base = readMap(file);
});

/** Every so many maps that were taken are drawn as pages as well, which takes its time. */
const PAGES = 20;
let taken = 0;

async function drawn(content: string): Promise<void> {
  writeFileSync(file, content);
  const map = usedOrRefused(() => readMap(file, { unsealed: true }));
  if (map === null) return;
  const pages = taken++ % PAGES === 0;
  expectReadable(renderSummary(map));
  expectPlainCells(renderCsv(map));
  const asFullMap = pages ? usedOrRefused(() => readFullMap(file, { unsealed: true })) : null;
  if (asFullMap !== null)
    for (const page of [await renderPage(asFullMap), await renderCard(asFullMap)]) expectNoMarkup(page);
  for (const [from, to] of [
    [base, map],
    [map, base],
  ] as const) {
    const comparison = usedOrRefused(() =>
      compare({ name: "base", map: from }, { name: "other", map: to }, { command: "c" }),
    );
    if (comparison !== null) await compared(comparison, pages);
  }
  usedOrRefused(() => JSON.parse(lineJson(baselineOf(map))));
}

async function compared(comparison: Comparison, pages: boolean): Promise<void> {
  expectReadable(renderDriftTable(comparison.drift));
  expectNoMarkup(renderDriftMarkdown(comparison.drift));
  const junit = renderJunit([comparison.drift]);
  expectNoMarkup(junit);
  // XML 1.0 has no place for these, escaped or not.
  expect(junit).not.toMatch(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|&#(0|[1-8]|1[0-9]|2[0-9]|3[01]);/);
  if (pages) expectNoMarkup(await renderComparison(comparison));
}

function expectNoMarkup(text: string): void {
  if (text.includes(MARKUP))
    throw new Error(`markup got through: ${text.slice(text.indexOf(MARKUP) - 200).slice(0, 400)}`);
  if (/<img src=x/.test(text)) throw new Error("an image got through");
}

function expectPlainCells(csv: string): void {
  for (const [, cell = ""] of csv.matchAll(/(?:^|,|\n)("(?:[^"]|"")*"|[^",\r\n]*)/g)) {
    const text = cell.replace(/^"|"$/g, "").replaceAll('""', '"');
    if (/^[=+@\t\r-]/.test(text) && !/^-?\d+(\.\d+)?(e[+-]?\d+)?$/.test(text))
      throw new Error(`a formula: ${text.slice(0, 80)}`);
  }
}

describe("a map", () => {
  it("as it was written is drawn and compared", () => drawn(canonicalJson(sealed(intact))));

  it("whose values are hostile is refused, or drawn and compared", () =>
    triedSlowly(0.3, edits, (list) => drawn(JSON.stringify(redigested(edited(intact, list))) ?? "")));

  it("whose text is hostile is refused, or drawn and compared", () =>
    triedSlowly(0.1, cuts, (list) => drawn(cut(canonicalJson(intact), list))));

  it("with one text of each kind replaced by markup, controls and formulas", async () => {
    const texts = ["<script>alert(1)</script>", "\u001b[2J\u0000\u202e", "=1+1", "x".repeat(10_000), "\ud800"];
    const keep = new Set(["format"]);
    const before = taken;
    for (const text of texts) {
      const swapped = JSON.stringify(intact, (key, value) =>
        typeof value === "string" && !keep.has(key) && !/^[0-9a-f]{64}$/.test(value) && !KNOWN.has(value)
          ? text
          : value,
      );
      await drawn(JSON.stringify(named(swapped, text)));
    }
    expect(taken - before).toBe(texts.length);
  });
});

/** What must be the same in two places of a map for it to be read: units, the condition's name, the digests. */
function named(swapped: string, condition: string): unknown {
  const map = JSON.parse(swapped);
  map.units = intact.units;
  map.hover = Object.fromEntries([[condition, Object.values(map.hover)[0]]]);
  return redigested(map);
}

/** Words the format itself is made of. */
const KNOWN = new Set(
  "gainscape p d roll pitch sustained hot ringing loose clean never always stop blip wobble hover nudge climb check duty level idle rate share speed ratio pulse turbulence".split(
    " ",
  ),
);

describe("a baseline", () => {
  const baseline = JSON.parse(lineJson(baselineOf(intact)));

  it("as it was written is compared", () => drawn(JSON.stringify(baseline)));

  it("whose values are hostile is refused, or compared", () =>
    triedSlowly(0.2, edits, (list) => drawn(JSON.stringify(redigested(edited(baseline, list))) ?? "")));

  it("of any JSON is refused", () => triedSlowly(0.05, fc.jsonValue(), (value) => drawn(JSON.stringify(value))));
});
