// A repository of one's own, from the packed package alone: its first green night, and its first red one.
import { execFileSync, spawnSync } from "node:child_process";
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { parse } from "yaml";
import { emptyFolder } from "../cli/command.js";

const HOME = mkdtempSync(join(tmpdir(), "gainscape-"));
afterAll(() => rmSync(HOME, { recursive: true, force: true }));
const inHome = (...words: string[]) =>
  spawnSync(process.execPath, [join(HOME, "node_modules/gainscape/dist/cli/main.js"), ...words], {
    cwd: HOME,
    encoding: "utf8",
    env: { ...process.env, XDG_CACHE_HOME: join(HOME, ".cache") },
  });

/** As the README says it; where no registry answers, by hand, with the packages that are installed here. */
function install(tarball: string): void {
  writeFileSync(join(HOME, "package.json"), '{"private": true}');
  const words = ["install", tarball, "--prefer-offline", "--no-audit", "--no-fund"];
  if (spawnSync("npm", words, { cwd: HOME, stdio: "ignore" }).status === 0) return;
  rmSync(join(HOME, "node_modules"), { recursive: true, force: true });
  mkdirSync(join(HOME, "node_modules/gainscape"), { recursive: true });
  execFileSync("tar", ["-xzf", tarball, "-C", join(HOME, "node_modules/gainscape"), "--strip-components=1"]);
  for (const name of readdirSync("node_modules").filter((one) => !one.startsWith(".") && one !== "gainscape"))
    symlinkSync(resolve("node_modules", name), join(HOME, "node_modules", name));
}

beforeAll(() => {
  const packed = emptyFolder();
  execFileSync("npm", ["pack", "--ignore-scripts", "--pack-destination", packed], { stdio: "ignore" });
  const [tarball = ""] = readdirSync(packed);
  install(join(packed, tarball));
  writeFileSync(join(HOME, "answers.yaml"), readFileSync("models/answers/sandpiper.yaml"));
}, 240_000);

describe("gainscape init, in an empty folder", () => {
  it("writes model, sweeps, baseline and workflow, says what comes next, and overwrites nothing", () => {
    const { status, stdout, stderr } = inHome("init", "--answers", "answers.yaml");
    expect([status, stderr.includes("bug")]).toEqual([0, false]);
    for (const file of [
      "models/sandpiper-k1.yaml",
      "sweeps/first-tune.yaml",
      "sweeps/night.yaml",
      ".github/workflows/night.yml",
      "reports/baselines/night/sandpiper-k1.json",
    ])
      expect([file, existsSync(join(HOME, file))]).toEqual([file, true]);
    for (const line of stdout.split("\n").filter((one) => one.startsWith("  gainscape check"))) {
      expect(inHome(...line.trim().split(" ").slice(1)).status).toBe(0);
    }
    expect(stdout).toContain("  gainscape gate sweeps/night.yaml");
    const again = inHome("init", "--answers", "answers.yaml");
    expect(again.status).toBe(2);
    expect(again.stderr).toMatch(/^models\/sandpiper-k1\.yaml: is there already, and nothing is overwritten;/);
    expect(inHome("check", "sweeps/first-tune.yaml", "--quiet").status).toBe(0);
  });

  it("runs its workflow's commands: green while the model stands, red at its line once it moved", () => {
    const workflow = parse(readFileSync(join(HOME, ".github/workflows/night.yml"), "utf8"));
    const steps: { readonly run?: string }[] = workflow.jobs.gate.steps;
    const [command = ""] = steps.flatMap(({ run = "" }) => (run.startsWith("npx gainscape ") ? [run] : []));
    const words = command.split(" ").slice(2);
    expect(inHome(...words, "--quiet").status).toBe(0);
    const first = () => readFileSync(join(HOME, "reports/gate/summary.md"), "utf8").split("\n")[0];
    expect(first()).toMatch(/^## 1 compared, no regression; 2 of 10 gates not judged$/);

    const model = join(HOME, "models/sandpiper-k1.yaml");
    const lines = readFileSync(model, "utf8").split("\n");
    const at = lines.findIndex((line) => /^ +latency: /.test(line));
    lines[at] = (lines[at] ?? "").replace(/latency: \S+ \S+/, "latency: 3 ms");
    writeFileSync(model, lines.join("\n"));
    expect(inHome(...words, "--quiet").status).toBe(1);
    expect(first()).toMatch(/^## 1 compared, 1 with a regression;/);
    const { results } = JSON.parse(readFileSync(join(HOME, "reports/gate/gate.sarif"), "utf8")).runs[0];
    const failed = results.find(({ kind }: { readonly kind: string }) => kind === "fail");
    expect(failed.locations[0].physicalLocation).toMatchObject({
      artifactLocation: { uri: "models/sandpiper-k1.yaml" },
      region: { startLine: at + 1 },
    });
  });
});
