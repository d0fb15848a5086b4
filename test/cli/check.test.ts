import { copyFileSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { emptyFolder, READABLE, run } from "./command.js";

const yamlIn = (folder: string): string[] =>
  readdirSync(folder)
    .filter((file) => file.endsWith(".yaml"))
    .map((file) => `${folder}/${file}`);

/** The shipped model with one line changed, written where the test may write. */
function spoilt(from: RegExp, to: string): string {
  const text = readFileSync("models/sandpiper-r1.yaml", "utf8");
  const changed = text.replace(from, to);
  if (changed === text) throw new Error(`no ${from} in the model`);
  const file = join(emptyFolder(), "spoilt.yaml");
  writeFileSync(file, changed);
  return file;
}

describe("good files", () => {
  it("every shipped model, sweep and script is reported by what it is", async () => {
    const files = [...yamlIn("models"), ...yamlIn("sweeps"), ...yamlIn("sweeps/scripts")];
    const { code, stdout, stderr } = await run("check", ...files);
    expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
    const lines = stdout.trimEnd().split("\n");
    expect(lines.length).toBe(files.length);
    for (const [at, file] of files.entries()) expect(lines[at]).toMatch(new RegExp(`^${file}: (model|sweep|script) `));
  });
});

describe("bad files", () => {
  it("end with 2; each problem has its place and what was expected", async () => {
    const file = spoilt(/^propeller: .*|^ {2}diameter: .*/m, "  diameter: 5.1 kg");
    const { code, stdout, stderr } = await run("check", file);
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    expect(stderr).toMatch(/spoilt\.yaml:\d+:\d+ propeller\.diameter: 5\.1 kg is a mass, expected a length/);
    expect(stderr).toMatch(READABLE);
  });

  it("are all reported at once, and the good ones among them too", async () => {
    const bad = spoilt(/^format: .*/m, "format: gainscape.airfrme/1");
    const good = join(emptyFolder(), "good.yaml");
    copyFileSync("models/sandpiper-r1.yaml", good);
    const { code, stdout, stderr } = await run("check", bad, good, "nowhere.yaml");
    expect(code).toBe(2);
    expect(stdout).toMatch(/good\.yaml: model Sandpiper r1\n/);
    expect(stderr).toMatch(/spoilt\.yaml:\d+:\d+ format: .*did you mean "gainscape\.airframe\/1"/);
    expect(stderr).toContain("nowhere.yaml");
  });

  it.each([
    ["no YAML", "a: [1, 2"],
    ["nothing", ""],
    ["a list", "- 1\n- 2\n"],
    ["one number", "42"],
    ["no format", "name: Sandpiper\n"],
    ["control characters", '"\\e[31mred": 1\nformat: "\\e[2J"\n'],
    ["itself inside", "a: &a [*a]\n"],
    [
      "a bomb of aliases",
      `a: &a [x, x]\n${"bcdefghij"
        .split("")
        .map((key, i) => `${key}: &${key} [*${"abcdefghi"[i]}, *${"abcdefghi"[i]}]`)
        .join("\n")}\n`,
    ],
  ])("%s: a message, no stack trace", async (_, text) => {
    const file = join(emptyFolder(), "broken.yaml");
    writeFileSync(file, text);
    const { code, stderr } = await run("check", file);
    expect(code).toBe(2);
    expect(stderr).toContain("broken.yaml");
    expect(stderr).toMatch(READABLE);
  });
});
