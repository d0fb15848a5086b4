// What may go wrong around a run, done to the real command line: the right exit code, whole files or none, a word on
// what is missing, and an end.
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { type Around, emptyFolder, FILES, READABLE, run, runCached, runWith, startWith } from "./command.js";
import type { Ended } from "./served.js";

const GLANCE = "test/fixtures/glance.yaml";
const TASKS = "test/fixtures/tasks.yaml";
const QUICK = "test/fixtures/quick.yaml";
const LONG = "test/cli/long.yaml";
const SABOTAGE = "test/cli/sabotage.mjs";

/** A sweep under which something happens to a folder as the first progress is printed. */
const runUntil = (kind: string, folder: string, around: Around = {}, out = folder): Promise<Ended> => {
  const environment = { XDG_CACHE_HOME: emptyFolder(), SABOTAGE: kind, SABOTAGE_AT: folder };
  return runWith({ ...around, environment, preload: SABOTAGE }, "sweep", GLANCE, "--out", out, "--workers", "1");
};

describe("a worker that is lost", () => {
  it.each([
    ["exits", 3, /incomplete: a worker .*; \d+ trials of this stage are missing/],
    ["hoards", 3, /incomplete: a worker was lost: .*memory.*; \d+ trials of this stage are missing/],
    ["hangs", 3, /incomplete: a task took longer than [\d.]+ s; \d+ trials of this stage are missing/],
    ["throws", 70, /gainscape has a bug: sabotaged/],
  ])("%s: the run ends with %d, and the next one goes on from there", async (kind, expected, message) => {
    const out = join(emptyFolder(), "out");
    const cache = emptyFolder();
    // More than a task of 128 trials counts with its setup (136), less than it and one of 16 (160): whichever worker has
    // them, one is lost after it has ended a task.
    const environment = { XDG_CACHE_HOME: cache, SABOTAGE: kind, SABOTAGE_AFTER: "145" };
    const words = ["sweep", TASKS, "--out", out, "--workers", "2"];
    const { code, stdout, stderr } = await runWith({ environment, preload: SABOTAGE }, ...words);
    expect({ code, stdout }).toEqual({ code: expected, stdout: "" });
    expect(stderr).toMatch(message);
    expect(stderr).toMatch(READABLE);
    if (code === 3) expect(stderr).toMatch(/^missing: \d+ of [a-z-]+, (roll|pitch), throttle \d+ %, fresh pack$/m);
    expect(existsSync(out)).toBe(false);
    const again = await runCached(cache, ...words);
    expect([again.code, /[1-9]\d* of them cached/.test(again.stdout)]).toEqual([0, true]);
    expect(readdirSync(out).sort()).toEqual(FILES);
  });
});

describe("a place that takes no files", () => {
  it("full in the middle of one: 3, named, and no part of it is left", async () => {
    const out = emptyFolder();
    // Nothing larger than 16 blocks of 1 KiB: the map does not fit.
    const { code, stderr } = await runWith(
      { shell: "ulimit -f 16" },
      "sweep",
      GLANCE,
      "--out",
      out,
      "--quiet",
      "--no-cache",
    );
    expect(code).toBe(3);
    expect(stderr).toMatch(/^incomplete: .*map\.json could not be written \(E\w+\)\n$/);
    expect(readdirSync(out)).toEqual([]);
  });

  it("full for the cache alone: the run ends well and says that nothing is cached", async () => {
    const out = emptyFolder();
    const cache = join(emptyFolder(), "file");
    writeFileSync(cache, "in the way");
    const { code, stderr } = await run("sweep", GLANCE, "--out", out, "--quiet", "--cache", cache);
    expect(code).toBe(0);
    expect(stderr).toMatch(/^cache: .* could not be written \(\w+\); this run goes on without caching its trials\n$/);
    expect(readdirSync(out).sort()).toEqual(FILES);
  });

  it("read-only from the start: 2 before anything is simulated", async () => {
    const out = emptyFolder();
    chmodSync(out, 0o500);
    const around: Around = { heldToModes: true, environment: { XDG_CACHE_HOME: emptyFolder() } };
    const { code, stderr } = await runWith(around, "sweep", GLANCE, "--out", join(out, "deeper"));
    expect({ code, stderr }).toEqual({
      code: 2,
      stderr: `${join(out, "deeper")}: cannot be written into: permission denied\n`,
    });
    chmodSync(out, 0o700);
  });

  it("read-only since the run began: 3, named, nothing left", async () => {
    const out = emptyFolder();
    const { code, stderr } = await runUntil("shut", out, { heldToModes: true }, join(out, "deeper"));
    expect(code).toBe(3);
    expect(stderr).toMatch(/incomplete: .*map\.json could not be written \(EACCES\)\n$/);
    chmodSync(out, 0o700);
    expect(readdirSync(out)).toEqual([]);
  });

  it("a read-only cache: reported, and no harm", async () => {
    const shut = emptyFolder();
    chmodSync(shut, 0o500);
    const out = emptyFolder();
    const around: Around = { heldToModes: true, environment: { XDG_CACHE_HOME: shut } };
    const { code, stderr } = await runWith(around, "sweep", GLANCE, "--out", out, "--quiet");
    expect(code).toBe(0);
    expect(stderr).toMatch(
      /^cache: .* could not be written \(EACCES\); this run goes on without caching its trials\n$/,
    );
    chmodSync(shut, 0o700);
  });
});

