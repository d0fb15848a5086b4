// --set: one change of a model without a file of its own, in check, sweep and compare; what it is never for.
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { emptyFolder, FILES, READABLE, run, runCached } from "./command.js";
import { runIn, workplace } from "./elsewhere.js";

const MODEL = "models/sandpiper-r1.yaml";
const GLANCE = "test/fixtures/glance.yaml";
const OWN_GLANCE = "sweeps/glance.yaml";
const CELLS = "pack.cells=5";

const mapIn = (folder: string) => JSON.parse(readFileSync(join(folder, "map.json"), "utf8"));

/** A folder with the shipped models and the glance among its sweeps. */
function glancing(): string {
  const folder = workplace();
  const text = readFileSync(GLANCE, "utf8").replace("../../models/", "../models/").replace("../../sweeps/", "");
  writeFileSync(join(folder, OWN_GLANCE), text);
  return folder;
}

/** A map without what says which model it is of. */
function withoutIdentity(map: ReturnType<typeof mapIn>) {
  const { airframe, provenance, model, plan, seal: _, ...rest } = map;
  const { digest: __, version: ___, ...craft } = airframe;
  const { command: ____, model: _____, ...run } = provenance;
  const { version: ______, changed: _______, ...physics } = model;
  const { digest: ________, ...question } = plan;
  return { ...rest, craft, run, physics, question };
}

describe("a sweep of a changed model", () => {
  it("gives the map of a file with that change, bit for bit, under a name and digest of its own", async () => {
    const [folder, home] = [emptyFolder(), emptyFolder()];
    const file = join(folder, "five.yaml");
    writeFileSync(file, readFileSync(MODEL, "utf8").replace("cells: 4", "cells: 5"));
    const [ofFile, ofSet] = [join(folder, "file"), join(folder, "set")];
    expect((await runCached(home, "sweep", GLANCE, "--model", file, "--out", ofFile, "--quiet")).code).toBe(0);
    const ended = await runCached(home, "sweep", GLANCE, "--set", CELLS, "--out", ofSet);
    expect(ended.code).toBe(0);
    expect(ended.stdout).toMatch(/^Sandpiper r1 with pack\.cells = 5, A glance/);
    expect(ended.stdout, "the same trials: cached ones are taken").toMatch(/ of them cached/);
    const [written, changed] = [mapIn(ofFile), mapIn(ofSet)];
    expect(withoutIdentity(changed)).toEqual(withoutIdentity(written));
    expect(changed.airframe.version).toBe("r1 with pack.cells = 5");
    expect(changed.model.changed).toEqual([CELLS]);
    expect(new Set([changed, written].map(({ airframe }) => airframe.digest)).size).toBe(2);
    expect(new Set([changed, written].map(({ plan }) => plan.digest)).size).toBe(2);
    expect(changed.provenance.command).toBe(`gainscape sweep ${GLANCE} --model ${MODEL} --set ${CELLS}`);
    const page = readFileSync(join(ofSet, "index.html"), "utf8");
    expect(page).toMatch(/<h1>Sandpiper r1 with pack\.cells = 5<\/h1>/);
    expect(page).toContain(`--set ${CELLS}`);
  });

  it("is written beside that of the file, never over it, and its map draws and compares as any", async () => {
    const folder = glancing();
    const swept = await runIn(folder, "sweep", OWN_GLANCE, "--set", CELLS, "--quiet");
    expect(swept).toMatchObject({ code: 0, stderr: "" });
    const own = join(folder, "reports/glance/sandpiper-r1-with-pack-cells-5-50834df0");
    for (const name of FILES) expect(readFileSync(join(own, name), "utf8")).not.toBe("");
    expect((await runIn(folder, "report", own, "--quiet")).code).toBe(0);
    expect((await runIn(folder, "compare", own, own, "--quiet")).code).toBe(0);
  });

  it("is put together from shards as any", async () => {
    const [folder, home] = [emptyFolder(), emptyFolder()];
    const words = ["sweep", GLANCE, "--set", CELLS, "--quiet", "--out"];
    for (const share of ["1/2", "2/2"])
      expect((await run(...words, join(folder, "shards"), "--shard", share)).code).toBe(0);
    expect((await run("merge", join(folder, "shards"), "--out", join(folder, "merged"), "--quiet")).code).toBe(0);
    expect((await runCached(home, ...words, join(folder, "whole"))).code).toBe(0);
    const [merged, whole] = ["merged", "whole"].map((name) => readFileSync(join(folder, name, "map.json"), "utf8"));
    expect(merged).toBe(whole);
  });
});

