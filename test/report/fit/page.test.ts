import { createHash } from "node:crypto";
import { HtmlValidate } from "html-validate";
import { beforeAll, describe, expect, it } from "vitest";
import { P_UNIT } from "../../../src/base/units.js";
import type { FitFile } from "../../../src/fit/format.js";
import { fitPage, fitText } from "../../../src/report/index.js";
import { endingFit, holdingFit } from "./fixture.js";

let ending: FitFile;
let holding: FitFile;
let page = "";
let calm = "";
beforeAll(async () => {
  [ending, holding] = [await endingFit(), await holdingFit()];
  [page, calm] = [plain(await fitPage(ending)), plain(await fitPage(holding))];
}, 240_000);

const plain = (text: string): string => text.replaceAll("\u00a0", " ");
const all = (text: string, pattern: RegExp): string[] =>
  [...text.matchAll(pattern)].map((found) => found[1] ?? found[0]);
const answerOf = (text: string): string => all(text, /<p class="answer[^"]*">(.*?)<\/p>/g)[0] ?? "";
/** A fit from sightings alone: no response, nothing kept out, no tune. */
const quiet = (fit: FitFile): FitFile => {
  const axis = (name: "roll" | "pitch") => ({ ...fit.axes[name], response: null, keptOut: null, tune: null });
  return {
    ...fit,
    axes: { roll: axis("roll"), pitch: axis("pitch") },
    numbers: fit.numbers.map((number) => ({ ...number, after: number.before, learnt: 0 })),
    correlations: [],
    units: [],
    silent: [],
    remarks: [],
    next: [],
    advice: [],
  };
};

describe("the answer of a fit", () => {
  it("says how much more the craft turns, how far the boundary fell, and not to fly the old tune", () => {
    const { roll } = ending.axes;
    const more = Math.round(100 * (roll.after.authorityOverLag.middle / roll.before.authorityOverLag.middle - 1));
    expect(answerOf(page)).toContain(`turns ${more} %`);
    expect(answerOf(page)).toMatch(
      /more than the model said; the boundary lies \d+ % lower on roll, \d+ % lower on pitch\./,
    );
    expect(answerOf(page)).toContain("Do not fly the old tune.");
    expect(page).toContain('<p class="answer bad">');
    expect(all(page, /<p class="call bad">/g)).toHaveLength(2);
  });

  it("draws the boundary in the controller's own numbers where the tune was set in them, else in display units", async () => {
    const { tune } = ending.axes.roll;
    expect(page).toContain("P (own, 10 = 2 % per 100 °/s)");
    expect(page).toContain(
      `The tune flown is at P ${Math.round(tune?.own?.p ?? 0)}, D ${Math.round(tune?.own?.d ?? 0)}.`,
    );
    const silent = plain(await fitPage(quiet(ending)));
    expect(silent).toContain("P, % per 100 °/s");
    expect(silent).not.toContain("own, ");
  });

  it("says in how many draws the old tune still holds, with what so few draws leave open", () => {
    expect(answerOf(calm)).toMatch(
      /The craft turns about as the model said; .* The old tune still holds in \d\d of 64 draws\./,
    );
    expect(calm).not.toContain("Do not fly");
    // Clopper and Pearson for 64 of 64: 1 - 0.025^(1/64) = 0.056
    expect(calm).toContain("<strong>Safe in 64 of 64 draws</strong> (94 to 100 %)");
    expect(calm).toContain("not the chance that yours is safe");
  });

  it("stops one axis alone where only that fell", async () => {
    const pitch = { ...ending.axes.pitch, tune: holding.axes.pitch.tune };
    const one = await fitPage({ ...ending, axes: { ...ending.axes, pitch } });
    expect(plain(answerOf(one))).toContain("Do not fly the old tune of roll.");
  });
});

describe("the numbers of a fit", () => {
  it("stand as the model file writes them, before and after", () => {
    const row = (key: string) => all(page, new RegExp(`<small>${key}</small></th>(.*?)</tr>`, "g"))[0] ?? "";
    expect(row("motor.resistance")).toContain("75 mohm ± 30 %");
    expect(row("motor.resistance")).toContain("70 mohm ± 4 %");
    expect(row("propeller.inertia")).toContain("4.2e-6 kg m² ± 15 %");
    expect(row("wash.rms")).toContain("18.2 % ± 1.6 %");
    expect(page).toContain("−5.6 mm ± 1.5 mm");
    expect(page).toContain("0.75 ms ± 10 %");
  });

  it("that the flight says nothing about are named and keep their spreads", () => {
    const said = all(page, /<b>Nothing said<\/b> about (\d+) numbers/g);
    const kept = ending.numbers.filter(({ before, after }) => before.low === after.low && before.high === after.high);
    expect(Number(said[0])).toBe(kept.length);
    expect(page).toContain("pack resistance");
  });

  it("of one unit are told in words, or why not", () => {
    expect(ending.units[0]?.value?.middle).toBeCloseTo(0.21 * P_UNIT, 12);
    expect(page).toContain("One unit of P is worth 0.21 % per 100 °/s ± 3 % on roll and pitch.");
    expect(page).toContain("What one unit of P is worth on yaw the log does not tell.");
  });
});

