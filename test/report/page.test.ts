import { createHash } from "node:crypto";
import { beforeAll, describe, expect, it } from "vitest";
import { MEASURES, VERDICTS } from "../../src/base/measures.js";
import type { StabilityMap } from "../../src/map/format.js";
import { renderPage } from "../../src/report/index.js";
import { VERDICT_WORDS } from "../../src/words/verdict-words.js";
import { fixture, withoutStart, withScale } from "./fixture.js";

const map = fixture();
let page = "";
beforeAll(async () => {
  page = await renderPage(map);
});

const all = (text: string, pattern: RegExp): string[] =>
  [...text.matchAll(pattern)].map((found) => found[1] ?? found[0]);

describe("the page", () => {
  it("has one h1 that names the craft, and no heading level is skipped", () => {
    expect(all(page, /<h1>(.*?)<\/h1>/g)).toEqual(["Sandpiper r1"]);
    const levels = all(page, /<h([1-6])[ >]/g).map(Number);
    for (let k = 1; k < levels.length; k++) expect(levels[k]).toBeLessThanOrEqual((levels[k - 1] ?? 0) + 1);
  });

  it("shows P, D and I of both axes big, with units", () => {
    const shown = page.replaceAll("\u00a0", " ");
    for (const gain of [
      '<b>20.6</b> <span class="unit">% per 100 °/s',
      '<b>2.94</b> <span class="unit">% per 1000 °/s²',
      "<b>23.4</b>",
      "<b>3.13</b>",
    ])
      expect(shown).toContain(gain);
    expect(all(shown, /<b>42.5<\/b> <span class="unit">% per 100°/g)).toHaveLength(2);
  });

  it("has one map figure per axis with a caption, and a text for every picture", () => {
    expect(all(page, /<figure class="axis-map" id="map-(\w+)"/g)).toEqual(["roll", "pitch"]);
    expect(all(page, /<figure/g)).toHaveLength(all(page, /<figcaption[^>]*>[^<]{20,}/g).length);
    const pictures = all(page, /<svg [^>]*>/g);
    expect(pictures.length).toBeGreaterThan(10);
    expect(pictures.every((svg) => svg.includes('aria-hidden="true"'))).toBe(true);
    expect(all(page, /role="img" aria-label="([^"]*)"/g).every((label) => label.length > 40)).toBe(true);
  });

  it("explains every verdict in the key and shows every measure", () => {
    for (const verdict of VERDICTS)
      expect(page).toContain(`<b>${VERDICT_WORDS[verdict].title}</b> ${VERDICT_WORDS[verdict].meaning}`);
    for (const { title } of MEASURES) expect(page).toContain(`<th scope="row">${title}`);
  });

  it("gives every header cell its scope and every id once", () => {
    expect(all(page, /<th(?! scope=)[ >]/g)).toEqual([]);
    const ids = all(page, / id="([^"]+)"/g);
    expect(new Set(ids).size).toBe(ids.length);
    for (const target of all(page, /href="#([^"]+)"/g)) expect(ids).toContain(target);
    for (const name of all(page, /aria-labelledby="([^"]+)"/g)) expect(ids).toContain(name);
  });

  it("says who decided, the digests, the seed and the command", () => {
    for (const text of [map.airframe.digest, map.sweep.digest, String(map.provenance.seed), map.provenance.command])
      expect(page).toContain(text);
    expect(page.replaceAll("\u00a0", " ")).toContain("hard stop from a roll at 500 °/s, 80 % throttle, fresh pack");
  });

  it("names the margins the sweep asks for: in the key, with the measured ones, and where they come from", async () => {
    const margins = { gain: 7, phase: Math.PI / 6 };
    const shown = (await renderPage({ ...map, plan: { sweep: { margins } } })).replaceAll("\u00a0", " ");
    expect(shown).toContain(
      "<b>Safe</b> Clean, and 7 dB up and down and 30° of margin are left at every throttle and pack.",
    );
    expect(all(shown, /<td>≥ 7<\/td>/g)).toHaveLength(2);
    expect(all(shown, /<td>≥ 30<\/td>/g)).toHaveLength(1);
    expect(shown).toContain("its table was not seen in the original");
  });

  it("writes units in the assumptions as everywhere else", async () => {
    const assumptions = ["I of the swept axis: 25 %/(100 deg).", "Limit: Attitude kick 2 deg."];
    const shown = (await renderPage({ ...map, assumptions })).replaceAll("\u00a0", " ");
    expect(shown).toContain("<li>I of the swept axis: 25 % per 100°.</li><li>Limit: Attitude kick 2°.</li>");
  });

  it("draws a boundary figure per axis and condition, each with its finding as title", () => {
    const titles = all(page.replaceAll("\u00a0", " "), /<figure class="throttle">\s*<h3>(.*?)<\/h3>/g);
    expect(titles.map((title) => title.split(":")[0])).toEqual([
      "Roll, fresh pack",
      "Roll, tired pack",
      "Pitch, fresh pack",
      "Pitch, tired pack",
    ]);
    for (const title of titles) expect(title).toMatch(/: at 80 % throttle the boundary is \d+ % lower than at 25 %$/);
  });

  it("has one legend for the line charts, with the very strokes that they draw", () => {
    const [legend = ""] = all(page, /<ul aria-label="Lines of these charts">([\s\S]*?)<\/ul>/g);
    expect(all(legend, /<b>(.*?)<\/b>/g)).toEqual(["Highest throttle", "Next lower", "Lower still", "Tinted"]);
    expect(legend).toContain('stroke-dasharray="8 4"');
  });

  it("draws the line charts of an axis to the scale of its map", () => {
    const ticks = (svg: string) => all(svg, /text-anchor="end"[^>]*>([\d.]+)<\/text>/g).map(Number);
    const [mapSvg = ""] = all(page, /<figure class="axis-map" id="map-roll">([\s\S]*?)<\/figure>/g);
    const [line = ""] = all(page, /<figure class="throttle">([\s\S]*?)<\/figure>/g);
    expect(Math.max(...ticks(line))).toBe(Math.max(...ticks(mapSvg)));
  });
});

