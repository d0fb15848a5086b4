// gainscape new: by answers, by options, on a terminal; a file that is there stays, and nothing is left half done.
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { parseAirframe } from "../../src/airframe/resolve.js";
import { readDocument } from "../../src/files/read.js";
import { emptyFolder, READABLE, run } from "./command.js";
import { HAS_TERMINALS, onTerminal, type Turn } from "./terminal.js";

const SANDPIPER = "models/answers/sandpiper.yaml";
const OPTIONS = [
  ["--name", "Knot"],
  ["--layout", "quadrotor-x"],
  ["--distances", "120 mm"],
  ["--ducts", "yes"],
  ["--weight", "210 g"],
  ["--pack-cells", "4"],
  ["--pack-capacity", "850 mAh"],
  ["--pack-weight", "98 g"],
  ["--propeller-diameter", "3 in"],
  ["--propeller-pitch", "2 in"],
  ["--propeller-blades", "3"],
  ["--propeller-weight", "1.3 g"],
  ["--motor-kv", "3800 rpm/V"],
  ["--motor-weight", "14 g"],
  ["--loop-rate", "4 kHz"],
  ["--gyro-low-pass", "250 Hz"],
  ["--derivative-low-pass", "none"],
] as const;

/** Every option but those named. */
const without = (...flags: string[]) => OPTIONS.filter(([flag]) => !flags.includes(flag)).flat();

/** Sandpiper's answers with one text in the place of another. */
function answersWith(from: string, to: string): string {
  const file = join(emptyFolder(), "answers.yaml");
  const text = readFileSync(SANDPIPER, "utf8");
  expect(text).toContain(from);
  writeFileSync(file, text.replace(from, to));
  return file;
}

describe("a model from answers", () => {
  it("is written, passes every check, and the next commands are said", async () => {
    const file = join(emptyFolder(), "sandpiper-k1.yaml");
    const { code, stdout, stderr } = await run("new", file, "--answers", SANDPIPER);
    expect({ code, stderr }).toEqual({ code: 0, stderr: "" });
    expect(stdout).toMatch(READABLE);
    expect(stdout).toContain(`gainscape check ${file}`);
    expect(stdout).toContain(`gainscape sweep sweeps/first-tune.yaml --model ${file}`);
    expect(stdout).toContain(`gainscape card sweeps/first-tune.yaml --model ${file}`);
    expect((await run("check", file)).stdout).toContain("Sandpiper k1");
    expect(parseAirframe(readDocument(file)).spreads?.length).toBeGreaterThan(20);
  });

  it("is the same by options, and an option goes before the file", async () => {
    const folder = emptyFolder();
    expect((await run("new", join(folder, "a.yaml"), ...without(), "--quiet")).code).toBe(0);
    const knot = parseAirframe(readDocument(join(folder, "a.yaml")));
    expect([knot.name, knot.rotors.length, knot.controller.derivativeFilter]).toEqual(["Knot", 4, []]);
    expect(knot.mass).toBeCloseTo(0.308, 12);
    await run("new", join(folder, "b.yaml"), "--answers", SANDPIPER, "--weight", "430 g", "--quiet");
    expect(parseAirframe(readDocument(join(folder, "b.yaml"))).mass).toBeCloseTo(0.628, 12);
  });

  it("never takes the place of a file", async () => {
    const file = join(emptyFolder(), "mine.yaml");
    writeFileSync(file, "mine");
    const { code, stdout, stderr } = await run("new", file, "--answers", SANDPIPER);
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    expect(stderr).toMatch(/mine\.yaml: is there already, and nothing is overwritten.*\n$/);
    expect(readFileSync(file, "utf8")).toBe("mine");
  });

  it.each([
    ["weight: 421 g", "weight: 421", /answers\.yaml:10:9 weight: 421 has no unit, expected a mass/],
    [
      "layout: quadrotor-x",
      "layout: quadrotor",
      /answers\.yaml:7:9 layout: expected quadrotor-x, .*did you mean "quadrotor-x"/,
    ],
    ["ducts: no", "duct: no", /answers\.yaml:9:1 duct: unknown key \(did you mean "ducts"\?\)/],
    [
      "distances: [200 mm, 150 mm]",
      "distances: [100 mm]",
      /distances: two motors are .* apart, propellers of 127 mm would hit each other/,
    ],
    [
      "weight: 33 g}",
      "weight: 120 g}",
      /motors and propellers weigh 494 g of 421 g.*is the weight without pack that of the whole craft/,
    ],
    ["blades: 2", "blades: two", /propeller\.blades: "two" is not a number, expected a whole number from 2 to 8/],
    ["pitch: 4.3 in", "pitch: 43 in", /propeller\.pitch: .*out of range|pitch is 8\.60 of the diameter/],
    ["gyro_low_pass: 250 Hz", "gyro_low_pass: 2500 Hz", /gyro_low_pass: not below half the loop rate, 2 kHz/],
    ["kv: 1950 rpm/V", "kv: 500 rpm/V", /they make a model that is refused: .*cannot hover/],
    ["weight: 421 g", "", /^.*answers\.yaml: missing: weight\n$/],
    [
      "pack: {cells: 4, capacity: 1300 mAh, weight: 198 g}",
      "",
      /missing: pack\.cells, pack\.capacity, pack\.weight\n$/,
    ],
  ])("%s made %s is refused in one line, and nothing is written", async (from, to, message) => {
    const folder = emptyFolder();
    const { code, stdout, stderr } = await run("new", join(folder, "x.yaml"), "--answers", answersWith(from, to));
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    expect(stderr).toMatch(message);
    expect(stderr.trimEnd().split("\n")).toHaveLength(1);
    expect(stderr).toMatch(READABLE);
    expect(readdirSync(folder)).toEqual([]);
  });

  it("without a terminal, what is missing is said in one line", async () => {
    const folder = emptyFolder();
    const none = await run("new", join(folder, "x.yaml"));
    expect(none.code).toBe(2);
    expect(none.stderr).toMatch(
      /^new: missing: --name, --layout, .*--derivative-low-pass; give them, or --answers FILE, or run it on a terminal, which asks\n$/,
    );
    const two = await run("new", join(folder, "x.yaml"), ...without("--weight", "--pack-cells"));
    expect(two.stderr).toMatch(/^new: missing: --weight, --pack-cells; give them/);
    expect(readdirSync(folder)).toEqual([]);
  });

  it("a wrong option is named", async () => {
    const { code, stderr } = await run("new", join(emptyFolder(), "x.yaml"), ...without("--weight"), "--weight", "210");
    expect(code).toBe(2);
    expect(stderr).toBe("--weight: 210 has no unit, expected a mass (unit: g, kg or mg)\n");
  });

  it.each([
    ["a model in the place of answers", "models/sandpiper-r1.yaml", /this is a model; expected answers/],
    ["answers in the place of a sweep", null, /this is answers that a model is made from; expected a sweep/],
  ])("%s is told apart", async (_, answers, message) => {
    const target = join(emptyFolder(), "x.yaml");
    const { code, stderr } =
      answers === null ? await run("sweep", SANDPIPER) : await run("new", target, "--answers", answers);
    expect(code).toBe(2);
    expect(stderr).toMatch(message);
  });
});

