// No character that cannot be seen or turns a line reaches a reader, by whatever way a text of a file comes to one.
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { canonicalJson } from "../../src/base/canonical.js";
import { name, words } from "../../src/base/fields.js";
import { escapedAsJson, holdsHidden } from "../../src/base/hidden.js";
import { printable } from "../../src/base/problem.js";
import { sealed } from "../../src/base/seal.js";
import { progressView } from "../../src/cli/progress.js";
import { compare } from "../../src/flow/compare.js";
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
import { emptyFolder, run } from "../cli/command.js";
import { tinyMap } from "../run/tiny-map.js";

// Controls: ISO/IEC 6429. Direction: UAX #9, "Explicit Directional Formatting". The rest: Default_Ignorable_Code_Point of
// Unicode 15, DerivedCoreProperties.txt. From memory.
const RANGES: readonly (readonly [number, number])[] = [
  [0x00, 0x1f],
  [0x7f, 0x9f],
  [0xad, 0xad],
  [0x34f, 0x34f],
  [0x61c, 0x61c],
  [0x115f, 0x1160],
  [0x17b4, 0x17b5],
  [0x180b, 0x180f],
  [0x200b, 0x200f],
  [0x2028, 0x202e],
  [0x2060, 0x206f],
  [0x2800, 0x2800],
  [0x3164, 0x3164],
  [0xd800, 0xd800],
  [0xdfff, 0xdfff],
  [0xfe00, 0xfe0f],
  [0xfeff, 0xfeff],
  [0xffa0, 0xffa0],
  [0xfff9, 0xfffb],
  [0x1bca0, 0x1bca3],
  [0x1d173, 0x1d17a],
  [0xe0001, 0xe0001],
  [0xe0020, 0xe007f],
  [0xe0100, 0xe01ef],
];
const HIDDEN = RANGES.flatMap(([from, to]) =>
  Array.from({ length: to - from + 1 }, (_, at) => String.fromCodePoint(from + at)),
);
const SEEN = "Löffler 雀 зуёк ° µ ² Ω − → ×  é é 5″";

describe("the filter", () => {
  it("knows every one, and nothing that can be seen", () => {
    for (const one of HIDDEN)
      expect([one.codePointAt(0)?.toString(16), holdsHidden(`a${one}b`)]).toEqual([expect.anything(), true]);
    expect(holdsHidden(SEEN)).toBe(false);
  });

  it("spells them out in messages and keeps JSON the same JSON", () => {
    for (const one of HIDDEN) {
      expect(holdsHidden(printable(`a${one}b`))).toBe(false);
      const json = JSON.stringify({ [`k${one}`]: one });
      expect(holdsHidden(escapedAsJson(json))).toBe(false);
      expect(JSON.parse(escapedAsJson(json))).toEqual({ [`k${one}`]: one });
    }
  });

  it("refuses them in names and titles", () => {
    for (const one of HIDDEN) {
      expect(name().safeParse(`a${one}b`).success).toBe(false);
      expect(words(120).safeParse(`a${one}b`).success).toBe(false);
    }
    expect(words(120).safeParse(SEEN).success).toBe(true);
  });
});

const map = await tinyMap();

/** Words the formats are made of; every other text of the map is somebody's. */
const OURS = new Set(
  "gainscape gainscape.map/2 p d roll pitch sustained hot ringing loose clean never always stop blip wobble hover nudge climb check".split(
    " ",
  ),
);
const swapped = (text: string): typeof map =>
  JSON.parse(
    JSON.stringify(map, (_, value) =>
      typeof value === "string" && !OURS.has(value) && !/^[0-9a-f]{64}$/.test(value) ? `${value}${text}` : value,
    ),
  );

it("keeps them out of every page, table and summary", async () => {
  const dirty = swapped(HIDDEN.join(""));
  const comparison = compare({ name: "a", map: dirty }, { name: "b", map: dirty }, { command: `c${HIDDEN.join("")}` });
  const texts = {
    summary: renderSummary(dirty),
    csv: renderCsv(dirty),
    page: await renderPage(dirty, "let a = 1;"),
    card: await renderCard(dirty),
    comparison: await renderComparison(comparison),
    markdown: renderDriftMarkdown(comparison.drift),
    table: renderDriftTable(comparison.drift),
    junit: renderJunit([comparison.drift]),
  };
  for (const [of, text] of Object.entries(texts)) {
    const bare = text.replaceAll("\n", "");
    const found = [...bare].findIndex(holdsHidden);
    expect([of, found === -1 ? "" : JSON.stringify([...bare].slice(found - 60, found + 5).join(""))]).toEqual([of, ""]);
  }
});

// GitHub Flavored Markdown 6.9, "Autolinks (extension)": what becomes a link by itself; mentions and numbers of issues
// besides: common practice of code hosts, no source.
const LINKED = [/(?:https?|ftp):\/\/\S/i, /\bwww\.\S/i, /(?:mailto|xmpp):\S/i, /[\w.+-]+@[\w-]/, /@\w/, /#\d/];

it("breaks up what would become a link in Markdown without any markup", () => {
  const bait =
    " https://example.org/a HTTP://example.org www.example.org a.b+c@example.org mailto:a@example.org @owner #12";
  for (const pattern of LINKED) expect(bait).toMatch(pattern);
  const dirty = swapped(bait);
  const { drift } = compare({ name: "a", map: dirty }, { name: "b", map: dirty }, { command: "c", notes: [bait] });
  const text = renderDriftMarkdown(drift);
  expect(text).toContain("https: //example.org/a");
  for (const pattern of LINKED) expect(text).not.toMatch(pattern);
});

describe("a terminal", () => {
  it("gets none of them in a line about a folder, and they are the same folder in JSON", async () => {
    const home = emptyFolder();
    const file = join(home, "map.json");
    writeFileSync(file, canonicalJson(sealed(map)));
    const out = join(home, "to\u202e\u200b\u009bthe");
    mkdirSync(out);
    const drawn = await run("report", file, "--out", out);
    expect(drawn.code).toBe(0);
    expect(drawn.stdout).toContain("to\\u202e\\u200b\\u009bthe");
    expect(holdsHidden(drawn.stdout.replaceAll("\n", ""))).toBe(false);
    const compared = await run("compare", file, file, "--out", out, "--json");
    expect(compared.code).toBe(0);
    expect(holdsHidden(compared.stdout.trimEnd())).toBe(false);
    expect(JSON.parse(compared.stdout).files.page).toBe(join(out, "index.html"));
  });

  it.each([
    ["xterm", true],
    ["dumb", false],
  ])("that calls itself %s gets control sequences: %s", (terminal, moved) => {
    const messages: string[] = [];
    const stream = { isTTY: true, write: (text: string) => messages.push(text) > 0 } as unknown as NodeJS.WriteStream;
    const view = progressView(stream, () => 0, terminal);
    for (let trials = 0; trials <= 100; trials += 10) view.show({ stage: "grid", trials, cached: 0, of: 100 });
    view.note("a note");
    view.end();
    expect(messages.join("")).toContain("100 %");
    expect(messages.join("").includes("\u001b")).toBe(moved);
  });
});
