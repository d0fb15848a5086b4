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
    const lines = stdout.split("\n").filter((line) => /^\S/.test(line));
    expect(lines.length).toBe(files.length);
    for (const [at, file] of files.entries()) expect(lines[at]).toMatch(new RegExp(`^${file}: (model|sweep|script) `));
    expect(stdout).not.toContain("unlikely thing");
  });

  it("a model with its sheet, and what in it looks unlikely", async () => {
    const file = spoilt(/bell_inertia: 2.6e-6/, "bell_inertia: 2.6e-3");
    const { code, stdout, stderr } = await run("check", file);
    expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
    const text = stdout.replaceAll("\u00a0", " ");
    expect(text).toMatch(/^ {2}Mass +619 g$/m);
    expect(text).toMatch(/^ {2}Centre of mass +0\.8 mm behind, 12\.2 mm above the rotors’ middle$/m);
    expect(text).toMatch(/^ {2}Rotor speed, rpm +10 500 +20 \d00 +26 \d00$/m);
    expect(text).toMatch(/^ {2}Latency +0\.75 ms$/m);
    expect(text).toMatch(/^ {2}motor\.bell_inertia: 2\.6e-3 kg m\^2 is 620 times the propeller's 4\.2e-6 kg m\^2;/m);
    for (const line of text.split("\n")) expect(line).toBe(line.trimEnd());
  });

  it("a sweep in one line, and in another that its model has a sheet worth reading", async () => {
    const model = spoilt(/noise: 0\.01 /, "noise: 0.1 ");
    const sweep = join(emptyFolder(), "sweep.yaml");
    const text = readFileSync("test/fixtures/glance.yaml", "utf8");
    writeFileSync(
      sweep,
      text.replace(/^model: .*/m, `model: ${model}`).replace("../../sweeps", `${process.cwd()}/sweeps`),
    );
    const { code, stdout, stderr } = await run("check", sweep);
    expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
    expect(stdout.split("\n")).toEqual([
      expect.stringMatching(/: sweep glance of Sandpiper r1, \d+ trials$/),
      `  1 unlikely thing in its model: gainscape check ${model}`,
      "",
    ]);
  });

  it("as one JSON document, sheets included", async () => {
    const { code, stdout } = await run("check", "--json", "models/dunlin-r1.yaml", "sweeps/scripts/nudge.yaml");
    expect(code).toBe(0);
    const { format, files } = JSON.parse(stdout);
    expect(format).toBe("gainscape.sheet/1");
    expect(files).toMatchObject([
      {
        file: "models/dunlin-r1.yaml",
        kind: "model",
        sheet: { model: { name: "Dunlin", version: "r1" }, warnings: [] },
      },
      { file: "sweeps/scripts/nudge.yaml", kind: "script" },
    ]);
    expect(files[0].sheet.massKg).toBeCloseTo(0.1916, 3);
  });

  it("with --quiet, not at all", async () => {
    expect(await run("check", "--quiet", "models/dunlin-r1.yaml")).toEqual({ code: 0, stdout: "", stderr: "" });
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
    expect(await run("check", "--json", bad, good)).toMatchObject({ code: 2, stdout: "" });
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
