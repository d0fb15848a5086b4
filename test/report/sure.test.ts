// How sure a map is, as page, card, table and summary say it: of a real small map, and of an invented one in which much fails.
import { beforeAll, describe, expect, it } from "vitest";
import { pageScript } from "../../src/flow/page-script.js";
import type { StabilityMap } from "../../src/map/format.js";
import { sureOf } from "../../src/map/sure.js";
import { pageData } from "../../src/page-data/data.js";
import { renderCard, renderCsv, renderPage, renderSummary } from "../../src/report/index.js";
import { SIMULATED_CRAFT } from "../../src/words/confidence-words.js";
import { drawnMap } from "../fixtures/drawn-map.js";
import { drawn } from "./drawn-fixture.js";
import { fixture, withoutStart } from "./fixture.js";
import { climbing } from "./ladder-fixture.js";

const plain = (text: string) => text.replaceAll("\u00a0", " ");
const start = (page: string) => page.slice(page.indexOf('id="start"'), page.indexOf('id="cautions"'));
const measure = (page: string) =>
  page.slice(page.indexOf("What to measure first"), page.indexOf("Left out of the draws"));

describe("the page of a map with draws", () => {
  let map: StabilityMap;
  let page = "";
  beforeAll(async () => {
    map = await drawnMap();
    page = plain(await renderPage(map, pageScript()));
  });

  it("says the start's share with its interval and what a share is, beside every share", () => {
    const { safe, of } = map.axes.roll.confidence?.start ?? { safe: 0, of: 0 };
    expect(start(page)).toContain(`Safe in ${safe} of ${of} draws that did not choose it (`);
    expect(start(page).split(SIMULATED_CRAFT)).toHaveLength(3); // one on each axis
  });

  it("fills the region at the confidence, labels it, and draws the model as written as thin lines", () => {
    const figure = page.slice(page.indexOf('id="map-roll"'), page.indexOf('id="map-pitch"'));
    expect(figure).toContain(">Safe in 90 of 100 draws</text>");
    expect(figure).toContain(">safe as written</text>");
    expect(figure).toMatch(/stroke="var\(--ink\)" stroke-width="2\.4"/);
    expect(page).toContain(`<b>Safe in 90 of 100 draws</b>`);
  });

  it("says that worths do not add up where numbers go together, and only there", async () => {
    const pair = { one: "propeller.ct", other: "motor.resistance", correlation: 0.8 };
    const joint = plain(
      await renderPage({ ...map, model: { ...(map.model as object), correlations: [pair] } }, pageScript()),
    );
    expect(measure(joint)).toContain("their gains are shared and do not add up");
    expect(joint).toContain("propeller.ct with motor.resistance (0.8)");
    expect(page).not.toContain("do not add up");
    expect(page).not.toContain("Go together");
  });

  it("ranks numbers by what knowing them is worth, those that show no difference in one line", () => {
    const worth = map.axes.roll.confidence?.worth ?? [];
    const seen = worth.filter(({ gain, error }) => gain > error);
    expect(seen.length).toBeGreaterThan(0);
    const [roll] = measure(page).split("Pitch: safe ground gained");
    expect([...(roll ?? "").matchAll(/<th scope="row">/g)]).toHaveLength(seen.length);
    expect(roll).toContain("Motor resistance <small>motor.resistance</small>");
    expect(roll).toContain(`No difference seen</b> for ${worth.length - seen.length} numbers: `);
    expect(page).not.toContain(">10 % more</th>");
  });

  it("reports what was left out, and keeps every caution", () => {
    const trials = (["roll", "pitch"] as const).reduce(
      (sum, axis) => sum + (map.axes[axis].confidence?.leftOut.trials ?? 0),
      0,
    );
    expect(plain(page).replaceAll(" ", "")).toContain(`Leftoutofthedrawsbecauseitcouldnotdecide:${trials}trials`);
    expect([...page.matchAll(/<li><strong>/g)].length).toBeGreaterThanOrEqual(8);
  });

  it("hands its script every point's count and every draw", () => {
    const data = pageData(map);
    expect(data.axes.roll.safeDraws).toEqual(map.axes.roll.confidence?.safeDraws);
    expect(data.draws?.each).toHaveLength(64);
    expect(data.draws?.of).toBe(24);
  });
});

