// Killed without a word, run again, run twice at once: the map is the file an unbroken run writes.
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { emptyFolder, FILES, READABLE, run, runCached, runWith, startWith } from "./command.js";

const GLANCE = "test/fixtures/glance.yaml";
const TASKS = "test/fixtures/tasks.yaml";
const LONG = "test/cli/long.yaml";

const mapIn = (folder: string): string => readFileSync(join(folder, "map.json"), "utf8");

describe("a sweep killed at any moment", () => {
  it("goes on from there; map, table and page are those of an unbroken run, byte for byte", async () => {
    const [unbroken, out] = [emptyFolder(), join(emptyFolder(), "out")];
    const cache = emptyFolder();
    const environment = { XDG_CACHE_HOME: cache };
    expect((await run("sweep", LONG, "--out", unbroken, "--no-cache", "--quiet")).code).toBe(0);
    for (const tens of [2, 6]) {
      const { child, ended, says } = startWith({ environment }, "sweep", LONG, "--out", out, "--workers", "2");
      await says(`grid: ${tens}`);
      child.kill("SIGKILL");
      expect((await ended).code).toBe(null);
      expect(existsSync(out)).toBe(false);
    }
    const { code, stdout, stderr } = await runCached(cache, "sweep", LONG, "--out", out, "--workers", "3");
    expect(code).toBe(0);
    const [, cached, all] = /(\d+) of them cached/.exec(stdout) ?? [];
    expect(Number(cached), `${all}`).toBeGreaterThan(4096);
    expect(stdout + stderr).toMatch(READABLE);
    for (const file of FILES)
      expect(readFileSync(join(out, file)).equals(readFileSync(join(unbroken, file))), file).toBe(true);
  });
});

describe("a second run", () => {
  it("simulates nothing and says so; --no-cache simulates everything", async () => {
    const cache = emptyFolder();
    const figures = async (...words: string[]) => {
      const { stdout } = await runCached(cache, "sweep", GLANCE, "--out", emptyFolder(), "--json", ...words);
      return JSON.parse(stdout).figures as { trials: number; simulated: { trials: number } };
    };
    const first = await figures();
    expect(first.simulated.trials).toBe(first.trials);
    expect((await figures()).simulated).toEqual({ trials: 0, steps: 0 });
    expect((await figures("--no-cache")).simulated.trials).toBe(first.trials);
    expect((await figures("--cache", emptyFolder())).simulated.trials).toBe(first.trials);
  });

  it("at the same time on the same cache does no harm, one of them with hardly any room", async () => {
    const environment = { XDG_CACHE_HOME: emptyFolder() };
    const outs = [emptyFolder(), emptyFolder(), emptyFolder()];
    const ended = await Promise.all(
      outs.map((out, at) =>
        runWith(
          { environment },
          ...["sweep", at === 2 ? LONG : TASKS, "--out", out, "--quiet", "--workers", "1"],
          ...(at === 2 ? ["--cache-limit", "1"] : []),
        ),
      ),
    );
    expect(ended).toEqual(outs.map(() => ({ code: 0, stdout: "", stderr: "" })));
    const alone = emptyFolder();
    await run("sweep", TASKS, "--out", alone, "--no-cache", "--quiet");
    expect([mapIn(outs[0]), mapIn(outs[1])]).toEqual([mapIn(alone), mapIn(alone)]);
  });
});

describe("a sweep of which nothing has changed", () => {
  it("writes the cached files, byte for byte, and says so; a title makes map and page anew from the trials", async () => {
    const [first, second, third] = [emptyFolder(), join(emptyFolder(), "out"), emptyFolder()];
    const cache = emptyFolder();
    const home = emptyFolder();
    const sweep = join(home, "sweep.yaml");
    const model = "models/sandpiper-r1.yaml";
    const text = readFileSync(GLANCE, "utf8");
    const scripts = text.replaceAll("../../sweeps/", `${resolve("sweeps")}/`);
    const sweepInto = (out: string, ...words: string[]) =>
      runCached(cache, "sweep", sweep, "--model", model, "--out", out, ...words);
    writeFileSync(sweep, scripts);
    expect((await sweepInto(first)).stdout).not.toContain("Nothing has changed");
    const { code, stdout, stderr } = await sweepInto(second);
    expect([code, stderr.replace(/^By theory alone, .*\n {2}Roll: .*\n {2}Pitch: .*\nestimate: .*\n/, "")]).toEqual([
      0,
      "",
    ]);
    expect(stdout).toMatch(/^Nothing has changed since this map was cached, with its \d+ trials\.$/m);
    expect(stdout).toContain(`Report: ${join(second, "index.html")}\n`);
    for (const file of FILES)
      expect(readFileSync(join(second, file)).equals(readFileSync(join(first, file))), file).toBe(true);
    expect((await sweepInto(emptyFolder(), "--no-cache")).stdout).not.toContain("Nothing has changed");
    writeFileSync(sweep, scripts.replace(/^title: .*$/m, "title: another title"));
    expect((await sweepInto(third)).stdout).toMatch(/trials, [1-9]\d* of them cached/);
    expect(readFileSync(join(third, "index.html"), "utf8")).toContain("another title");
  });
});

describe("gainscape cache", () => {
  it("says what is there, and clears it", async () => {
    const home = emptyFolder();
    const look = () => runCached(home, "cache");
    expect(await look()).toEqual({
      code: 0,
      stdout: `${home}/gainscape: 0 trials, 0 finished maps and reports, 0 files, 0.00 MiB (default limit 1024 MiB).\n`,
      stderr: "",
    });
    await runCached(home, "sweep", GLANCE, "--out", emptyFolder(), "--quiet");
    expect((await look()).stdout).toMatch(
      /gainscape: [1-9]\d* trials, 2 finished maps and reports, [1-9]\d* files, [\d.]+ MiB \(default limit 1024 MiB\)\.\n$/,
    );
    expect((await runCached(home, "cache", "--clear")).stdout).toMatch(/: [1-9]\d* files cleared\.\n$/);
    expect((await look()).stdout).toMatch(/: 0 trials, 0 finished maps and reports, 0 files/);
  });

  it("another folder is read with --cache", async () => {
    const cache = emptyFolder();
    await run("sweep", GLANCE, "--out", emptyFolder(), "--cache", cache, "--quiet");
    expect((await run("cache", "--cache", cache)).stdout).toMatch(/: [1-9]\d* trials/);
    expect(readdirSync(cache).every((name) => /^[0-9a-f]{2}$/.test(name))).toBe(true);
  });
});