const TURNS: readonly Turn[] = [
  ["Name of the craft", "Knot\r"],
  ["Layout", "\r"],
  ["front to rear", "120 mm\r"],
  ["Ducts", "\u001b[B\r"],
  ["Weight without pack", "210\r"],
  ["has no unit", " g\r"],
  ["Cells", "4\r"],
  ["Capacity", "850 mAh\r"],
  ["Weight of the pack", "98 g\r"],
  ["diameter", "3 in\r"],
  ["pitch", "2 in\r"],
  ["blades", "3\r"],
  ["weight of one", "\r"],
  ["KV", "3800 rpm/V\r"],
  ["weight of one", "\r"],
  ["outer diameter", "20 mm\r"],
  ["length with its base", "14 mm\r"],
  ["loop rate", "4 kHz\r"],
  ["of the gyro", "250 Hz\r"],
  ["of D", "none\r"],
  ["controller's P", "\r"],
];

describe.skipIf(!HAS_TERMINALS)("on a terminal", () => {
  it("asks, says what is wrong with an answer at once, and writes", async () => {
    const folder = emptyFolder();
    const { code, drawn } = await onTerminal(folder, ["new", "knot.yaml"], TURNS);
    expect(code, drawn).toBe(0);
    expect(drawn).toContain("gainscape check knot.yaml");
    expect(drawn).not.toContain("Warning");
    const knot = parseAirframe(readDocument(join(folder, "knot.yaml")));
    expect([knot.name, knot.rotors.length]).toEqual(["Knot", 4]);
    expect(readFileSync(join(folder, "knot.yaml"), "utf8")).toContain("in ducts");
  });

  it("asks for nothing where answers are given", async () => {
    const folder = emptyFolder();
    const { code, drawn } = await onTerminal(folder, ["new", "knot.yaml", ...without("--weight")], []);
    expect(code).toBe(2);
    expect(drawn).toContain("new: missing: --weight; give");
  });

  it("Ctrl-C ends it with 3, and nothing is written", async () => {
    const folder = emptyFolder();
    const { code, drawn } = await onTerminal(folder, ["new", "knot.yaml"], [...TURNS.slice(0, 3), ["Ducts", "\u0003"]]);
    expect(code).toBe(3);
    expect(drawn).toContain("incomplete: interrupted before knot.yaml was written");
    expect(existsSync(join(folder, "knot.yaml"))).toBe(false);
  });

  it("answers that contradict each other are printed to be given again", async () => {
    const folder = emptyFolder();
    const heavy = TURNS.map(
      ([drawn, keys]): Turn => (drawn === "Weight without pack" ? [drawn, "40\r"] : [drawn, keys]),
    );
    const { code, drawn } = await onTerminal(folder, ["new", "knot.yaml"], heavy);
    expect(code).toBe(2);
    expect(drawn).toContain("gainscape new knot.yaml --name Knot --layout quadrotor-x");
    expect(drawn).toContain("motors and propellers weigh");
    expect(existsSync(join(folder, "knot.yaml"))).toBe(false);
  });
});
