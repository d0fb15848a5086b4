// What is checked before the long work: whose folder it is, whether it takes the files, who else is at it, and what it
// will cost.
import {
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { emptyFolder, FILES, run, runWith, startWith } from "./command.js";
import { runIn } from "./elsewhere.js";

const GLANCE = "test/fixtures/glance.yaml";
const LONG = "test/cli/long.yaml";
const MODEL = readFileSync("models/sandpiper-r1.yaml", "utf8");

/** A folder with the least sweep, which has a baseline, and crafts that differ in their names alone. */
function hangar(names: readonly string[]): string {
  const home = emptyFolder();
  mkdirSync(join(home, "models"));
  cpSync("sweeps/scripts", join(home, "sweeps/scripts"), { recursive: true });
  const sweep = readFileSync(GLANCE, "utf8")
    .replaceAll("../../sweeps/", "")
    .replace(/^model: .*/m, "model: ../models/0.yaml");
  writeFileSync(join(home, "sweeps/glance.yaml"), `${sweep}baseline: { candidates: [../models/1.yaml] }\n`);
  for (const [at, name] of names.entries())
    writeFileSync(join(home, `models/${at}.yaml`), MODEL.replace(/^name: .*/m, `name: ${name}`));
  return home;
}

describe("names that were one folder", () => {
  it("are two, each with its own map; another craft's map is refused by name and stays", async () => {
    const home = hangar(["雀", "鷹"]);
    for (const model of ["models/0.yaml", "models/1.yaml"]) {
      const { code, stderr } = await runIn(home, "sweep", "sweeps/glance.yaml", "--model", model, "--quiet");
      expect([code, stderr]).toEqual([0, ""]);
    }
    const folders = readdirSync(join(home, "reports/glance")).sort();
    expect(folders).toEqual([expect.stringMatching(/^雀-r1-/), expect.stringMatching(/^鷹-r1-/)]);
    const [one, other] = folders.map((folder) => join("reports/glance", folder)) as [string, string];
    const map = readFileSync(join(home, one, "map.json"), "utf8");
    const words = ["sweep", "sweeps/glance.yaml", "--model", "models/1.yaml", "--out", one];
    const message = `${one}/map.json: holds the map of "雀" "r1", not of "鷹" "r1"; move it away or name another folder\n`;
    expect(await runIn(home, ...words)).toEqual({ code: 2, stdout: "", stderr: expect.stringContaining(message) });
    expect(await runIn(home, "report", other, "--out", one)).toEqual({ code: 2, stdout: "", stderr: message });
    expect(readFileSync(join(home, one, "map.json"), "utf8")).toBe(map);
  });

  it("are two baselines; a gate takes no other craft's, whatever its file is called", async () => {
    const home = hangar(["Mark II", "Mark-II"]);
    expect((await runIn(home, "baseline", "sweeps/glance.yaml", "--quiet")).code).toBe(0);
    const folder = join(home, "reports/baselines/glance");
    const [file = ""] = readdirSync(folder);
    expect(file).toMatch(/^mark-ii-r1-[0-9a-f]{8}\.json$/);
    writeFileSync(join(home, "models/0.yaml"), MODEL.replace(/^name: .*/m, "name: Mark-II"));
    const missing = await runIn(home, "gate", "sweeps/glance.yaml");
    expect([missing.code, missing.stderr]).toEqual([
      2,
      expect.stringMatching(/no baseline reports\/baselines\/glance\/mark-ii-r1-/),
    ]);
    const [, wanted = ""] = /no baseline (\S+) yet/.exec(missing.stderr) ?? [];
    renameSync(join(folder, file), join(home, wanted));
    const strange = `${wanted}: holds the baseline of "Mark II" "r1", not of "Mark-II" "r1"; `;
    for (const command of ["gate", "baseline"])
      expect(await runIn(home, command, "sweeps/glance.yaml")).toEqual({
        code: 2,
        stdout: "",
        stderr: expect.stringContaining(strange),
      });
  });
});

describe("a place that cannot take the files is refused with 2, and nothing is simulated", () => {
  const refused = async (out: string) => {
    const { code, stdout, stderr } = await run("sweep", GLANCE, "--out", out);
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    expect(stderr).not.toContain("grid:");
    return stderr;
  };

  it("a link to nothing, and a folder below one", async () => {
    const link = join(emptyFolder(), "link");
    symlinkSync("nowhere", link);
    const message = `cannot be written into: ${link} is a link to nothing, expected a folder\n`;
    expect(await refused(link)).toBe(`${link}: ${message}`);
    expect(await refused(join(link, "deeper"))).toBe(`${join(link, "deeper")}: ${message}`);
  });

  it("a folder where a file belongs", async () => {
    const out = emptyFolder();
    mkdirSync(join(out, "map.json"));
    expect(await refused(out)).toContain(`${join(out, "map.json")} is a folder, expected a file or nothing`);
  });

  it("a name the system takes at no depth", async () => {
    expect(await refused(join(emptyFolder(), "a", "x".repeat(300), "b"))).toContain("ENAMETOOLONG");
  });
});

describe("two runs into one folder", () => {
  it("the second is refused by the first's process; once that is killed, nothing is in the way", async () => {
    const out = join(emptyFolder(), "out");
    const temporary = { TMPDIR: emptyFolder() };
    const words = ["sweep", LONG, "--out", out, "--workers", "1"];
    const first = startWith({ environment: temporary }, ...words);
    await first.says("grid: ");
    const message = `${out}: another run (process ${first.child.pid}) is writing here; wait for its end, or name another folder\n`;
    const second = await runWith({ environment: temporary }, ...words);
    expect([second.code, second.stderr.endsWith(message), existsSync(out)]).toEqual([2, true, false]);
    first.child.kill("SIGKILL");
    await first.ended;
    const third = await runWith({ environment: temporary }, "sweep", GLANCE, "--out", out, "--quiet");
    expect([third.code, third.stderr, readdirSync(out).sort()]).toEqual([0, "", FILES]);
    expect(readdirSync(temporary.TMPDIR)).toEqual([]);
  });
});

describe("the estimate", () => {
  it("is one line before the work, after what theory says: trials, time, workers, memory and disk; none with --quiet", async () => {
    const out = emptyFolder();
    const { code, stderr } = await run("sweep", GLANCE, "--out", out, "--workers", "256");
    expect(code).toBe(0);
    expect(stderr).toMatch(
      /^By theory alone, .*\n {2}Roll: .*\n {2}Pitch: .*\nestimate: 36 trials, 0\.3 million steps; about \d+ s on [12] workers? at 20 ns a step of a quadrotor, less with cached trials; \d+ MiB of memory, 2 MiB of disk\ngrid: /,
    );
  });
});
