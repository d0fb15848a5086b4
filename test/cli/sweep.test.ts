import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { StabilityMap } from "../../src/map/format.js";
import { emptyFolder, FILES, READABLE, run, start, startWith } from "./command.js";

const GLANCE = "test/fixtures/glance.yaml";
const QUICK = "test/fixtures/quick.yaml";
const LONG = "test/cli/long.yaml";

const mapIn = (folder: string): StabilityMap => JSON.parse(readFileSync(join(folder, "map.json"), "utf8"));

describe("a quick sweep", () => {
  it("ends with 0, leaves its files and says where", async () => {
    const out = join(emptyFolder(), "deep", "er");
    const { code, stdout, stderr } = await start("sweep", QUICK, "--out", out, "--workers", "2").ended;
    expect(code).toBe(0);
    expect(readdirSync(out).sort()).toEqual(FILES);
    expect(stdout).toContain(`Report: ${join(out, "index.html")}\n`);
    expect(stderr).toMatch(/^grid: 100 %, \d+ of \d+ trials/m);
    expect(stdout + stderr).toMatch(READABLE);
    const map = mapIn(out);
    expect(map.format).toBe("gainscape.map/2");
    expect(map.provenance.command).toBe(`gainscape sweep ${QUICK} --model models/sandpiper-r1.yaml`);
    expect(map.axes.roll.verdict.length).toBe(map.axes.roll.grid.d.length);
    expect(readFileSync(join(out, "index.html"), "utf8")).toMatch(/^<!doctype html>[\s\S]*<\/html>\s*$/i);
  });

  it("--json prints the outcome and nothing else", async () => {
    const out = emptyFolder();
    const { code, stdout, stderr } = await run("sweep", GLANCE, "--out", out, "--json");
    expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
    const outcome = JSON.parse(stdout);
    expect(outcome.airframe.name).toBe("Sandpiper");
    expect(outcome.roll.start).toEqual(mapIn(out).axes.roll.start);
    expect(outcome.files.map).toBe(join(out, "map.json"));
  });

  it("--quiet prints nothing, and the map is the same file", async () => {
    const [one, two] = [emptyFolder(), emptyFolder()];
    expect(await run("sweep", GLANCE, "--out", one, "--quiet", "--workers", "1")).toEqual({
      code: 0,
      stdout: "",
      stderr: "",
    });
    await run("sweep", GLANCE, "--out", two, "--quiet", "--workers", "3");
    expect(readFileSync(join(two, "map.json")).equals(readFileSync(join(one, "map.json")))).toBe(true);
  });

  it("--model simulates another model", async () => {
    const out = emptyFolder();
    const { code } = await run("sweep", GLANCE, "--out", out, "--quiet", "--model", "models/sandpiper-r2.yaml");
    expect(code).toBe(0);
    expect(mapIn(out).airframe).toMatchObject({ name: "Sandpiper", version: "r2" });
  });
});

describe("what stops a sweep before it starts", () => {
  it("a folder that is a file", async () => {
    const { code, stderr } = await run("sweep", GLANCE, "--out", "package.json");
    expect(code).toBe(2);
    expect(stderr).toMatch(/package\.json.*is a file, expected a folder/);
    expect(stderr).not.toContain("grid:");
  });

  it("a model where a sweep was expected", async () => {
    const { code, stderr } = await run("sweep", "models/sandpiper-r1.yaml");
    expect(code).toBe(2);
    expect(stderr).toMatch(/^models\/sandpiper-r1\.yaml: this is a model; /);
  });

  it("a model that is not there", async () => {
    const { code, stderr } = await run("sweep", GLANCE, "--model", "models/nowhere.yaml");
    expect(code).toBe(2);
    expect(stderr).toContain("models/nowhere.yaml: no such file");
  });
});

describe("an interrupted sweep", () => {
  it.each([
    ["SIGINT", ""],
    ["SIGTERM", ""],
    ["SIGHUP", "terminal"], // without one, see streams.test.ts
  ] as const)("%s ends it with 3 and leaves no file", async (signal, kind) => {
    const out = join(emptyFolder(), "out");
    const around = { environment: { SABOTAGE: kind }, preload: "test/cli/sabotage.mjs" };
    const { child, ended, says } = startWith(around, "sweep", LONG, "--out", out, "--workers", "2");
    await says("grid: 1");
    child.kill(signal);
    const { code, stdout, stderr } = await ended;
    expect({ code, stdout }).toEqual({ code: 3, stdout: "" });
    expect(stderr).toMatch(/^missing: \d+ of nudge, roll, throttle \d+ %, fresh pack$/m);
    expect(stderr).toMatch(
      /incomplete: interrupted; \d+ trials of this stage are missing, finished trials are cached: .*\n$/,
    );
    expect(existsSync(out)).toBe(false);
  });
});

describe("a reader that goes away", () => {
  it("before the summary: the work is done all the same, with 0 and no complaint", async () => {
    const out = emptyFolder();
    const { child, ended } = start("sweep", GLANCE, "--out", out);
    child.stdout?.destroy();
    const { code, stderr } = await ended;
    expect(code).toBe(0);
    expect(stderr).not.toMatch(/EPIPE|bug/);
    expect(readdirSync(out).sort()).toEqual(FILES);
  });

  it("from the progress: the work is done all the same", async () => {
    const out = emptyFolder();
    const { child, ended } = start("sweep", GLANCE, "--out", out);
    child.stderr?.destroy();
    const { code } = await ended;
    expect(code).toBe(0);
    expect(readdirSync(out).sort()).toEqual(FILES);
  });
});
