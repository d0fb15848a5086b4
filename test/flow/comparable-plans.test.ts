// One grid and one set of tails for both sides of a comparison, from files to plans, baseline and drift.
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { writeBaseline } from "../../src/flow/baseline.js";
import { comparablePlans } from "../../src/flow/comparable-plans.js";
import { compare } from "../../src/flow/compare.js";
import { baselineRequest, gatePairs } from "../../src/flow/gate.js";
import { planFor } from "../../src/flow/plan.js";
import { readAirframe, readSweep } from "../../src/flow/read.js";
import { readMap } from "../../src/flow/read-map.js";
import { mapFor } from "../../src/flow/run-map.js";
import type { Plan } from "../../src/plan/plan.js";
import { complaintsOf } from "../fixtures/complaints.js";

const home = mkdtempSync(join(tmpdir(), "gainscape-"));
afterAll(() => rmSync(home, { recursive: true, force: true }));

const SCRIPTS = resolve("sweeps/scripts");
const sweepText = (rest: string, grid = "auto 10 x 8") => `format: gainscape.sweep/1
name: pair
title: Two crafts on one grid
model: base.yaml
seed: 3
grid: ${grid}
scripts: [{use: ${SCRIPTS}/nudge.yaml}]
conditions: [{name: fresh pack, charge: 100 %}]
boundary_tolerance: 2 %
baseline: {candidates: [candidate.yaml]}
${rest}`;

const write = (name: string, text: string): string => {
  const file = join(home, name);
  writeFileSync(file, text);
  return file;
};
const GODWIT = readFileSync("test/fixtures/godwit.yaml", "utf8");
/** The same craft with a filter and a latency that make it swing half as fast again. */
const quicker = GODWIT.replace("cutoff: 10 Hz", "cutoff: 40 Hz").replace("latency: 10 ms", "latency: 4 ms");

let sweepFile = "";
let baseFile = "";
let candidateFile = "";
beforeAll(() => {
  sweepFile = write("pair.yaml", sweepText(""));
  baseFile = write("base.yaml", quicker);
  candidateFile = write("candidate.yaml", GODWIT.replace("version: r1", "version: r2"));
});

const tails = ({ variants }: Plan) => variants.map(({ script }) => script.tail);

describe("plans of two crafts under grid: auto", () => {
  it("have the base's lines, and the longer tails, on both sides", () => {
    const sweep = readSweep(sweepFile);
    const [quick, slow] = [readAirframe(baseFile), readAirframe(candidateFile)];
    const own = [planFor(quick, sweep), planFor(slow, sweep)] as const;
    expect(own[0].sweep.grid).not.toEqual(own[1].sweep.grid);
    const [base, candidate] = comparablePlans([quick, slow], sweep) as [Plan, Plan];
    expect(base.sweep.grid).toEqual(own[0].sweep.grid);
    expect(candidate.sweep.grid).toEqual(own[0].sweep.grid);
    expect(tails(candidate)).toEqual(tails(base));
    expect(tails(base)[0]?.to).toBeGreaterThan(tails(own[0])[0]?.to as number); // or this test shows nothing
    expect([base.shared, candidate.shared]).toEqual([true, true]);
    expect(base.assumed.at(-1)).toMatch(/^Tails are as long as the slower/);
  });

  it("are each craft's own where nothing is left to the plan and nobody is slow", () => {
    const sweep = readSweep("sweeps/propeller-change.yaml");
    const models = ["models/sandpiper-r1.yaml", "models/sandpiper-r2.yaml"].map(readAirframe);
    const [first, second] = models as [(typeof models)[0], (typeof models)[0]];
    const plans = comparablePlans([first, second], sweep);
    expect(plans.map(({ digests }) => digests.plan)).toEqual(models.map((one) => planFor(one, sweep).digests.plan));
    expect(plans.map(({ shared }) => shared)).toEqual([undefined, undefined]);
  });

  it("are the base's alone under two sweeps of their own, which cannot be compared, and the message says how", async () => {
    const sweep = readSweep(sweepFile);
    const sides = await Promise.all(
      [baseFile, candidateFile].map(async (file) => {
        const model = readAirframe(file);
        return { name: file, map: await mapFor({ sweep, model, plan: planFor(model, sweep) }, { workers: 0 }) };
      }),
    );
    const [base, candidate] = sides as [(typeof sides)[0], (typeof sides)[0]];
    const lines = complaintsOf(() => compare(base, candidate, { command: "" }));
    expect(lines.some((line) => / grid(\.roll)?\.p: /.test(line))).toBe(true);
    expect(lines.at(-1)).toMatch(
      /grid auto gives each craft lines of its own; gainscape compare SWEEP --from MODEL --to MODEL/,
    );
  });
});

describe("a baseline", () => {
  const baselines = join(home, "baselines");

  it("carries its lines and tails that its candidate needs; the gate simulates the candidate with both", async () => {
    const request = baselineRequest(sweepFile);
    const map = await mapFor(request, { workers: 0 });
    mkdirSync(baselines, { recursive: true });
    const file = join(baselines, "pair/godwit-r1.json");
    mkdirSync(join(baselines, "pair"), { recursive: true });
    writeBaseline(map, file);
    const [pair] = gatePairs([sweepFile], baselines);
    expect(pair?.notes).toEqual([]);
    expect(pair?.plan.sweep.grid).toEqual(request.plan.sweep.grid);
    expect(tails(pair?.plan as Plan)).toEqual(tails(request.plan));
    expect(tails(request.plan)).not.toEqual(tails(planFor(readAirframe(baseFile), readSweep(sweepFile))));
    const made = await mapFor(pair as NonNullable<typeof pair>, { workers: 0 });
    expect(made.provenance.command).toMatch(/^gainscape gate /);
    const { drift } = compare({ name: file, map: readMap(file) }, { name: "candidate", map: made }, { command: "" });
    expect(drift.gates.find(({ gate, axis }) => gate === "boundaryFall" && axis === "pitch")?.skipReason).toBeNull();
    expect(drift.notes.filter((note) => note.startsWith("Tails differ"))).toEqual([]);
  });

  it("is not judged against a file that asks for other lines", () => {
    const other = (grid: string) => {
      writeFileSync(sweepFile, sweepText("", grid));
      const lines = complaintsOf(() => gatePairs([sweepFile], baselines));
      writeFileSync(sweepFile, sweepText(""));
      return lines[0];
    };
    expect(other("auto 12 x 8")).toMatch(/grid\.roll: auto 12 x 8, but auto 10 x 8 in /);
    expect(
      other(
        "{p: {from: 5 %/(100 deg/s), to: 90 %/(100 deg/s), points: 10}, d: {from: 0 %/(1000 deg/s^2), to: 9 %/(1000 deg/s^2), points: 8}}",
      ),
    ).toMatch(/grid.*: 5 %\/\(100 deg\/s\) to 90 .* in 10 points, but /);
  });

  it("is noted as too short where its candidate has become slower since, which gets longer tails all the same", () => {
    const slower = GODWIT.replace("version: r1", "version: r2").replace("inertia: 2.4e-2", "inertia: 6e-2");
    writeFileSync(candidateFile, slower);
    const [pair] = gatePairs([sweepFile], baselines);
    expect(pair?.notes).toEqual([
      expect.stringMatching(/swings too slowly for the baseline's tails .* write the baseline again/),
    ]);
    const short = tails(baselineRequest(sweepFile).plan)[0]?.to as number;
    expect(tails(pair?.plan as Plan)[0]?.to).toBeCloseTo(short, 9); // as a new baseline's would be
  });
});