describe("the page as a file", () => {
  it("allows its one style sheet by hash and nothing else", () => {
    const [style = "", ...others] = all(page, /<style>([\s\S]*?)<\/style>/g);
    expect(others).toEqual([]);
    const [policy = ""] = all(page, /http-equiv="Content-Security-Policy" content="([^"]*)"/g);
    expect(policy).toContain(`style-src 'sha256-${createHash("sha256").update(style).digest("base64")}'`);
    expect(policy).toMatch(/^default-src 'none';/);
    expect(policy).not.toContain("unsafe");
  });

  it("holds no script, no inline style and no address but the name of SVG", () => {
    expect(page).not.toMatch(/<script|javascript:|\son\w+=|\sstyle=/i);
    expect(new Set(all(page, /https?:\/\/[^"'\s<>]+/g))).toEqual(new Set(["http://www.w3.org/2000/svg"]));
    expect(page).not.toMatch(/@import|url\((?!#)/);
  });

  it("holds no number that was never there", () => {
    expect(page).not.toMatch(/NaN|Infinity|undefined|\bnull\b|\[object/);
  });

  it("is the same twice, byte for byte", async () => {
    expect(await renderPage(fixture())).toBe(page);
  });

  it("stays under 1.5 MB, also for a grid of 96 by 96", async () => {
    expect(Buffer.byteLength(page)).toBeLessThan(1.5e6);
    expect(Buffer.byteLength(await renderPage(fixture(96)))).toBeLessThan(1.5e6);
  });
});

describe("text from files", () => {
  const evil = `<script>alert("1")</script>'&\u0007`;
  const hostile: StabilityMap = {
    ...map,
    airframe: { ...map.airframe, name: evil, version: evil, title: evil },
    sweep: { ...map.sweep, title: evil },
    variants: map.variants.map((variant) => ({ ...variant, title: evil })),
    axes: {
      ...map.axes,
      pitch: {
        ...map.axes.pitch,
        boundary: {
          ...map.axes.pitch.boundary,
          byVariant: map.axes.pitch.boundary.byVariant.map((one) => ({ ...one, condition: evil })),
        },
      },
    },
    assumptions: [evil],
    hover: { [evil]: { throttle: 30, rotorSpeed: 1, voltage: 1 } },
    provenance: { ...map.provenance, command: evil },
  };

  it("is shown as text, never as markup", async () => {
    const shown = await renderPage(hostile);
    expect(shown).not.toContain("<script");
    expect(shown).not.toContain("\u0007");
    expect(all(shown, /<h1>(.*?)<\/h1>/g)[0]).toContain("&lt;script&gt;alert(&quot;1&quot;)&lt;/script&gt;&#39;&amp;");
    expect(shown).toContain("<h3>Pitch, &lt;script&gt;");
  });
});

describe("a map without a starting tune", () => {
  const reason = "140 points are clean, but none keeps 6.0 dB and 45.0 deg of margin under every condition.";

  it("says the reason on the first screen and in the tables, and still draws the map", async () => {
    const bare = await renderPage(withoutStart(map, "roll", reason));
    expect(all(bare, /No starting tune\.<\/strong> ([^<]*)</g)).toEqual([reason]);
    expect(bare).toContain(`Roll: no starting tune.</strong> ${reason}`);
    expect(all(bare, /<figure class="axis-map"/g)).toHaveLength(2);
    expect(bare).not.toMatch(/NaN|undefined|\bnull\b/);
  });
});

describe("one axis without a starting tune", () => {
  it("says before anything else not to fly, and why", async () => {
    const bare = await renderPage(withoutStart(map, "pitch", "No point of the grid is clean."));
    const [first = ""] = all(bare, /<main>([\s\S]*?<\/section>)/g);
    expect(first).toContain('<h2 id="grounded"><strong>Do not fly</strong> pitch has no tune to climb to</h2>');
    expect(first).toContain("Pitch has no starting tune. No point of the grid is clean.");
    expect(first).toContain("A craft flies on all its axes at once");
    expect(bare).toContain("<title>Sandpiper r1: do not fly</title>");
    expect(bare).not.toContain("Where to start</h2>");
    expect(bare).not.toContain("Climb to it with care");
  });

  it("names both axes where neither has one, and says nothing where both have", async () => {
    const none = await renderPage(withoutStart(withoutStart(map, "roll", "A."), "pitch", "B."));
    expect(none).toContain("</strong> neither roll nor pitch has a tune to climb to</h2>");
    expect(page).not.toContain('id="grounded"');
  });
});

describe("a model with a scale of its own", () => {
  it("shows what the pilot types in large digits, ours beside them in small, and never to copy them", async () => {
    const scaled = (await renderPage(withScale(map))).replaceAll("\u00a0", " ");
    expect(scaled).toContain('<b>5150</b> <span class="unit">20.6 % per 100 °/s</span>'); // 20.6 / 0.004
    expect(scaled).toContain('<b>5880</b> <span class="unit">2.94 % per 1000 °/s²</span>'); // 2.94 / 0.0005
    expect(scaled).toContain('<b>2125</b> <span class="unit">42.5 % per 100°</span>'); // 42.5 / 0.02
    expect(scaled).toContain("Numbers of Sandpiper’s own controller: never copy them onto another.");
    expect(scaled).toContain(
      "1000 of P are 4 % per 100 °/s, 10000 of D are 5 % per 1000 °/s², 100 of I are 2 % per 100°",
    );
    expect(scaled).toContain("; from P 13000 up the oscillation does not die out"); // 51.9 / 0.004
    expect(scaled).toMatch(/<td>P 6670 <small class="ours">26\.7<\/small><\/td>/);
  });

  it("writes every map's axes in round numbers of the controller's own", async () => {
    const scaled = (await renderPage(withScale(map))).replaceAll("\u00a0", " ");
    expect(scaled).toContain(">P (controller’s own, 1000 = 4 % per 100 °/s)</text>");
    expect(scaled).toContain(">D (10000 = 5 % per 1000 °/s²)</text>");
    const ticks = all(scaled, /text-anchor="end"[^>]*>(\d+)<\/text>/g).map(Number);
    expect(ticks).toContain(10_000);
    expect(ticks.every((one) => one % 500 === 0)).toBe(true);
  });

  it("says of I alone that nobody knows what it is worth", async () => {
    const scaled = (await renderPage(withScale(map, { i: undefined }))).replaceAll("\u00a0", " ");
    expect(scaled).toContain("what I is worth the model does not say");
    expect(scaled).toContain('<b>42.5</b> <span class="unit">% per 100°</span>');
  });
});

describe("a model that does not say what one unit is worth", () => {
  it("says at once that these are not the pilot's numbers, and how to learn them", () => {
    const plain = page.replaceAll("\u00a0", " ");
    const [first = ""] = all(plain, /(<section class="start"[\s\S]*?)<article/g);
    expect(first).toContain("<strong>These are not your controller’s numbers: do not type them in.</strong>");
    expect(first).toContain("fit a flight (gainscape fit)");
    expect(first).toMatch(/On the bench, propellers off, I and D at 0/);
  });
});
