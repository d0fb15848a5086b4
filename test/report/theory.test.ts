// The chapter that compares a map with theory: agreement and disagreement, lines labelled, parameters named.
import { beforeAll, describe, expect, it } from "vitest";
import { theoryWorstLines } from "../../src/charts/theory-marks.js";
import type { StabilityMap } from "../../src/map/format.js";
import type { TheoryBoundary } from "../../src/map/theory-format.js";
import { renderPage } from "../../src/report/index.js";
import { agreementWords, manoeuvreWords, stepWords } from "../../src/words/theory-words.js";
import { fixture } from "./fixture.js";
import { interval, LOOPS } from "./loops.js";

const plain = fixture(16);

const worst = { throttle: 80, condition: "fresh pack", d: 3, theory: 40, simulated: 40.1, difference: 0.25 };
const parameters = ["propeller diameter", "pack voltage", "inertia"].map((title, k) => ({
  key: `key.${k}`,
  title,
  more: k === 2 ? null : -20.66 + k,
  less: 26.33 - k,
}));

function theoryOf(map: StabilityMap, name: "roll" | "pitch", change: Partial<TheoryBoundary> = {}): TheoryBoundary {
  const levels = [25, 50, 80].flatMap((throttle) =>
    ["fresh pack", "tired pack"].map((condition) => ({ throttle, condition })),
  );
  const perD = map.axes.roll.grid.d.map((d) => {
    const range = interval(LOOPS[name], d, 1);
    return range === null ? [] : [[null, range[1]] as const];
  });
  const curve = [map.axes.roll.grid.d.flatMap((d, row) => perD[row].map(([, to]) => [d, to, 30] as const))];
  return {
    loops: levels.map((level) => ({ ...level, perD, curve })),
    agreement: { script: "nudge", ends: 48, median: 0.0079, worst, tolerance: 0.5, disagreements: [] },
    step: { ...worst, difference: 1.2886 },
    sensitivity: { d: 2.94, p: 41.2, throttle: 80, condition: "fresh pack", effects: parameters },
    ...change,
  };
}

const withTheory = (map: StabilityMap, change: Partial<TheoryBoundary> = {}): StabilityMap => {
  const axis = (name: "roll" | "pitch") => ({
    ...map.axes[name],
    boundary: { ...map.axes[name].boundary, theory: theoryOf(map, name, change) },
  });
  return { ...map, axes: { roll: axis("roll"), pitch: axis("pitch") } };
};

const shown = (text: string): string => text.replaceAll("\u00a0", " ");

