// Why two real maps differ: parts beside the trials of both, in every form a comparison has.
import { beforeAll, describe, expect, it } from "vitest";
import type { Airframe } from "../../src/airframe/airframe.js";
import { baselineOf, mapOfBaseline } from "../../src/compare/baseline.js";
import type { Drift } from "../../src/compare/format.js";
import type { WhyParts } from "../../src/compare/why-format.js";
import type { StabilityMap } from "../../src/map/format.js";
import { renderComparison, renderDriftMarkdown, renderDriftTable, renderJunit } from "../../src/report/index.js";
import { axisWhyLines, gateWhy, whyLine, whyTable } from "../../src/words/why-words.js";
import { stretchedX } from "../fixtures/airframe.js";
import { driftOf, simulatedMap, slower } from "./maps.js";

const plain = (text: string | null | undefined): string => (text ?? "").replaceAll("\u00a0", " ");

/** A slower filter, more latency and more mass, and what theory does not read. */
const changed: Airframe = {
  ...slower,
  mass: 0.66,
  controller: { ...slower.controller, latency: 2e-3 },
  wash: { ...slower.wash, rms: 0.2 },
};

let [base, candidate]: StabilityMap[] = [];
let drift: Drift;
beforeAll(async () => {
  [base, candidate] = [await simulatedMap(stretchedX), await simulatedMap(changed)];
  drift = driftOf(base, candidate);
});

const measures = (of: Drift): WhyParts[] =>
  (["roll", "pitch"] as const).flatMap((axis) => {
    const { boundary, gainMargin, phaseMargin, startP, startD } = of.why?.axes[axis] ?? {};
    return [boundary, gainMargin, phaseMargin, startP, startD].filter((one) => one != null);
  });

describe("why two maps differ", () => {
  it("is told by the numbers that changed, and what theory does not read is named", () => {
    const ids = drift.why?.changes.map(({ numbers }) => numbers.map(({ id, change }) => `${id} ${change}`).join(" + "));
    expect(ids?.sort()).toEqual(["controller.latency more", "frame other", "sensing.low_pass more"]);
    expect(drift.why?.unread).toEqual(["wash.rms"]);
  });

  it("adds up, measure by measure", () => {
    expect(measures(drift).length).toBeGreaterThanOrEqual(6);
    for (const { whole, parts } of measures(drift))
      expect(parts.reduce((sum, part) => sum + part, 0)).toBeCloseTo(whole, 3);
  });

  // Linear theory and nudges small enough to be linear: the boundary is refined to half a per cent of P.
  it("is confirmed by trials: the boundary's whole move is theirs to two per cent of P", () => {
    for (const axis of ["roll", "pitch"] as const) {
      const boundary = drift.why?.axes[axis].boundary;
      expect(boundary?.simulated ?? Number.NaN).toBeLessThan(-20);
      expect(Math.abs((boundary?.simulated ?? 0) - (boundary?.whole ?? 0))).toBeLessThan(2);
    }
  });

  it("moves margins as the maps' own pinned points have them", () => {
    const { gainMargin, phaseMargin } = drift.why?.axes.roll ?? {};
    const { before, after } = drift.axes.roll.pinned ?? {};
    const moved = (of: (margins: { gainUp: number | null; phase: number }) => number | null) =>
      (of(after?.margins ?? { gainUp: 0, phase: 0 }) ?? 0) - (of(before?.margins ?? { gainUp: 0, phase: 0 }) ?? 0);
    expect(gainMargin?.whole).toBeCloseTo(
      moved(({ gainUp }) => gainUp),
      2,
    );
    expect(phaseMargin?.whole).toBeCloseTo(
      moved(({ phase }) => phase),
      1,
    );
  });

  it("is the same from a baseline as from its map", () => {
    if (base === undefined || candidate === undefined) throw new Error("no maps");
    const stored = JSON.parse(JSON.stringify(baselineOf(base)));
    expect(driftOf(mapOfBaseline(stored), candidate).why).toEqual(drift.why);
  });

  it("is nothing where nothing changed, or a map lacks its model", () => {
    if (base === undefined || candidate === undefined) throw new Error("no maps");
    expect(driftOf(base, base).why).toBeNull();
    const bare = { ...base, model: { name: "Test craft", version: "1" } };
    expect(driftOf(bare, candidate).why).toBeNull();
    expect(whyLine(driftOf(bare, candidate))).toBeNull();
  });
});

describe("why, in words", () => {
  it("is one line with the whole, the largest part first, and what the trials say", () => {
    const line = plain(whyLine(drift));
    expect(line).toMatch(
      /^Why: (roll|pitch), boundary at D [\d.]+ −\d+ % by theory: −\d+ % (more latency \(controller\.latency\)|a slower gyro filter \(sensing\.low_pass\)), .*; trials say .*\.$/,
    );
    expect(line.match(/−(\d+) % (?:more latency|a slower gyro)/g)).toHaveLength(2);
  });

  it("prints parts that add up to the printed whole, to the last digit printed for each", () => {
    for (const axis of ["roll", "pitch"] as const)
      for (const line of axisWhyLines(drift, axis).map(plain)) {
        const [head = "", rest = ""] = (line.split(";")[0] ?? "").split(": ");
        const numbers = (text: string) =>
          [...text.matchAll(/([+−])(\d+(?:\.\d+)?)(?: %| dB|°)/g)].map(
            ([, sign, size]) => (sign === "−" ? -1 : 1) * Number(size),
          );
        const parts = numbers(rest);
        const whole = numbers(head).at(-1) ?? Number.NaN;
        const step = /\.\d/.test(rest) ? 0.1 : 1;
        const sum = parts.reduce((so, part) => so + part, 0);
        expect(Math.abs(sum - whole), line).toBeLessThanOrEqual(((parts.length + 1) / 2) * step + 1e-9);
      }
  });

  it("stands in the failure of a gate, in the terminal, in Markdown and on the page", async () => {
    if (base === undefined || candidate === undefined) throw new Error("no maps");
    const failed = drift.gates.find(({ gate, outcome }) => gate === "boundaryFall" && outcome === "fail");
    if (failed === undefined) throw new Error("no failed gate");
    const why = plain(gateWhy(drift, failed));
    expect(why).toContain("controller.latency");
    expect(plain(renderJunit([drift]))).toContain(`; why: ${why}"`);
    expect(plain(renderDriftTable(drift)).split("\n")[1]).toBe(plain(whyLine(drift)));
    expect(plain(renderDriftMarkdown(drift))).toContain("### Why it moved");
    const page = plain(await renderComparison({ drift, base, candidate }));
    for (const [change] of whyTable(drift)?.rows ?? []) expect(page).toContain(`<th scope="row">${change}</th>`);
    expect(page.indexOf("Why it moved")).toBeLessThan(page.indexOf("Gate by gate"));
    expect(page).toContain("Before you fly");
  });
});
