// A sweep and a night shared out over processes that know nothing of each other, as machines do not.
import { cpSync, existsSync, readdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { emptyFolder, FILES, READABLE, run } from "./command.js";
import { filesBelow, runIn, workplace } from "./elsewhere.js";

const TASKS = "test/fixtures/tasks.yaml";

describe("a sweep on three machines", () => {
  it("merges to the files one machine writes, byte for byte", async () => {
    const [shards, merged, alone] = [emptyFolder(), emptyFolder(), emptyFolder()];
    const shares = await Promise.all(
      [1, 2, 3].map((index) => run("sweep", TASKS, "--shard", `${index}/3`, "--out", join(shards, `${index}`))),
    );
    for (const [at, { code, stdout }] of shares.entries()) {
      expect(code).toBe(0);
      expect(stdout).toMatch(
        new RegExp(`^\\d+ trials, share ${at + 1} of 3: .*/${at + 1}/shard-${at + 1}-of-3\\.trials\\n$`),
      );
    }
    const folders = [3, 1, 2].map((index) => join(shards, `${index}`));
    const { code, stdout, stderr } = await run("merge", ...folders, "--out", merged, "--workers", "1");
    expect(code).toBe(0);
    expect(stdout).toMatch(/288 of them cached/);
    expect(stdout + stderr).toMatch(READABLE);
    await run("sweep", TASKS, "--out", alone, "--quiet");
    expect(readdirSync(merged).sort()).toEqual(FILES);
    for (const file of FILES)
      expect(readFileSync(join(merged, file)).equals(readFileSync(join(alone, file))), file).toBe(true);
  });

  it("without a folder goes next to the map it will be part of; --json says where", async () => {
    const home = workplace([4, 4]);
    const { stdout } = await runIn(home, "sweep", "sweeps/first-tune.yaml", "--shard", "2/2", "--json");
    const { file, share, trials } = JSON.parse(stdout);
    expect(share).toEqual({ index: 2, of: 2 });
    expect(trials).toBeGreaterThan(100);
    expect(existsSync(join(home, file))).toBe(true);
    expect(file).toMatch(/^reports\/first-tune\/sandpiper-r\d\/shards\/shard-2-of-2\.trials$/);
    const { code, stderr } = await runIn(home, "merge", join(file, ".."));
    expect([code, stderr]).toEqual([2, "shard-1-of-2.trials: this share is missing\n"]);
    expect(existsSync(join(home, "reports/first-tune/sandpiper-r1/map.json"))).toBe(false);
  });

  it("is refused where the model was edited in between", async () => {
    const home = workplace([4, 4]);
    const sweep = "sweeps/propeller-change.yaml";
    for (const share of ["1/2", "2/2"]) await runIn(home, "sweep", sweep, "--shard", share, "--out", "s", "--quiet");
    const model = join(home, "models/sandpiper-r1.yaml");
    writeFileSync(model, readFileSync(model, "utf8").replace("mass: 198 g", "mass: 199 g"));
    const { code, stdout, stderr } = await runIn(home, "merge", "s");
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    expect(stderr.trimEnd().split("\n")).toEqual(
      [1, 2].map(
        (index) => `s/shard-${index}-of-2.trials: a model, sweep or script was changed since this share was simulated`,
      ),
    );
  });
});

describe("a night on two machines", () => {
  const SWEEPS = ["sweeps/propeller-change.yaml", "sweeps/slow-loop.yaml"];

  it("merges to the decision, exit code and files of one machine", async () => {
    const home = workplace([10, 3]);
    for (const sweep of SWEEPS) await runIn(home, "baseline", sweep, "--quiet");
    const alone = await runIn(home, "gate", ...SWEEPS, "--quiet");
    expect(alone.code).toBe(1);
    renameSync(join(home, "reports/gate"), join(home, "alone"));
    // Each machine has the project and no cache of the others.
    const machines = [1, 2].map(() => {
      const machine = emptyFolder();
      for (const folder of ["models", "sweeps", "reports"])
        cpSync(join(home, folder), join(machine, folder), { recursive: true });
      return machine;
    });
    for (const [at, machine] of machines.entries()) {
      const { code, stderr } = await runIn(
        machine,
        "gate",
        ...SWEEPS,
        "--shard",
        `${at + 1}/2`,
        "--out",
        "mine",
        "--quiet",
      );
      expect([code, stderr]).toEqual([0, ""]);
      expect(readdirSync(join(machine, "mine"))).toEqual([`shard-${at + 1}-of-2.trials`]);
      cpSync(join(machine, "mine"), join(home, "all"), { recursive: true });
    }
    const { code, stderr } = await runIn(home, "merge", "all", "--no-cache", "--quiet");
    expect([code, stderr]).toEqual([1, ""]);
    const names = filesBelow(join(home, "alone")).map((file) => file.slice(join(home, "alone").length));
    expect(filesBelow(join(home, "reports/gate")).map((file) => file.slice(join(home, "reports/gate").length))).toEqual(
      names,
    );
    for (const name of names)
      expect(readFileSync(join(home, "reports/gate", name)).equals(readFileSync(join(home, "alone", name))), name).toBe(
        true,
      );
  });
});

describe("what is no share, or no set of them", () => {
  it.each(["0/3", "4/3", "1", "1/0", "a/b", "1/99999", "-1/3", "1/3/5", ""])(
    "--shard %s is a usage fault",
    async (share) => {
      const { code, stderr } = await run("sweep", TASKS, "--shard", share);
      expect(code).toBe(2);
      expect(stderr).toMatch(/expected a share as 2\/4, of at most 10000/);
    },
  );

  it("a share of the draws of a sweep without draws, or without the grid's shares, ends with 2", async () => {
    const none = await run("sweep", TASKS, "--shard", "1/2", "--grid", "nowhere");
    expect([none.code, none.stdout, none.stderr]).toEqual([
      2,
      "",
      "--grid: there are no draws to share out: merge the shares of the grid\n",
    ]);
    const early = await run("sweep", "test/fixtures/draws.yaml", "--shard", "1/2", "--grid", emptyFolder());
    expect([early.code, early.stdout]).toEqual([2, ""]);
    expect(early.stderr).toMatch(/^\S+: holds no shard, as shard-1-of-4\.trials of gainscape sweep --shard 1\/4\n$/);
  });

  it("merge of folders without shards ends with 2 and names them", async () => {
    const { code, stderr } = await run("merge", "models", "nowhere");
    expect(code).toBe(2);
    expect(stderr).toMatch(/models: holds no shard/);
    expect(stderr).toMatch(READABLE);
    expect((await run("merge")).code).toBe(2);
  });
});