describe("the page of a fit", () => {
  it("has one h1, skips no heading level, and every chapter is there", () => {
    expect(all(page, /<h1>(.*?)<\/h1>/g)).toEqual(["Sandpiper r1, back from the field"]);
    const levels = all(page, /<h([1-6])[ >]/g).map(Number);
    for (let k = 1; k < levels.length; k++) expect(levels[k]).toBeLessThanOrEqual((levels[k - 1] ?? 0) + 1);
    for (const id of all(page, /href="#([\w-]+)"/g)) expect(page).toContain(`id="${id}"`);
  });

  it("has under every picture a title that says what it shows, and a text for who cannot see it", () => {
    const titles = all(page, /<figure class="axis-map">\s*<h3>(.*?)<\/h3>/g);
    expect(titles).toHaveLength(6);
    for (const title of titles) expect(title).toMatch(/^(Roll|Pitch): .*\d+/);
    expect(all(page, /role="img" aria-label="[^"]{30,}"/g)).toHaveLength(2 + 12);
    expect(page).not.toMatch(/NaN|undefined|Infinity|\bnull\b/);
  });

  it("predicts, by its own titles, the share that the fit gives", () => {
    const share = Math.round(100 * (ending.axes.roll.keptOut?.explained ?? 0));
    expect(page).toContain(`Roll: the fitted model predicts ${share} % of a part it never saw`);
  });

  it("asks for no oscillation, and says where a log is taken safely", () => {
    expect(page).toContain("Never keep an oscillation up on purpose.");
    expect(page).toContain("Walk up only to a disarmed craft");
    expect(page).toContain("Props off on the bench.");
    expect(page).toContain("Always within the ground that is safe");
  });

  it("is one file with one style sheet and no script", () => {
    const [style = ""] = all(page, /<style>([\s\S]*?)<\/style>/g);
    expect(page).toContain(`style-src 'sha256-${createHash("sha256").update(style).digest("base64")}'`);
    expect(page).not.toMatch(/<script|\sstyle=|\son\w+=/);
  });

  it("is the same bytes for the same fit", async () => {
    expect(plain(await fitPage(ending))).toBe(page);
  });

  it("is complete where sightings alone were given", async () => {
    const without = plain(await fitPage(quiet(ending)));
    expect(without).toContain("No number became better known.");
    expect(without).not.toContain('id="response"');
    expect(without).not.toContain('href="#kept-out"');
    expect(without).not.toMatch(/NaN|undefined|Infinity|\bnull\b/);
    for (const id of all(without, /href="#([\w-]+)"/g)) expect(without).toContain(`id="${id}"`);
  });

  it("lets no text of a log become markup", async () => {
    const remark = { file: "<b>x</b>.csv", row: 2, column: '"><script>', text: "a & b" };
    const hostile = await fitPage({ ...ending, remarks: [remark], advice: ["<i>fly</i>"] });
    expect(hostile).not.toMatch(/<script|<i>fly|<b>x/);
  });

  it("is valid markup", async () => {
    const validator = new HtmlValidate({
      extends: ["html-validate:recommended"],
      rules: { "aria-label-misuse": ["error", { allowAnyNamable: true }] },
    });
    for (const text of [page, await fitPage(quiet(ending))]) {
      const { results } = await validator.validateString(text);
      expect(results.flatMap(({ messages }) => messages.map(({ ruleId, line }) => `${line} ${ruleId}`))).toEqual([]);
    }
  });
});

describe("a fit on a terminal", () => {
  it("says in some fifteen lines what the page says first", () => {
    const text = fitText(ending);
    const lines = text.trimEnd().split("\n");
    expect(lines.length).toBeGreaterThan(10);
    expect(lines.length).toBeLessThanOrEqual(18);
    expect(lines[0]).toBe(answerOf(page));
    expect(text).toContain("motor resistance (motor.resistance): 75 mohm ± 30 % before, now 70 mohm ± 4 %.");
    expect(text).toContain("meadow-2.csv, row 18 204, column time_us: The clock jumps");
  });

  it("moves no cursor, whatever a log is called", () => {
    const remark = { file: "\u001b[2Jx.csv", row: null, column: null, text: "odd" };
    expect(fitText({ ...ending, remarks: [remark] })).not.toContain("\u001b");
  });
});
