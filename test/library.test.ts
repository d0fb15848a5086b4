// The package used as a library: the same flow as the command line, from what a caller can import.
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import {
  InputError,
  MEASURES,
  modelOf,
  type Progress,
  planFor,
  readAirframe,
  readSweep,
  renderSummary,
  simulate,
  version,
  writeReport,
} from "../src/index.js";

const folder = mkdtempSync(join(tmpdir(), "gainscape-library-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("the library", () => {
  it("reads, plans, simulates and writes a sweep", async () => {
    const sweep = readSweep("test/fixtures/glance.yaml");
    const plan = planFor(readAirframe(modelOf(sweep)), sweep);
    const reports: Progress[] = [];
    const { map, figures } = await simulate(plan, {
      workers: 0,
      onProgress: (progress) => reports.push(progress),
      provenance: {
        productVersion: version(),
        command: "a test",
        model: modelOf(sweep),
        sweep: "test/fixtures/glance.yaml",
      },
    });
    const points = plan.sweep.grid.roll.p.length * plan.sweep.grid.roll.d.length;
    expect(figures.gridTrials).toBe(points * plan.variants.length);
    expect(reports.filter(({ stage }) => stage === "grid").at(-1)).toMatchObject({
      stage: "grid",
      trials: figures.gridTrials,
      of: figures.gridTrials,
    });
    expect(map.axes.roll.verdict).toHaveLength(plan.sweep.grid.roll.d.length);
    expect(map.axes.roll.verdict[0]).toHaveLength(plan.sweep.grid.roll.p.length);
    expect(Object.keys(map.axes.pitch.measures).sort()).toEqual(MEASURES.map(({ id }) => id).sort());
    const files = await writeReport(map, folder);
    expect(readdirSync(folder).sort()).toEqual(["card.html", "index.html", "map.json", "points.csv"]);
    const { seal, ...written } = JSON.parse(readFileSync(files.map, "utf8"));
    expect(seal).toMatch(/^[0-9a-f]{64}$/);
    expect(written).toEqual(JSON.parse(JSON.stringify(map)));
    expect(readFileSync(files.points, "utf8").trimEnd().split("\n")).toHaveLength(1 + 2 * points);
    expect(renderSummary(map)).toContain("Roll:");
  });

  it("throws one error for bad input, with every problem and its place", () => {
    try {
      readAirframe("test/fixtures/no-such-model.yaml");
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(InputError);
      expect((error as InputError).problems[0]).toMatchObject({ file: "test/fixtures/no-such-model.yaml", line: 0 });
    }
  });
});
