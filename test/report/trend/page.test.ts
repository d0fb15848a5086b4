import { HtmlValidate } from "html-validate";
import { describe, expect, it } from "vitest";
import { renderTrendIndex, renderTrendPage, renderTrendText } from "../../../src/report/index.js";
import { trendsOf } from "../../../src/trend/follow.js";
import type { TrendRecord } from "../../../src/trend/format.js";
import { record, startWith } from "../../trend/records.js";

const wobble = (value: number) => startWith({ seeded: { wobbleAngle: { value, range: [value - 0.1, value + 0.1] } } });

/** Steps down and up, a night without a start, a boundary above the grid, another program and another question. */
const RECORDS: readonly TrendRecord[] = [
  record({ roll: { start: wobble(1) } }),
  record({ date: "2026-01-02", roll: { start: wobble(1) } }),
  record({ version: "r2", date: "2026-02-01", boundary: [25, 30, 50], roll: { start: wobble(1.6) } }),
  record({ version: "r3", date: "2026-03-01", boundary: [30, "above", 50], roll: { start: null } }),
  record({ version: "r3", date: "2026-03-02", product: "0.2.0", boundary: ["none", 44, 50] }),
  record({ question: "other" }),
];

const pageOf = (records: readonly TrendRecord[], problems: readonly string[] = []) =>
  renderTrendPage({
    trends: trendsOf(records),
    files: ["trend/dunlin.jsonl"],
    problems,
    command: "gainscape trend trend",
  });
const plain = (text: string): string => text.replaceAll("\u00a0", " ");
const all = (text: string, pattern: RegExp): string[] =>
  [...text.matchAll(pattern)].map((found) => found[1] ?? found[0]);

describe("the page of a model's trends", () => {
  it("says its finding in the title, and who moved what in a table, the latest first", async () => {
    const page = plain(await pageOf(RECORDS));
    expect(all(page, /<h1>(.*?)<\/h1>/g)).toEqual([
      "Dunlin gainscape 0.2.0: roll boundary vanishes, no P is stable any more, at D 0 since 2026-03-02, the largest of 3 steps",
    ]);
    expect(all(page, /<th scope="row">([^<]*)<small>/g)).toEqual(["gainscape 0.2.0", "r3", "r2"]);
    expect(page).toContain('<li class="worse">boundary falls 25 % at D 1</li>');
    expect(page).toContain('<li class="worse">no starting tune any more</li>');
  });

  it("draws a chart per measure and axis, each with a text in its place", async () => {
    const page = await pageOf(RECORDS.slice(0, 5));
    const [roll, pitch] = [8, 7]; // roll has a measure that seeds move
    expect(all(page, /<figure class="trend">/g)).toHaveLength(roll + pitch);
    expect(
      all(page, /<figure class="trend"><h3>[^<]+<\/h3><div role="img" aria-label="[^"]{30,}"><svg /g),
    ).toHaveLength(roll + pitch);
    expect(page).not.toMatch(/NaN|undefined|Infinity/);
  });

  it("is valid, of one night or of many, with problems or without, and skips no heading", async () => {
    const validator = new HtmlValidate({
      extends: ["html-validate:recommended"],
      rules: { "aria-label-misuse": ["error", { allowAnyNamable: true }], "long-title": "off" },
    });
    const pages = [await pageOf(RECORDS), await pageOf(RECORDS.slice(0, 1)), await pageOf(RECORDS, ["a:1:1: torn"])];
    for (const page of [...pages, await renderTrendIndex([row("Dunlin", null)], ["x"])]) {
      const { results } = await validator.validateString(page);
      expect(results.flatMap(({ messages }) => messages.map(({ ruleId, line }) => `${line} ${ruleId}`))).toEqual([]);
      const levels = all(page, /<h([1-6])[ >]/g).map(Number);
      for (let k = 1; k < levels.length; k++) expect(levels[k]).toBeLessThanOrEqual((levels[k - 1] ?? 0) + 1);
    }
  });

  it("is the same bytes again, and holds no markup of a file", async () => {
    expect(await pageOf(RECORDS)).toBe(await pageOf([...RECORDS].reverse()));
    const hostile = "<script>alert(1)</script>\u202e";
    const records = RECORDS.map(({ airframe, seal: _, ...rest }) => ({
      ...rest,
      sweep: hostile,
      airframe: { ...airframe, name: hostile, version: `${hostile}${airframe.version}` },
      seal: airframe.digest + rest.date,
    }));
    const page = await pageOf(records, [hostile]);
    expect(page).not.toContain("<script");
    expect(page + renderTrendText(trendsOf(records)[0] as never)).not.toContain("\u202e");
  });

  it("of a thousand nights that all differ is drawn, labels apart and tables capped", async () => {
    const day = (k: number) => new Date(Date.UTC(2020, 0, 1 + k)).toISOString().slice(0, 10);
    const nights = Array.from({ length: 1000 }, (_, k) =>
      record({ version: `r${k >> 3}`, craft: `${k}`, date: day(k), boundary: [30, 40 + 5 * Math.sin(k), 50] }),
    );
    const page = await pageOf(nights);
    expect(page.length).toBeLessThan(2e6);
    expect(page).toContain("are left out here");
  });
});

const row = (airframe: string, lastStep: string | null) => ({
  airframe,
  finding: "nothing stepped",
  lastStep,
  steps: 0,
  creeps: 0,
  records: 3,
  page: `${airframe}.html`,
});

it("the list of models counts those that stepped and leads to each", async () => {
  const page = await renderTrendIndex([row("Dunlin", "2026-02-01"), row('Cur"lew', null)], []);
  expect(page).toContain("<h1>1 of 2 models stepped</h1>");
  expect(page).toContain('href="Cur%22lew.html"');
});
