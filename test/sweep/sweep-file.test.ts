import { describe, expect, test } from "vitest";
import { D_UNIT, P_UNIT } from "../../src/base/units.js";
import { pathFromSweep } from "../../src/sweep/resolve.js";
import { linesOf } from "../fixtures/both-axes.js";
import { complaintsOf } from "../fixtures/complaints.js";
import { changed } from "../fixtures/small-model.js";
import { parseSmallSweep, SMALL_SCRIPT, SMALL_SWEEP } from "../fixtures/small-sweep.js";

const parse = (...pairs: [string, string][]) => parseSmallSweep(changed(SMALL_SWEEP, ...pairs));
const complaints = (...pairs: [string, string][]) => complaintsOf(() => parse(...pairs));

describe("a sweep as a question", () => {
  test("the grid is evenly spaced in the file's unit, both ends exact", () => {
    const { p, d } = linesOf(parse(), "roll");
    expect(p).toHaveLength(3);
    expect(p[0]).toBe(10 * P_UNIT);
    expect((p[1] ?? 0) / P_UNIT).toBeCloseTo(20, 12);
    expect(p[2]).toBe(30 * P_UNIT);
    expect(d).toEqual([0, 4 * D_UNIT]);
  });

  test("scripts come with their levels and rates; without, they are simulated in hover", () => {
    const [stop, still] = parse().scripts;
    expect(stop).toMatchObject({ throttle: ["hover", 0.6] });
    expect(stop?.rates[0]).toBeCloseTo(2 * Math.PI, 12);
    expect(still).toMatchObject({ throttle: ["hover"], rates: [0] });
  });

  test("conditions in SI, the standard day where nothing is said", () => {
    expect(parse().conditions).toEqual([
      { name: "fresh", charge: 1, payload: null, altitude: 0, temperature: null },
      { name: "loaded", charge: 0.8, payload: { mass: 0.05, at: [0, 0, 0.04] }, altitude: 1500, temperature: 268.15 },
    ]);
  });

  test("limits and margins not given are the catalogue's, and reported", () => {
    const { limits, margins, seed, boundaryTolerance, defaulted, pinned, model } = parse();
    expect(limits).toMatchObject({
      overshoot: 15,
      settling: 250,
      wobbleAngle: 2,
      heat: 1.5,
      commandNoise: 3,
      growth: null,
      ringFrequency: null,
    });
    expect(margins).toEqual({ gain: 6, phase: Math.PI / 4 });
    expect([seed, boundaryTolerance, pinned, model]).toEqual([1, 0.005, null, null]);
    expect(defaulted).toContain("seed: 1");
    expect(defaulted).toContain("limits.overshoot: 15 %");
    expect(defaulted).toContain("margins.gain: 6 dB, as SAE AS94900 is commonly quoted");
  });

  test("every trial only where the file asks for all; one that needs no more has the same sweep as one that says nothing", () => {
    expect(parse(["conditions:", "trials: all\nconditions:"])).toEqual({ ...parse(), everyTrial: true });
    expect(parse(["conditions:", "trials: needed\nconditions:"])).toEqual(parse());
    expect(complaintsOf(() => parse(["conditions:", "trials: some\nconditions:"])).join()).toMatch(
      /trials: expected needed or all, found "some"/,
    );
  });

  test("limits given, or none", () => {
    const { limits, defaulted } = parse([
      "conditions:",
      "limits: {overshoot: none, settling: 0.3 s, rebounds: 3, wobble_angle: 2.5 deg, heat: 1.2, command_noise: 4.5 %}\nconditions:",
    ]);
    expect(limits).toMatchObject({
      overshoot: null,
      settling: 300,
      rebounds: 3,
      wobbleAngle: 2.5,
      heat: 1.2,
      commandNoise: 4.5,
      rise: 120,
    });
    expect(defaulted.filter((line) => line.startsWith("limits."))).toEqual([
      "limits.rise: 120 ms",
      "limits.kick: 2 deg",
    ]);
  });

  test("a pinned tune", () => {
    const tune = "{p: 20 %/(100 deg/s), d: 2 %/(1000 deg/s^2)}";
    const { pinned } = parse(["conditions:", `pinned: {roll: ${tune}, pitch: ${tune}}\nconditions:`]);
    expect(pinned?.roll).toEqual({ p: 20 * P_UNIT, d: 2 * D_UNIT });
  });

  test("paths are seen from the sweep file", () => {
    expect(pathFromSweep("sweeps/x.yaml", "../models/a.yaml")).toBe("models/a.yaml");
    expect(pathFromSweep("x.yaml", "a.yaml")).toBe("a.yaml");
    expect(pathFromSweep("sweeps/x.yaml", "/tmp/a.yaml")).toBe("/tmp/a.yaml");
  });

  test("nothing of it can be changed", () => {
    const sweep = parse();
    expect(() => Object.assign(sweep.scripts[0]?.script.window ?? {}, { from: 0 })).toThrow(TypeError);
  });
});

