import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { parse } from "yaml";
import { lineJson } from "../../src/base/canonical.js";
import { GATES } from "../../src/base/gates.js";
import { EXIT } from "../../src/cli/exit.js";
import { emptyFolder, READABLE, start } from "./command.js";
import { filesBelow, runIn, runInWith, workplace } from "./elsewhere.js";

const COARSE = [10, 3] as const; // points in P and D: enough to hold safe ground on both axes
const PROPELLER = "sweeps/propeller-change.yaml";
const BATTERY = "sweeps/battery-change.yaml";
const SLOW = "sweeps/slow-loop.yaml";

/** A sweep of the workplace with one text replaced. */
function edited(home: string, file: string, from: string | RegExp, to: string): void {
  const path = join(home, file);
  const text = readFileSync(path, "utf8");
  const after = text.replace(from, to);
  if (after === text) throw new Error(`no ${from} in ${file}`);
  writeFileSync(path, after);
}

const prepared = mkdtempSync(join(tmpdir(), "gainscape-"));
afterAll(() => rmSync(prepared, { recursive: true, force: true }));
beforeAll(async () => {
  workplace(COARSE, prepared);
  for (const sweep of [PROPELLER, BATTERY, SLOW]) {
    const { code, stdout } = await runIn(prepared, "baseline", sweep);
    expect([code, stdout.includes("Baseline, to be reviewed and committed: reports/baselines/")]).toEqual([0, true]);
  }
  // Fills the cache: what a test does not change need not be simulated again.
  expect((await runIn(prepared, "gate", PROPELLER, BATTERY, SLOW, "--quiet")).code).toBe(1);
  rmSync(join(prepared, "reports/gate"), { recursive: true });
});

/** A workplace in which the baselines have been written. */
function withBaselines(): string {
  const home = emptyFolder();
  cpSync(prepared, home, { recursive: true });
  return home;
}

