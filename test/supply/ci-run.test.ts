// What CI runs: the check as well as the tests, in one closing line; and set-up that follows the lock file.

import { spawnSync } from "node:child_process";
import { copyFileSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { emptyFolder } from "../cli/command.js";

/** A folder with one of our scripts in .ci and programs of its own, each a shell script that notes its words in `calls`. */
function checkout(script: string, programs: Readonly<Record<string, string>>) {
  const home = emptyFolder();
  for (const folder of [".ci", "src", "bin"]) mkdirSync(join(home, folder));
  copyFileSync(join(".ci", script), join(home, ".ci", script));
  for (const [name, text] of Object.entries(programs))
    writeFileSync(join(home, "bin", name), `#!/bin/sh\necho "${name} $*" >> "${home}/calls"\n${text}\n`, {
      mode: 0o755,
    });
  const env = { ...process.env, PATH: `${join(home, "bin")}:/usr/bin:/bin` };
  return {
    home,
    run: (program: string) => spawnSync(program, [join(home, ".ci", script)], { cwd: home, env, encoding: "utf8" }),
    calls: () => {
      const file = join(home, "calls");
      const lines = existsSync(file) ? readFileSync(file, "utf8").trim().split("\n") : [];
      rmSync(file, { force: true });
      return lines;
    },
  };
}

describe.skipIf(process.platform === "win32")(".ci/run", () => {
  const fonts = "echo P052; echo Liberation Sans";
  const nothing = { octave: "", "fc-list": fonts, "apt-get": "", sudo: "" };
  const summary = (line: string) => `[ "$1" = test ] && echo "${line}" > "$GAINSCAPE_SUMMARY"`;

  it.each([
    ["all is well", `${summary("5 passed, 0 failed")}; exit 0`, 0, "6 passed, 0 failed"],
    ["a test fails", `${summary("4 passed, 1 failed")} && exit 1; exit 0`, 1, "5 passed, 1 failed"],
    ["the check fails", `${summary("5 passed, 0 failed")} && exit 0; exit 2`, 1, "5 passed, 1 failed"],
    ["both fail", `${summary("3 passed, 2 failed")}; exit 1`, 1, "3 passed, 3 failed"],
    ["no test can run", '[ "$1" = test ] && exit 1; exit 0', 1, "1 passed, 1 failed"],
    ["nothing was counted, though nothing failed", "exit 0", 1, "1 passed, 1 failed"],
  ])("where %s", (_, npm, code, closing) => {
    const { run, calls } = checkout("run", { ...nothing, npm });
    const { status, stdout } = run("bash");
    expect({ status, last: stdout.trim().split("\n").at(-1) }).toEqual({ status: code, last: closing });
    expect(calls().filter((line) => line.startsWith("npm"))).toEqual(["npm run check", "npm test"]);
  });
});

describe.skipIf(process.platform === "win32")("a checkout made ready", () => {
  const npm = `mkdir -p node_modules/typescript dist/cli; echo '{}' > node_modules/typescript/package.json; echo > dist/cli/main.js`;

  it("is installed anew where the lock file changed, built anew where a source did, and neither for a text of package.json", () => {
    const { home, run, calls } = checkout("prepare.mjs", { npm });
    const write = (file: string, text: string) => writeFileSync(join(home, file), text);
    const made = () => {
      const { status, stderr } = run(process.execPath);
      expect(status, stderr).toBe(0);
      return [...calls().map((line) => line.split(" ").slice(0, 2).join(" ")), ...stderr.trim().split("\n")];
    };
    const manifest = (rest: object) => write("package.json", JSON.stringify({ scripts: { build: "a" }, ...rest }));
    for (const file of ["package-lock.json", "tsconfig.json", "src/a.ts"]) write(file, "{}");
    manifest({});
    expect(made()).toEqual([
      "npm ci",
      "npm run",
      "Installing packages (not done yet) ...",
      "Building (not done yet) ...",
    ]);
    expect(made()).toEqual([""]);
    manifest({ description: "other words" });
    expect(made()).toEqual([""]);
    manifest({ scripts: { build: "b" } });
    expect(made()).toEqual(["npm run", "Building (its sources changed) ..."]);
    write("src/a.ts", "{ }");
    expect(made()).toEqual(["npm run", "Building (its sources changed) ..."]);
    write("package-lock.json", "{ }");
    expect(made()).toEqual([
      "npm ci",
      "npm run",
      "Installing packages (package-lock.json changed) ...",
      "Building (its sources changed) ...",
    ]);
  });
});

describe("package.json", () => {
  it("names no place that nobody has", () => {
    const manifest = JSON.parse(readFileSync("package.json", "utf8"));
    for (const key of ["repository", "bugs", "homepage", "funding"])
      expect([key, manifest[key]]).toEqual([key, undefined]);
  });
});