describe("the page of a map in which no point reaches the confidence", () => {
  const map = drawn(climbing(), { most: 2.4 });
  let page = "";
  beforeAll(async () => {
    page = plain(await renderPage(map));
  });

  it("says so, names the number to measure first, and gives the best tune with its share", () => {
    expect(start(page)).toContain(
      "<strong>No swept point is safe in 95 of 100 draws.</strong> Measure first: motor resistance (motor.resistance).",
    );
    expect(start(page)).toContain("Safe in 22 of 64 draws that did not choose it (23 to 47 %)");
    expect(start(page)).toContain("<b>20.6</b>");
  });

  it("never asks for a number that nobody can measure", () => {
    expect(map.axes.roll.confidence?.worth[0]?.key).toBe("loop gain");
    expect(page).not.toContain("Measure first: what the model leaves out");
  });

  it("lists the draws in which a start fails, complete without a script", () => {
    const failing = map.uncertainty?.draws.filter(
      ({ roll, pitch }) => roll.startFailsBy !== null || pitch.startFailsBy !== null,
    );
    expect(page).toContain(`<summary>${failing?.length} of 64 draws, one by one</summary>`);
    expect(page).toContain("Roll: less margin than 6 dB up and down and 45°");
    expect(page).toMatch(/motor resistance 44 % less \(2\.2 × its ±\)/);
  });
});

describe("a page without draws", () => {
  it("says nothing of them, and why where the model says too little", async () => {
    const map = fixture(8);
    const page = await renderPage(map);
    expect(page).not.toContain("draw-switch");
    expect(page).not.toMatch(/\bdraws?\b/i);
    const uncertaintyReason = "the model does not say how far these may be off: motor.resistance.";
    const unsure = { ...map, uncertaintyReason };
    expect(start(await renderPage(unsure))).toContain(uncertaintyReason);
    expect(renderSummary(unsure)).toContain(uncertaintyReason);
    expect(await renderCard({ ...climbing(), uncertaintyReason })).toContain(uncertaintyReason);
  });

  it("needs no start", async () => {
    const bare = drawn(withoutStart(fixture(8), "roll", "It rings."));
    expect(start(await renderPage(bare))).not.toMatch(
      /aria-labelledby="start-roll"(?:(?!<\/article>)[\s\S])*that did not choose it/,
    );
    expect(renderSummary(bare)).toContain("Roll: no starting tune. It rings.");
    expect(await renderCard(bare)).toContain("no starting tune");
  });
});

describe("card, table and summary of a map with draws", () => {
  const map = drawn(climbing());

  it("the card has the starts' shares, what the region is, and what a share is", async () => {
    const card = plain(await renderCard(map));
    expect(card).toContain("Roll tune: safe in 52 of 64 draws that did not choose it (70 to 90 %).");
    expect(card).toContain("The map calls safe what is safe in 95 of 100 draws.");
    expect(card).toContain("Share of simulated craft, not the chance that yours is safe.");
  });

  it("the table has every point's count, and leaves it empty without draws", () => {
    const rows = (one: StabilityMap) =>
      renderCsv(one)
        .trimEnd()
        .split("\n")
        .map((line) => line.split(","));
    const [header = [], ...lines] = rows(map);
    const [counts, of] = [header.indexOf("Safe draws"), header.indexOf("Draws")];
    const sure = sureOf(map, map.axes.roll);
    const { d, p } = map.axes.roll.grid;
    expect(lines[5 * p.length + 7]?.[counts]).toBe(String(sure?.safeDraws[5]?.[7]));
    expect(new Set(lines.map((line) => line[of]))).toEqual(new Set(["64"]));
    expect(lines).toHaveLength(2 * d.length * p.length);
    const without = rows(fixture(4)).slice(1);
    expect(without.every((line) => line[counts] === "" && line[of] === "")).toBe(true);
  });

  it("the summary says share, band, region and what to measure first", () => {
    const text = plain(renderSummary(map));
    expect(text).toContain(`Safe in 52 of 64 draws that did not choose it (70 to 90 %): ${SIMULATED_CRAFT}.`);
    expect(text).toMatch(
      /At D 2\.9 the oscillation keeps itself alive from P [\d.]+ up in 5 of 100 draws, from P [\d.]+ up in half of them/,
    );
    expect(text).toContain("% of the swept points are safe in 95 of 100 draws, 4.79 % in the model as it is written.");
    expect(text).toContain("Measure first: motor resistance (motor.resistance).");
  });
});