describe("an output folder pulled away while the run is under way", () => {
  const during = async (kind: string) => {
    const out = join(emptyFolder(), "out");
    mkdirSync(out);
    return { out, ...(await runUntil(kind, out)) };
  };

  it("is made again, with complete files", async () => {
    const { out, code } = await during("gone");
    expect(code).toBe(0);
    expect(readdirSync(out).sort()).toEqual(FILES);
  });

  it("and a file put in its place: 3, named, the file untouched", async () => {
    const { out, code, stderr } = await during("replaced");
    expect(code).toBe(3);
    expect(stderr).toMatch(/incomplete: .*map\.json could not be written \(\w+\)\n$/);
    expect(readFileSync(out, "utf8")).toBe("mine");
  });
});

describe("clock, locale and time zone", () => {
  const bytes = async (sweep: (...words: string[]) => Promise<Ended>) => {
    const out = emptyFolder();
    const { code, stderr } = await sweep("sweep", QUICK, "--out", out, "--quiet");
    expect([code, stderr]).toEqual([0, ""]);
    return FILES.map((file) => readFileSync(join(out, file), "utf8"));
  };

  it("change no byte of any file", async () => {
    const environment = { SABOTAGE: "clock", TZ: "Pacific/Kiritimati", LANG: "tr_TR.UTF-8", LC_ALL: "tr_TR.UTF-8" };
    const elsewhere = await bytes((...words) => runWith({ environment, preload: SABOTAGE }, ...words));
    expect(elsewhere).toEqual(await bytes(run));
  });
});

describe("a second signal", () => {
  it("while the first is being obeyed changes nothing", async () => {
    const out = join(emptyFolder(), "out");
    const { child, ended, says } = startWith({}, "sweep", LONG, "--out", out, "--workers", "2");
    await says("grid: 1");
    child.kill("SIGTERM");
    child.kill("SIGINT");
    expect((await ended).code).toBe(3);
    expect(existsSync(out)).toBe(false);
  });

  it("nor does an impatient one of the same kind", async () => {
    const { child, ended, says } = startWith({}, "sweep", LONG, "--out", join(emptyFolder(), "out"), "--workers", "2");
    await says("grid: 1");
    for (let times = 0; times < 20; times++) {
      child.kill("SIGINT");
      await new Promise((resolve) => setImmediate(resolve));
    }
    const { code, stderr } = await ended;
    expect(code).toBe(3);
    expect(stderr).toMatch(/^incomplete: interrupted; /m);
  });
});

describe("a signal while files are written", () => {
  const interruptedAt = (at: string, cache = emptyFolder()) => ({
    environment: { SABOTAGE: "signal", SABOTAGE_AT: at, XDG_CACHE_HOME: cache },
    preload: SABOTAGE,
  });

  it("ends a sweep with 3 between two of them, with a warm cache too; what is there is complete", async () => {
    const cache = emptyFolder();
    const alone = emptyFolder();
    expect((await runCached(cache, "sweep", GLANCE, "--out", alone, "--quiet")).code).toBe(0);
    for (const cacheOption of [["--no-cache"], []]) {
      const out = emptyFolder();
      const ended = await runWith(
        interruptedAt("points.csv", cache),
        "sweep",
        GLANCE,
        "--out",
        out,
        "--quiet",
        ...cacheOption,
      );
      const late = `incomplete: interrupted before ${join(out, "index.html")} was written\n`;
      expect(ended).toEqual({ code: 3, stdout: "", stderr: late });
      expect(readdirSync(out).sort()).toEqual(["map.json", "points.csv"]);
      for (const file of readdirSync(out))
        expect(readFileSync(join(out, file)).equals(readFileSync(join(alone, file))), file).toBe(true);
    }
  });

  it("ends report and compare with 3", async () => {
    const mapFolder = emptyFolder();
    expect((await run("sweep", GLANCE, "--out", mapFolder, "--quiet")).code).toBe(0);
    for (const [words, first, next] of [
      [["report", mapFolder], "points.csv", "index.html"],
      [["compare", mapFolder, mapFolder], "drift.json", "junit.xml"],
    ] as const) {
      const out = emptyFolder();
      const ended = await runWith(interruptedAt(first), ...words, "--out", out);
      const late = `incomplete: interrupted before ${join(out, next)} was written\n`;
      expect(ended).toEqual({ code: 3, stdout: "", stderr: late });
      expect(readdirSync(out)).toEqual([first]);
    }
  });

  it("the last of them is a finished command", async () => {
    const out = emptyFolder();
    expect((await runWith(interruptedAt("card.html"), "sweep", GLANCE, "--out", out, "--quiet")).code).toBe(0);
    expect(readdirSync(out).sort()).toEqual(FILES);
  });
});