describe("the chapter", () => {
  let page = "";
  beforeAll(async () => {
    page = shown(await renderPage(withTheory(plain)));
  });

  it("stands in the page and in its list of chapters, and only where there is theory", async () => {
    expect(page).toContain('<h2 id="theory">Against theory</h2>');
    expect(page).toContain('<a href="#theory">Against theory</a>');
    expect(await renderPage(plain)).not.toContain('id="theory"');
    expect(await renderPage(plain)).not.toContain('href="#theory"');
  });

  it("has its circles explained in the key of the maps, and only where there are any", async () => {
    expect(page).toContain("<b>Theory</b> Where a small nudge stops dying out");
    expect(await renderPage(plain)).not.toContain("<b>Theory</b>");
    expect(page.match(/<ul aria-label="Lines of these charts">[\s\S]*?<\/ul>/g)?.[0]).toContain(
      "<b>Hard manoeuvres</b>",
    );
  });

  it("says how far theory and trials agree, and what the time step does", () => {
    expect(page).toContain(
      "Roll: the worst of 48 compared places differs by 0.25 % of P (80 % throttle, fresh pack, D 3), the middle one by 0.0079 %. None differs by more than 0.5 %.",
    );
    expect(page).toContain("moves it by at most 1.3 % of P");
  });

  it("draws the boundary after hard manoeuvres as a line of its own, labelled, with the reason", () => {
    for (const label of ["small nudge", "hard manoeuvres"])
      expect(page.match(new RegExp(`>${label}</text>`, "g"))?.length).toBeGreaterThanOrEqual(2);
    expect(page).toContain("weaker and later than it is asked to");
    expect(page.match(/<figcaption>(Roll|Pitch): .*lower/g)?.length).toBe(2);
  });

  it("draws theory's circles in the throttle figures and says what they are", async () => {
    const circles = (text: string) => text.match(/Z["M]/g)?.length ?? 0;
    expect(circles(page)).toBeGreaterThan(circles(await renderPage(plain)) + 40);
    expect(page).toContain('their legend with those of <a href="#theory">theory</a>');
  });

  it("names three parameters of each axis, and says so where the boundary is gone", () => {
    expect(page.match(/<th scope="row">propeller diameter <small>key\.0<\/small>/g)).toHaveLength(2);
    expect(page).toContain("<td>−20.7 %</td><td>+26.3 %</td>");
    expect(page).toContain("<td>gone</td>");
  });

  it("stays sound as a page", () => {
    expect(page).not.toMatch(/NaN|Infinity|undefined|\bnull\b|\[object/);
    const levels = [...page.matchAll(/<h([1-6])[ >]/g)].map((found) => Number(found[1]));
    for (let k = 1; k < levels.length; k++) expect(levels[k]).toBeLessThanOrEqual((levels[k - 1] ?? 0) + 1);
  });
});

describe("where they part", () => {
  const alone = { ...worst, simulated: null, difference: null };
  const agreement = { script: "nudge", ends: 3, median: 2, worst: { ...worst, difference: -2 }, tolerance: 0.5 };

  it("counts and lists every place", async () => {
    const page = shown(
      await renderPage(withTheory(plain, { agreement: { ...agreement, disagreements: [worst, alone] } })),
    );
    expect(page).toContain("2 differ by more than 0.5 % or are seen by one side alone; they are listed below.");
    expect(page).toContain("Roll, 80 % throttle, fresh pack, D 3: theory P 40, trials P 40.1");
    expect(page).toContain("Pitch, 80 % throttle, fresh pack, D 3: theory P 40, trials none");
  });

  it("has words for nothing simulated and for nothing found", () => {
    const bare = theoryOf(plain, "roll", { agreement: null, step: null, sensitivity: null });
    expect(agreementWords(null, "roll", bare)).toMatch(/^Roll: the sweep has no small nudge/);
    expect(stepWords(null, bare)).toBe("");
    const empty = { ...agreement, ends: 0, median: null, worst: null, disagreements: [] };
    expect(agreementWords(null, "pitch", { ...bare, agreement: empty })).toMatch(
      /neither theory nor trials find an end/,
    );
    expect(shown(agreementWords(null, "pitch", { ...bare, agreement: { ...empty, disagreements: [alone] } }))).toMatch(
      /^Pitch: 1 differ/,
    );
  });

  it("still makes a page without agreement, step and sensitivity", async () => {
    const page = await renderPage(withTheory(plain, { agreement: null, step: null, sensitivity: null }));
    expect(page).toContain("theory finds no P at which it gives out");
    expect(page).not.toMatch(/NaN|undefined|\bnull\b/);
  });
});

describe("what to expect", () => {
  it("says how the attitude follows, where the map has it", async () => {
    const page = shown(await renderPage(withTheory(plain, { attitude: { bandwidth: 5.396, phaseDelay: 6.291 } })));
    expect(page).toMatch(/<th scope="row">Attitude bandwidth.*?<td>5\.4<\/td><td>5\.4<\/td>/s);
    expect(page).toMatch(/<th scope="row">Phase delay.*?<td>6\.29<\/td>/s);
    for (const attitude of [null, undefined])
      expect(await renderPage(withTheory(plain, attitude === undefined ? {} : { attitude }))).not.toContain(
        "Attitude bandwidth",
      );
  });
});

describe("theory's line over everything together", () => {
  const lineOf = (change: (row: number) => readonly (readonly [null, number | null])[]) => {
    const { loops } = theoryOf(plain, "roll");
    const [first] = loops;
    if (first === undefined) throw new Error("the fixture has loops");
    const high = { ...first, perD: plain.axes.roll.grid.d.map(() => [[null, 60] as const]) };
    const low = { ...first, perD: plain.axes.roll.grid.d.map((_, row) => change(row)) };
    const theory = { ...theoryOf(plain, "roll"), loops: [high, low] };
    const axis = { ...plain.axes.roll, boundary: { ...plain.axes.roll.boundary, theory } };
    return theoryWorstLines(axis, plain.axes.roll.grid).map((line) => line.map(([, p]) => p));
  };

  it("is the lowest of all levels at every D", () => {
    expect(lineOf((row) => [[null, row === 3 ? 61 : 40 + row]])).toEqual([
      plain.axes.roll.grid.d.map((_, row) => (row === 3 ? 60 : 40 + row)),
    ]);
  });

  it("is broken where a level has no stable P at all, and ends at the picture's edge", () => {
    const pieces = lineOf((row) => (row === 5 ? [] : [[null, 30]]));
    expect(pieces.map((piece) => piece.length)).toEqual([5, 10]);
    const { d, p } = plain.axes.roll.grid;
    const theory = theoryOf(plain, "roll");
    const axis = { ...plain.axes.roll, boundary: { ...plain.axes.roll.boundary, theory } };
    for (const line of theoryWorstLines(axis, { d, p: p.slice(0, 8) }))
      for (const [, end] of line) expect(end).toBeLessThanOrEqual(p[7] as number);
  });
});

describe("hard manoeuvres in words", () => {
  it("says the median and the largest, with its limiting case", () => {
    expect(shown(manoeuvreWords(plain, "roll"))).toMatch(
      /^Roll: [\d.]+ % lower in the middle, [\d.]+ % lower at D [\d.]+, the most: P [\d.]+ instead of [\d.]+ \(.*throttle, fresh pack\)\.$/,
    );
  });

  it("says that they take nothing where the lines are one", () => {
    const { byVariant } = plain.axes.roll.boundary;
    const nudge = byVariant.find(({ kind }) => kind === "nudge");
    const same = byVariant.map((one) => ({ ...one, perD: nudge?.perD ?? [] }));
    const roll = { ...plain.axes.roll, boundary: { ...plain.axes.roll.boundary, byVariant: same } };
    expect(manoeuvreWords({ ...plain, axes: { ...plain.axes, roll } }, "roll")).toBe(
      "Roll: hard manoeuvres take nothing from it.",
    );
  });

  it("says so where they never both lie within the range", () => {
    const roll = { ...plain.axes.roll, boundary: { ...plain.axes.roll.boundary, byVariant: [] } };
    expect(manoeuvreWords({ ...plain, axes: { ...plain.axes, roll } }, "roll")).toMatch(/no D shows both/);
  });
});