describe("compare of a model and a change of it", () => {
  it("answers by theory alone in its first line, and writes nothing", async () => {
    const folder = workplace();
    const { code, stdout, stderr } = await runIn(folder, "compare", MODEL, "--set", "controller.latency=2 ms");
    expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
    const [first, second] = stdout.split("\n");
    expect(first).toMatch(
      /^Multiply P by 0\.\d\d ± 0\.\d\d and D by 0\.\d\d ± 0\.\d\d: delay of P 1\.76 to 3\.01 ms, delay of D/,
    );
    expect(second).toBe("Sandpiper r1 with controller.latency = 2 ms, beside Sandpiper r1.");
    expect(stdout).toMatch(READABLE);
    expect(() => readFileSync(join(folder, "reports"))).toThrow(/ENOENT/);
  });

  it("halves P and D where the craft turns twice as easily", async () => {
    const { stdout } = await run("compare", MODEL, "--set", "loop_gain=2", "--json");
    const { axes, format } = JSON.parse(stdout);
    expect(format).toBe("gainscape.what-if/1");
    // The air that damps the turn counts twice as much as well, which P has to make up for.
    for (const { factors, margins } of [axes.roll, axes.pitch]) {
      expect(Math.abs(factors.p.value - 0.5)).toBeLessThan(0.03);
      expect(Math.abs(factors.d.value - 0.5)).toBeLessThan(0.03);
      expect(margins.after.gainUp).toBeCloseTo(margins.before.gainUp, 3);
      expect(margins.after.phase).toBeCloseTo(margins.before.phase, 2);
    }
  });

  it("leaves P and D where nothing of the loop changes", async () => {
    const { stdout } = await run("compare", MODEL, "--set", "pack.capacity=1500 mAh");
    expect(stdout).toMatch(/^Leave P and D as they are: neither authority nor lag nor delay changes\.\n/);
  });

  it("says where yaw alone stands in the way, whose gains no factor changes", async () => {
    const words = ["compare", "models/dunlin-r1.yaml", "--set", "controller.latency=2 ms"];
    const { stdout } = await run(...words);
    expect(stdout).toMatch(/^No factors of P and D .*\n.*\nYaw is unstable then at the model’s own gains/);
    const lower = await run(...words, "--set", "controller.gains.yaw.p=10 %/(100 deg/s)");
    expect(lower.stdout).toMatch(/^Multiply P by 0\.\d\d and D by 0\.\d\d: delay of P/);
  });

  it("names both axes where they differ", async () => {
    const { stdout } = await run("compare", MODEL, "--set", "rotors[0].at=[130 mm, -75 mm, 12 mm]");
    expect(stdout).toMatch(
      /^Multiply roll’s P by .* and roll’s D by .*, pitch’s P by .*: authority of roll .*, of pitch /,
    );
  });

  it("simulates both under a sweep, into a folder and under a title that say the change", async () => {
    const folder = glancing();
    const words = ["compare", MODEL, "--set", CELLS, "--sweep", OWN_GLANCE];
    const { code, stdout } = await runIn(folder, ...words);
    expect([0, 1]).toContain(code);
    expect(stdout).toMatch(/^By theory: multiply P by .*\n\nSandpiper r1 → r1 with pack\.cells = 5, A glance: /);
    const out = join(folder, "reports/comparisons/glance/sandpiper-r1-to-sandpiper-r1-with-pack-cells-5-50834df0");
    const drift = JSON.parse(readFileSync(join(out, "drift.json"), "utf8"));
    expect(drift.model).toEqual([{ key: "pack.cells", before: "4", after: "5" }]);
    expect(drift.notes[0]).toMatch(/^By theory: multiply P by /);
    expect(readFileSync(join(out, "index.html"), "utf8")).toContain("r1 with pack.cells = 5");
    // Both maps are those that sweeps of the two write.
    expect(mapIn(join(folder, "reports/glance/sandpiper-r1")).airframe.version).toBe("r1");
  });
});

describe("check of a changed model", () => {
  it("prints its sheet", async () => {
    const { code, stdout } = await run("check", MODEL, "--set", "pack.cells=6");
    expect(code).toBe(0);
    expect(stdout).toMatch(/^models\/sandpiper-r1\.yaml: model Sandpiper r1 with pack\.cells = 6\n/);
    expect(stdout).toMatch(/Thrust to weight +1 +12\.7/);
  });
});

describe("--set where it is wrong is one line and exit code 2", () => {
  it.each([
    ["a baseline", ["baseline", GLANCE, "--set", CELLS], /^--set: a baseline is the map of a model's file; expected/],
    ["a gate", ["gate", GLANCE, "--set", CELLS], /^--set: a side of a gate is the map of a model's file; expected/],
    ["a sweep to check", ["check", GLANCE, "--set", CELLS], /this is a sweep; expected a model, whose keys --set sets/],
    ["a sweep to compare", ["compare", GLANCE, "--set", CELLS], /this is a sweep; expected a model/],
    ["two models", ["compare", MODEL, MODEL, "--set", CELLS], /--set changes one model; expected/],
    ["a model from and to", ["compare", MODEL, "--from", MODEL, "--set", CELLS], /--set changes one model; expected/],
    ["a folder for theory", ["compare", MODEL, "--out", "x", "--set", CELLS], /--out is for what is simulated/],
    [
      "a sweep without a change",
      ["compare", MODEL, "--sweep", GLANCE],
      /--sweep is for a changed model; expected --set/,
    ],
    ["a bad key in a sweep", ["sweep", GLANCE, "--set", "pack.cels=5"], /^--set pack\.cels: .*did you mean "cells"/],
    ["a bad value in a check", ["check", MODEL, "--set", "motor.kv=fast"], /^--set motor\.kv: /],
    [
      "gains that do not hold an axis",
      ["sweep", GLANCE, "--set", "controller.gains.yaw.p=900 %/(100 deg/s)"],
      /^models\/sandpiper-r1\.yaml --set 'controller\.gains\.yaw\.p=900 .*yaw is unstable/,
    ],
  ])("%s", async (_, words, message) => {
    const { code, stdout, stderr } = await run(...words);
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    expect(stderr).toMatch(message);
    expect(stderr).toMatch(READABLE);
    expect(stderr.trimEnd().split("\n")).toHaveLength(1);
  });
});