describe("what is wrong with a sweep", () => {
  test("a reversed grid, an empty one, one point", () => {
    expect(
      complaints(["from: 10 %/(100 deg/s), to: 30 %/(100 deg/s)", "from: 30 %/(100 deg/s), to: 10 %/(100 deg/s)"]),
    ).toEqual([
      "sweeps/x.yaml:5:6 grid.p: runs backwards, from 30 %/(100 deg/s) to 10 %/(100 deg/s); expected the smaller first",
    ]);
    expect(complaints(["to: 4 %/(1000 deg/s^2)", "to: 0 %/(1000 deg/s^2)"])).toEqual([
      "sweeps/x.yaml:6:6 grid.d: is empty: from and to are both 0 %/(1000 deg/s^2)",
    ]);
    expect(complaints(["points: 3", "points: 0"])).toEqual([
      "sweeps/x.yaml:5:61 grid.p.points: 0 is out of range, expected a whole number from 2 to 1024",
    ]);
  });

  test("a grid over the cap", () => {
    expect(complaints(["points: 2", "points: 300"], ["points: 3}", "points: 300}"])).toEqual([
      "sweeps/x.yaml:5:3 grid: 300 x 300 are 90000 points, expected at most 65536; boundaries are refined below the grid",
    ]);
    expect(complaints(["points: 2", "points: 256"], ["points: 3}", "points: 256}"])).toEqual([]);
  });

  test("a gain in the unit of another", () => {
    expect(complaints(["to: 4 %/(1000 deg/s^2)", "to: 4 %/(100 deg/s)"])).toEqual([
      "sweeps/x.yaml:6:37 grid.d.to: 4 %/(100 deg/s) is a P gain, expected a D gain (unit: %/(1000 deg/s^2))",
    ]);
    expect(complaints(["to: 4 %/(1000 deg/s^2)", "to: 4"])).toEqual([
      "sweeps/x.yaml:6:37 grid.d.to: 4 has no unit, expected a D gain (unit: %/(1000 deg/s^2); a controller's own number has another scale, see controller.one_unit)",
    ]);
  });

  test("a script that is not there", () => {
    expect(complaints(["{use: still}", "{use: stil}"])).toEqual([
      "sweeps/x.yaml:9:11 scripts[1].use: sweeps/scripts/stil.yaml: no such file",
    ]);
    expect(complaints(["{use: still}", "{use: ./near.yaml}"])).toEqual([
      "sweeps/x.yaml:9:11 scripts[1].use: sweeps/near.yaml: no such file",
    ]);
  });

  test("a fault in a script is reported where the script has it, after those of the sweep", () => {
    const broken = changed(SMALL_SCRIPT, ["noise: on", "noise: yes"]);
    const twice = changed(SMALL_SWEEP, ["name: loaded", "name: fresh"]);
    expect(complaintsOf(() => parseSmallSweep(twice, broken))).toEqual([
      'sweeps/x.yaml:12:12 conditions[1].name: "fresh" is taken by a condition above',
      'sweeps/scripts/stop.yaml:9:8 noise: expected on or off, found "yes"',
    ]);
  });

  test("rates where none are needed, and none where they are", () => {
    expect(complaints([", rates: [360 deg/s]", ""], ["{use: still}", "{use: still, rates: [90 deg/s]}"])).toEqual([
      'sweeps/x.yaml:8:5 scripts[0]: "stop" commands the swept rate: add rates, a list of angular rates (unit: deg/s or rad/s)',
      'sweeps/x.yaml:9:25 scripts[1].rates: "still" commands no swept rate; leave the rates out',
    ]);
  });

  test("levels for a script that has a throttle of its own", () => {
    expect(complaints(["{use: still}", "{use: still, throttle: [50 %]}"])).toEqual([
      'sweeps/x.yaml:9:28 scripts[1].throttle: "still" has a throttle of its own; leave the levels out',
    ]);
  });

  test("a level that is no duty", () => {
    expect(complaints(["[hover, 60 %]", "[hovr, 60, 160 %]"])).toEqual([
      'sweeps/x.yaml:8:28 scripts[0].throttle[0]: "hovr" is not a quantity, expected a share (unit: %) or hover',
      "sweeps/x.yaml:8:34 scripts[0].throttle[1]: 60 has no unit, expected a share (unit: %) or hover",
      "sweeps/x.yaml:8:38 scripts[0].throttle[2]: 160 % is out of range, expected 1 % to 100 % or hover",
    ]);
  });

  test("more trials than any machine can hold: axes by levels by rates by conditions, by points", () => {
    const many = (count: number, one: (at: number) => string) =>
      Array.from({ length: count }, (_, at) => one(at)).join(", ");
    const levels = many(16, (at) => `${20 + at} %`);
    const rates = many(16, (at) => `${100 + at} deg/s`);
    const conditions = many(16, (at) => `{name: c${at}, charge: 100 %}`);
    const use: [string, string] = [
      "throttle: [hover, 60 %], rates: [360 deg/s]",
      `throttle: [${levels}], rates: [${rates}]`,
    ];
    const sweepText = changed(SMALL_SWEEP, use).replace(/conditions:[\s\S]*/, `conditions: [${conditions}]`);
    expect(complaintsOf(() => parseSmallSweep(sweepText))).toEqual([
      "sweeps/x.yaml:8:3 scripts: 4128 variants at each point of the grid, expected at most 2048; make several sweeps of it",
    ]);
    expect(complaints(use, ["points: 3", "points: 256"], ["points: 2}", "points: 256}"])).toEqual([
      "sweeps/x.yaml:5:3 grid: 65536 points by 516 variants are 33816576 trials, expected at most 5000000; make several sweeps of it",
    ]);
  });

  test("a script used twice", () => {
    expect(complaints(["{use: still}", "{use: still}\n  - {use: still}"])).toEqual([
      'sweeps/x.yaml:10:11 scripts[2].use: "still" is used above; list all its levels and rates there',
    ]);
  });

  test("an axis without a script: without a trial all of it would be clean", () => {
    expect(complaints(["\n  - {use: still}", ""])).toEqual([
      "sweeps/x.yaml:8:3 scripts: none of them tests pitch: nothing would speak against any of its gains; add {use: nudge}",
    ]);
    // Where a script could not be read, its axes are unknown.
    expect(complaints(["{use: still}", "{use: gone}"]).join()).not.toContain("tests pitch");
  });

  test("limits of a wrong kind, below zero, or on what is never judged", () => {
    expect(
      complaints([
        "conditions:",
        "limits: {overshoot: 15 ms, settling: -1 ms, rebounds: 2 Hz, growth: 1}\nconditions:",
      ]),
    ).toEqual([
      "sweeps/x.yaml:10:21 limits.overshoot: 15 ms is a time, expected a share (unit: %) or none",
      'sweeps/x.yaml:10:38 limits.settling: "-1 ms" is out of range, expected above 0 and up to 10000 ms',
      'sweeps/x.yaml:10:55 limits.rebounds: "2 Hz" is not a number, expected a number or none',
      "sweeps/x.yaml:10:61 limits.growth: unknown key (expected one of: overshoot, settling, rebounds, rise, kick, wobble_angle, heat, command_noise)",
    ]);
  });

  test("changes: without or with, one name each, keys with values", () => {
    const changes = (text: string) => complaints(["conditions:", `changes:\n${text}\nconditions:`]);
    expect(changes("  - {without: notch, with: notch, set: [sensing.notch=]}")).toEqual([
      "sweeps/x.yaml:11:5 changes[0]: expected either without or with, and what is taken out or put in: {without: gyro notch}",
    ]);
    expect(changes("  - {set: [sensing.notch=]}")).toEqual([
      expect.stringContaining("expected either without or with"),
    ]);
    expect(
      changes("  - {without: notch, set: [sensing.notch=]}\n  - {with: notch, set: [sensing.notch, '[2]=3']}"),
    ).toEqual([
      'sweeps/x.yaml:12:5 changes[1]: "notch" is the name of a change above',
      "sweeps/x.yaml:12:25 changes[1].set[0]: expected key=value, as sensing.notch=",
      'sweeps/x.yaml:12:40 changes[1].set[1]: "[2]" is not a key; expected one as frame.parts[2].mass',
    ]);
    expect(changes("  - {without: notch, set: []}")).toEqual([
      expect.stringContaining("changes[0].set: expected 1 to 20"),
    ]);
    expect(parse(["conditions:", "changes: [{without: notch, set: [sensing.notch=]}]\nconditions:"]).changes).toEqual([
      { kind: "without", name: "notch", set: ["sensing.notch="] },
    ]);
  });
});
