import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { READABLE, run } from "./command.js";

const packaged = JSON.parse(readFileSync("package.json", "utf8")) as { version: string };

describe("help and version", () => {
  it.each(["--help", "-h", "help", "sweep --help", "help check"])(
    "%s ends with 0 and prints on standard output",
    async (line) => {
      const { code, stdout, stderr } = await run(...line.split(" "));
      expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
      expect(stdout).toMatch(/^Usage: gainscape/);
    },
  );

  it("--help lists every command and is no wider than a terminal", async () => {
    const { stdout } = await run("--help");
    for (const command of ["sweep", "check"]) expect(stdout).toMatch(new RegExp(`^ {2}${command} `, "m"));
    for (const line of stdout.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  it.each(["--version", "-v"])("%s is the package's", async (option) => {
    expect(await run(option)).toEqual({ code: 0, stdout: `${packaged.version}\n`, stderr: "" });
  });
});

describe("usage faults end with 2, never 1: that is a regression", () => {
  it.each([
    ["no command", [], /Usage: gainscape/],
    ["an unknown command", ["swep", "x.yaml"], /unknown command 'swep'/],
    ["an unknown option", ["sweep", "x.yaml", "--wrokers", "2"], /unknown option '--wrokers'/],
    ["no sweep", ["sweep"], /missing required argument 'sweep'/],
    ["two sweeps", ["sweep", "a.yaml", "b.yaml"], /too many arguments/],
    ["no files to check", ["check"], /missing required argument 'files'/],
    ["an option without its value", ["sweep", "x.yaml", "--out"], /argument missing/],
    ["no workers", ["sweep", "x.yaml", "--workers", "0"], /expected a whole number from 1 to 256/],
    ["half a worker", ["sweep", "x.yaml", "--workers", "1.5"], /expected a whole number from 1 to 256/],
    ["workers in words", ["sweep", "x.yaml", "--workers", "all"], /expected a whole number from 1 to 256/],
    ["an axis that is none", ["card", "x.yaml", "--test-stand", "yaw"], /expected roll or pitch/],
    ["a folder of grids without a share", ["sweep", "x.yaml", "--grid", "shards"], /--grid: .*expected --shard i\/n/],
    ["the same of a gate", ["gate", "x.yaml", "--grid", "shards"], /--grid: .*expected --shard i\/n/],
    ["an empty folder name", ["sweep", "x.yaml", "--out", ""], /expected a folder/],
  ])("%s", async (_, words, message) => {
    const { code, stdout, stderr } = await run(...words);
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    expect(stderr).toMatch(message);
    expect(stderr).toMatch(READABLE);
  });
});

describe("files that are not there", () => {
  it.each([
    ["sweep", "nowhere.yaml"],
    ["check", "nowhere.yaml"],
    ["check", "src"],
  ])("%s %s ends with 2 and names the file", async (command, file) => {
    const { code, stderr } = await run(command, file);
    expect(code).toBe(2);
    expect(stderr).toContain(file);
    expect(stderr).toMatch(READABLE);
  });

  it("a name with control characters does not reach the terminal as it is", async () => {
    const { code, stderr } = await run("check", "\u001b[31mred.yaml");
    expect(code).toBe(2);
    expect(stderr).toContain("\\u{1b}[31mred.yaml");
    expect(stderr).toMatch(READABLE);
  });
});