describe("gainscape gate", () => {
  it("ends with 1 where one of its sweeps holds a regression, with every file a CI server reads", async () => {
    const home = withBaselines();
    const { code, stdout } = await runIn(home, "gate", PROPELLER, SLOW);
    expect(code).toBe(1);
    expect(stdout).toMatch(/Sandpiper r1 → r2, The steeper propeller: No regression\./);
    expect(stdout).toMatch(/Sandpiper r1 → r5, Slow filter and loop: Regression: \d+ gates failed\./);
    const junit = readFileSync(join(home, "reports/gate/junit.xml"), "utf8");
    expect(junit.match(/<testsuite /g)).toHaveLength(2);
    expect(junit.match(/<testcase /g)).toHaveLength(20);
    const summary = readFileSync(join(home, "reports/gate/summary.md"), "utf8");
    expect(summary).toMatch(/^## 2 compared, 1 with a regression; /);
    expect(summary.match(/^\| Sandpiper r1 → r\d \|/gm)).toEqual(["| Sandpiper r1 → r5 |", "| Sandpiper r1 → r2 |"]);
    const sarif = JSON.parse(readFileSync(join(home, "reports/gate/gate.sarif"), "utf8"));
    const model = readFileSync(join(home, "models/sandpiper-r5.yaml"), "utf8").split("\n");
    for (const { locations } of sarif.runs[0].results.filter(({ kind }: { kind: string }) => kind === "fail")) {
      const { artifactLocation, region } = locations[0].physicalLocation;
      expect(artifactLocation.uri).toBe("models/sandpiper-r5.yaml");
      expect(model[region.startLine - 1]).toMatch(/^ +low_pass: /);
    }
    expect(readFileSync(join(home, "reports/gate/index.html"), "utf8")).toContain("<h1>A model moved too far</h1>");
    for (const pair of ["propeller-change/sandpiper-r1-to-sandpiper-r2", "slow-loop/sandpiper-r1-to-sandpiper-r5"])
      for (const file of ["index.html", "drift.json", "junit.xml", "summary.md"])
        expect(existsSync(join(home, "reports/gate", pair, file)), `${pair}/${file}`).toBe(true);
  });

  it("--json prints the outcome, every comparison and the files, and nothing else; so does merge", async () => {
    const home = withBaselines();
    const { code, stdout, stderr } = await runIn(home, "gate", PROPELLER, SLOW, "--json");
    expect([code, stderr]).toEqual([1, ""]);
    const report = JSON.parse(stdout);
    expect(report).toMatchObject({
      outcome: "regression",
      comparisons: [
        { sweep: { name: "propeller-change" }, base: { version: "r1" }, candidate: { version: "r2" }, outcome: "pass" },
        { sweep: { name: "slow-loop" }, candidate: { version: "r5" }, outcome: "regression" },
      ],
      files: {
        junit: "reports/gate/junit.xml",
        page: "reports/gate/index.html",
        sarif: "reports/gate/gate.sarif",
        summary: "reports/gate/summary.md",
      },
    });
    for (const { gates, files } of report.comparisons) {
      expect(gates).toHaveLength(10);
      for (const file of Object.values<string>(files)) expect(existsSync(join(home, file)), file).toBe(true);
    }
    await runIn(home, "gate", PROPELLER, SLOW, "--shard", "1/1", "--out", "s", "--quiet");
    const merged = await runIn(home, "merge", "s", "--json");
    expect([merged.code, JSON.parse(merged.stdout)]).toEqual([1, report]);
  });

  it("twice with one cache, and merged from shards, writes the same bytes", async () => {
    const home = withBaselines();
    const cache = ["--cache", join(home, "trials"), "--quiet"];
    const outs = ["cold", "warm", "merged"];
    const pair = "propeller-change/sandpiper-r1-to-sandpiper-r2";
    expect((await runIn(home, "gate", PROPELLER, "--out", "cold", ...cache)).code).toBe(0);
    expect(existsSync(join(home, "cold/junit.xml"))).toBe(true);
    await runIn(home, "gate", PROPELLER, "--out", "warm", ...cache);
    await runIn(home, "gate", PROPELLER, "--shard", "1/1", "--out", "s", ...cache);
    await runIn(home, "merge", "s", "--out", "merged", "--no-cache", "--quiet");
    for (const file of ["drift.json", "index.html", "junit.xml", "summary.md"]) {
      const [cold, ...others] = outs.map((out) => readFileSync(join(home, out, pair, file), "utf8"));
      for (const text of others) expect([file, text === cold]).toEqual([file, true]);
    }
    for (const file of ["index.html", "junit.xml", "summary.md", "gate.sarif"]) {
      const [cold, ...others] = outs.map((out) => readFileSync(join(home, out, file), "utf8"));
      for (const text of others) expect([file, text === cold]).toEqual([file, true]);
    }
  });

  it("has zero drift where the candidate is the base itself", async () => {
    const home = withBaselines();
    edited(home, PROPELLER, /candidates: .*/, "candidates: [../models/sandpiper-r1.yaml]");
    const { code, stdout } = await runIn(home, "gate", PROPELLER);
    expect(code).toBe(0);
    expect(stdout.replaceAll("\u00a0", " ")).toMatch(/Roll: sustained boundary 0 % at D/);
    expect(stdout).not.toMatch(/[+−]\d/);
  });
});

describe("a gate that is signalled to end", () => {
  it("between two pairs ends with 3; the first pair's files are complete, and there is no summary", async () => {
    const home = withBaselines();
    const sabotage = `--import=${pathToFileURL("test/cli/sabotage.mjs").href}`;
    const environment = { SABOTAGE: "signal", SABOTAGE_AT: "index.html", NODE_OPTIONS: sabotage };
    const { code, stderr } = await runInWith(environment, home, "gate", PROPELLER, SLOW, "--quiet", "--no-cache");
    expect(code).toBe(3);
    expect(stderr).toMatch(/^incomplete: interrupted; \d+ trials of this stage are missing/m);
    const first = join(home, "reports/gate/propeller-change/sandpiper-r1-to-sandpiper-r2");
    expect(JSON.parse(readFileSync(join(first, "drift.json"), "utf8")).outcome).toBe("pass");
    for (const left of ["slow-loop", "index.html", "junit.xml", "summary.md", "gate.sarif"])
      expect(existsSync(join(home, "reports/gate", left)), left).toBe(false);
  });
});

describe("a gate of which a page cannot be drawn", () => {
  it("compares the rest all the same, sums it up, and ends with 70", async () => {
    const home = withBaselines();
    const sabotage = `--import=${pathToFileURL("test/cli/sabotage.mjs").href}`;
    const environment = { SABOTAGE: "undrawn", SABOTAGE_AT: "charts/view", NODE_OPTIONS: sabotage };
    const { code, stdout, stderr } = await runInWith(environment, home, "gate", PROPELLER, SLOW, "--json");
    expect(code).toBe(70);
    expect(
      stderr.match(/^gainscape has a bug: sabotaged; \S+index\.html is not drawn\. .*drift\.json\.$/gm),
    ).toHaveLength(2);
    const { comparisons, files } = JSON.parse(stdout);
    expect(Object.keys(files).sort()).toEqual(["junit", "page", "sarif", "summary"]);
    for (const comparison of comparisons)
      expect(Object.keys(comparison.files).sort()).toEqual(["drift", "junit", "summary"]);
    expect(readFileSync(join(home, files.junit), "utf8").match(/<testsuite /g)).toHaveLength(2);
  });
});

describe("a gate that cannot be judged", () => {
  it("ends with 2 before anything is simulated: no baseline, another question, a sweep without pairs, a model that is gone", async () => {
    const home = withBaselines();
    edited(home, SLOW, "wobble_angle: 2 deg", "wobble_angle: 3 deg");
    rmSync(join(home, "reports/baselines/battery-change"), { recursive: true });
    const { code, stdout, stderr } = await runIn(home, "gate", PROPELLER, SLOW, BATTERY, "sweeps/first-tune.yaml");
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    expect(stderr).toMatch(
      /slow-loop\.yaml limits\.wobble_angle: 3, but 2 in reports\/baselines\/slow-loop\/sandpiper-r1\.json/,
    );
    expect(stderr).toMatch(
      /battery-change\.yaml:\d+:\d+ baseline: no baseline .* yet; gainscape baseline .* writes it/,
    );
    expect(stderr).toMatch(/first-tune\.yaml:\d+:\d+ baseline: missing: it names the models a gate compares/);
    expect(stderr).toMatch(READABLE);
    expect(existsSync(join(home, "reports/gate"))).toBe(false);
    edited(home, PROPELLER, "sandpiper-r2", "sandpiper-r9");
    const gone = await runIn(home, "gate", PROPELLER);
    expect([gone.code, gone.stderr.includes("sandpiper-r9.yaml: no such file")]).toEqual([2, true]);
  });

  it("ends with 2 where two pairs would write into one folder, and names both files", async () => {
    const home = withBaselines();
    cpSync(join(home, "models/sandpiper-r2.yaml"), join(home, "models/copy.yaml"));
    cpSync(join(home, PROPELLER), join(home, "sweeps/again.yaml"));
    edited(home, SLOW, /candidates: .*/, "candidates: [../models/sandpiper-r2.yaml, ../models/copy.yaml]");
    const { code, stdout, stderr } = await runIn(home, "gate", PROPELLER, SLOW, PROPELLER, "sweeps/again.yaml");
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    const rest = '"propeller-change" with "Sandpiper" "r2" again, as sweeps/propeller-change.yaml: each sweep';
    expect(stderr.trimEnd().split("\n").sort()).toEqual([
      expect.stringMatching(/^models\/copy\.yaml: "Sandpiper" "r2" again, as models\/sandpiper-r2\.yaml: each cand/),
      expect.stringContaining(`sweeps/again.yaml: ${rest}`),
      "sweeps/propeller-change.yaml: named twice for one gate",
    ]);
  });

  it("reports once what two candidates of a sweep have in common", async () => {
    const home = withBaselines();
    edited(home, SLOW, "wobble_angle: 2 deg", "wobble_angle: 3 deg");
    edited(home, SLOW, /candidates: .*/, "candidates: [../models/sandpiper-r2.yaml, ../models/sandpiper-r5.yaml]");
    const { code, stderr } = await runIn(home, "gate", SLOW);
    const lines = stderr.trimEnd().split("\n");
    expect([code, lines.length]).toEqual([2, 2]);
    expect(new Set(lines).size).toBe(2);
  });

  it("leaves nothing of the last run, of other pairs neither: with 2, and with 3; what is not a gate's stays", async () => {
    const home = withBaselines();
    const gone = "sandpiper-r1-to-sandpiper-r0";
    const names = [
      "index.html",
      "junit.xml",
      "summary.md",
      "gate.sarif",
      `gone/${gone}/drift.json`,
      `gone/${gone}/index.html`,
    ];
    const yesterday = names.map((name) => join(home, "reports/gate", name));
    const leave = () => {
      mkdirSync(join(home, "reports/gate/gone", gone), { recursive: true });
      mkdirSync(join(home, "reports/gate/mine"), { recursive: true });
      for (const file of [...yesterday, join(home, "reports/gate/mine/drift.json")]) writeFileSync(file, "yesterday's");
    };
    leave();
    expect((await runIn(home, "gate", "sweeps/first-tune.yaml")).code).toBe(2);
    expect(yesterday.filter((file) => existsSync(file))).toEqual([]);
    expect(filesBelow(join(home, "reports/gate"))).toEqual([join(home, "reports/gate/mine/drift.json")]);
    leave();
    const sabotage = `--import=${pathToFileURL("test/cli/sabotage.mjs").href}`;
    const environment = { SABOTAGE: "signal", SABOTAGE_AT: "index.html", NODE_OPTIONS: sabotage };
    expect((await runInWith(environment, home, "gate", PROPELLER)).code).toBe(3);
    expect(yesterday.filter((file) => existsSync(file))).toEqual([]);
    leave();
    // A share is missing: no gate was judged, and the merge of a gate knows that it is one.
    await runIn(home, "gate", PROPELLER, "--shard", "1/2", "--out", "s", "--quiet");
    const merged = await runIn(home, "merge", "s");
    expect([merged.code, merged.stderr]).toEqual([2, "shard-2-of-2.trials: this share is missing\n"]);
    expect(yesterday.filter((file) => existsSync(file))).toEqual([]);
  });

  it("ends with 2 where the baseline was spoilt by hand", async () => {
    const home = withBaselines();
    const file = join(home, "reports/baselines/propeller-change/sandpiper-r1.json");
    const baseline = JSON.parse(readFileSync(file, "utf8"));
    baseline.axes.roll.sustained[0].p = "27";
    writeFileSync(file, lineJson(baseline));
    const { code, stderr } = await runIn(home, "gate", PROPELLER);
    expect([code, stderr]).toEqual([2, expect.stringMatching(/^\S+sandpiper-r1\.json seal: broken, [^\n]*\n$/)]);
    const meant = await runIn(home, "gate", PROPELLER, "--unsealed");
    expect(meant.code).toBe(2);
    expect(meant.stderr).toMatch(
      /sandpiper-r1\.json axes\.roll\.boundary\.sustained\[0\]\.p: expected a number, found "27"/,
    );
  });

  it("takes a baseline edited by hand with --unsealed alone, and says so; so does merge", async () => {
    const home = withBaselines();
    const file = join(home, "reports/baselines/propeller-change/sandpiper-r1.json");
    writeFileSync(file, readFileSync(file, "utf8").replace(/"startReason": null/, '"startReason": "by hand"'));
    await runIn(home, "gate", PROPELLER, "--unsealed", "--shard", "1/1", "--out", "s", "--quiet");
    for (const words of [
      ["gate", PROPELLER],
      ["merge", "s"],
    ]) {
      expect((await runIn(home, ...words)).code).toBe(2);
      const { code, stdout } = await runIn(home, ...words, "--unsealed");
      expect([code, stdout.includes("The base was changed by hand")]).toEqual([0, true]);
    }
  });

  it("says which baseline counts where one was written anew after the shares were simulated", async () => {
    const home = withBaselines();
    await runIn(home, "gate", PROPELLER, "--shard", "1/1", "--out", "s", "--quiet");
    const note = "sandpiper-r1.json was written anew after the shares were simulated: the new one is what they are";
    expect((await runIn(home, "merge", "s")).stdout).not.toContain(note);
    edited(home, "models/sandpiper-r1.yaml", /mass: 198 g/, "mass: 199 g");
    const { stderr } = await runIn(home, "baseline", PROPELLER, "--quiet");
    expect(stderr).toMatch(
      /^\S+sandpiper-r1\.json: replaces another baseline, and gates are held against the new one from now on\. Changed since: mass 619 g → 620 g, /,
    );
    const { stdout } = await runIn(home, "merge", "s");
    expect(stdout).toContain(note);
  });

  it("says so where the base model was edited after its baseline was written", async () => {
    const home = withBaselines();
    edited(home, "models/sandpiper-r1.yaml", /mass: 198 g/, "mass: 199 g");
    const { stdout } = await runIn(home, "gate", PROPELLER);
    expect(stdout).toContain("models/sandpiper-r1.yaml was edited after its baseline was written");
  });

  it("ends with 3 when interrupted", async () => {
    const home = withBaselines();
    const baselines = join(home, "reports/baselines");
    edited(home, PROPELLER, /.*/, "# interrupted");
    const gate = start(
      "gate",
      join(home, PROPELLER),
      "--baselines",
      baselines,
      "--out",
      join(home, "out"),
      "--workers",
      "1",
    );
    await gate.says("grid");
    gate.child.kill("SIGINT");
    const { code, stderr } = await gate.ended;
    expect(code).toBe(3);
    expect(stderr).toMatch(/incomplete/);
    expect(existsSync(join(home, "out/junit.xml"))).toBe(false);
  });
});

describe("gainscape baseline", () => {
  it("says when the pinned tune is not safe, since its gate will be skipped", async () => {
    const home = withBaselines();
    edited(home, PROPELLER, "roll: {p: 9 ", "roll: {p: 40 ");
    const { code, stderr } = await runIn(home, "baseline", PROPELLER);
    expect([code, stderr.includes("The pinned tune of roll is not safe in this baseline")]).toEqual([0, true]);
    const { stdout } = await runIn(home, "gate", PROPELLER);
    expect(stdout).toMatch(/Pinned tune stays safe +roll +pinned tune was not safe before +stays safe +skipped/);
  });

  it("takes another model with --model", async () => {
    const home = withBaselines();
    expect((await runIn(home, "baseline", PROPELLER, "--model", "models/sandpiper-r2.yaml", "--quiet")).code).toBe(0);
    expect(existsSync(join(home, "reports/baselines/propeller-change/sandpiper-r2.json"))).toBe(true);
  });
});

describe("the nightly workflow in the docs", () => {
  const workflow = parse(readFileSync("sweeps/guides/nightly-workflow.yml", "utf8"));
  const steps = Object.values(workflow.jobs as Record<string, { steps: { run?: string; if?: string }[] }>).flatMap(
    ({ steps: all }) => all,
  );
  const lines = steps.flatMap(({ run = "" }) => run.trim().split("\n"));

  it("runs commands that work as written: 1 since one of the shipped candidates is a regression", async () => {
    const commands = lines.filter((line) => line.startsWith("npx gainscape "));
    expect(commands.length).toBeGreaterThan(0);
    const home = withBaselines();
    for (const line of commands) {
      const { code } = await runIn(home, ...line.split(" ").slice(2));
      expect([line, code]).toEqual([line, 1]);
    }
    for (const file of ["reports/gate/junit.xml", "reports/gate/summary.md"])
      expect([
        file,
        existsSync(join(home, file)),
        readFileSync("sweeps/guides/nightly-workflow.yml", "utf8").includes(file),
      ]).toEqual([file, true, true]);
  });

  it("keeps its reports also when the gate fails, and uses only scripts the package has", () => {
    const scripts = Object.keys(JSON.parse(readFileSync("package.json", "utf8")).scripts);
    for (const line of lines.filter((one) => one.startsWith("npm run ")))
      expect(scripts).toContain(line.split(" ").filter((word) => !word.startsWith("-"))[2]);
    const after = steps.filter(({ if: when }) => when?.includes("always()"));
    expect(after.length).toBeGreaterThan(0);
  });
});

/** The words of a line as a shell takes them apart; double quotes hold blanks together. */
const typed = (line: string): string[] =>
  [...line.matchAll(/((?:"[^"]*"|[^ "])+)/g)].map(([word]) => word.replaceAll('"', ""));

describe("sweeps/guides/comparing.md", () => {
  it("shows commands that end as it says", async () => {
    const commands = [...readFileSync("sweeps/guides/comparing.md", "utf8").matchAll(/^gainscape (.*) # exit (\d)$/gm)];
    expect(commands.length).toBeGreaterThan(3);
    const home = withBaselines();
    for (const [, words = "", code] of commands)
      expect([words, (await runIn(home, ...typed(words), "--quiet")).code]).toEqual([words, Number(code)]);
  });

  it("names every gate with its default, and every exit code with its meaning", () => {
    const text = readFileSync("sweeps/guides/comparing.md", "utf8");
    for (const { id, unit, allowed } of GATES) {
      const key = id.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`);
      expect(text).toMatch(new RegExp(`^\\| \`${key}\` +\\| [^|]+ \\| ${unit === "%" ? `${allowed} %` : "on"}: `, "m"));
    }
    for (const code of Object.values(EXIT)) expect(text).toMatch(new RegExp(`^\\| ${code} +\\| \\w`, "m"));
  });
});
