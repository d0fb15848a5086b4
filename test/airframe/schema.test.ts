import { describe, expect, test } from "vitest";
import { parseAirframe } from "../../src/airframe/resolve.js";
import { readYaml } from "../../src/files/yaml.js";
import { complaintsOf } from "../fixtures/complaints.js";
import { changed, SMALL_MODEL } from "../fixtures/small-model.js";

const parse = (text: string) => parseAirframe(readYaml("models/x.yaml", text));
const complaints = (...pairs: [string, string][]) => complaintsOf(() => parse(changed(SMALL_MODEL, ...pairs)));

const keys =
  "format, name, version, title, notes, frame, rotors, propeller, motor, pack, sensing, controller, wash, loop_gain, flights, correlations";

describe("the form of a model", () => {
  test("a wrong unit says which kind was given", () => {
    expect(complaints(["diameter: 5.0 in", "diameter: 5.1 kg"])).toEqual([
      "models/x.yaml:15:13 propeller.diameter: 5.1 kg is a mass, expected a length (unit: in, mm, cm, m, km or ft)",
    ]);
  });

  test("a bare number names the unit expected", () => {
    expect(complaints(["kv: 1950 rpm/V", "kv: 1950"])).toEqual([
      "models/x.yaml:21:13 motor.kv: 1950 has no unit, expected a motor speed constant (unit: rpm/V or rad/s/V)",
    ]);
  });

  test("an unknown key comes with the nearest known one, and the missing key is not reported again", () => {
    expect(complaints(["  diameter: 5.0 in", "  diametre: 5.0 in"])).toEqual([
      'models/x.yaml:15:3 propeller.diametre: unknown key (did you mean "diameter"?)',
    ]);
  });

  test("an unknown key far from any lists the known keys", () => {
    expect(complaints(["pack: {cells: 4", "pack: {colour: red, cells: 4"])).toEqual([
      "models/x.yaml:22:8 pack.colour: unknown key (expected one of: cells, capacity, resistance, open_circuit)",
    ]);
  });

  test("a missing key is reported where it should stand", () => {
    expect(complaints(["  cp: 0.08\n", ""])).toEqual(["models/x.yaml:14:1 propeller.cp: missing"]);
    expect(complaints(["title: a craft for tests\n", ""])).toEqual(["models/x.yaml:1:1 title: missing"]);
  });

  test("out of range names the range", () => {
    expect(complaints(["latency: 1.0 ms", "latency: 1.0 s"])).toEqual([
      "models/x.yaml:26:12 controller.latency: 1.0 s is out of range, expected 0 ms to 20 ms",
    ]);
    expect(complaints(["cells: 4", "cells: 40"])).toEqual([
      "models/x.yaml:22:15 pack.cells: 40 is out of range, expected a whole number from 1 to 14",
    ]);
    expect(complaints(["cells: 4", "cells: 4.5"])).toEqual([
      "models/x.yaml:22:15 pack.cells: 4.5 is not a whole number, expected a whole number from 1 to 14",
    ]);
    expect(complaints(["ct: 0.16", "ct: .nan"])).toEqual([
      "models/x.yaml:17:7 propeller.ct: NaN is out of range, expected a number from 0.005 to 0.5",
    ]);
    expect(complaints(["  mass: 600 g", "  mass: 0 g"])).toEqual([
      "models/x.yaml:6:9 frame.mass: 0 g is out of range, expected 0.01 g to 25 kg",
    ]);
  });

  test("a word that is none of the known ones", () => {
    expect(complaints(["[100 mm, 75 mm, 0 mm], spin: cw", "[100 mm, 75 mm, 0 mm], spin: ccv"])).toEqual([
      'models/x.yaml:11:39 rotors[1].spin: expected cw or ccw, found "ccv" (did you mean "ccw"?)',
    ]);
    expect(complaints(["gainscape.airframe/1", "gainscape.airframe/9"])).toEqual([
      'models/x.yaml:1:9 format: expected gainscape.airframe/1, found "gainscape.airframe/9" (did you mean "gainscape.airframe/1"?)',
    ]);
  });

  test("too few, too many, and no list at all", () => {
    expect(complaints(["[0 mm, 0 mm, 0 mm]", "[0 mm, 0 mm]"])).toEqual([
      "models/x.yaml:7:19 frame.centre_of_mass: expected 3 lengths (x forward, y left, z up), found 2",
    ]);
    expect(complaints(["sensing: {noise", "sensing: {low_pass: 180 Hz, noise"])).toEqual([
      'models/x.yaml:23:21 sensing.low_pass: expected a list of low-pass stages, found "180 Hz"',
    ]);
    expect(complaints(["pack: {cells: 4, capacity: 1300 mAh, resistance: 18 mohm}", "pack:"])).toEqual([
      "models/x.yaml:22:6 pack: expected the keys cells, capacity, resistance, open_circuit, found an empty value",
    ]);
  });

  test("all problems at once, by line", () => {
    expect(
      complaints(
        ["latency: 1.0 ms", "latency: 1.0 kg"],
        ["version: r1", "version: 1"],
        ["blades: 2", "blade: 2"],
        ["kv: 1950 rpm/V", "kv: 1950"],
      ),
    ).toEqual([
      "models/x.yaml:3:10 version: expected a name, found 1",
      'models/x.yaml:16:3 propeller.blade: unknown key (did you mean "blades"?)',
      "models/x.yaml:21:13 motor.kv: 1950 has no unit, expected a motor speed constant (unit: rpm/V or rad/s/V)",
      "models/x.yaml:26:12 controller.latency: 1.0 kg is a mass, expected a time (unit: ms, s or us)",
    ]);
  });

  test("a name with control characters is refused and cannot act on a terminal", () => {
    expect(complaints(["name: Sanderling", 'name: "Sand\\e[31m\\u202Eerling"'])).toEqual([
      'models/x.yaml:2:7 name: "Sand\\u{1b}[31m\\u{202e}erling" is not a valid name: letters, digits, spaces, hyphens and underscores, at most 40, letter or digit first and last',
    ]);
    expect(complaints(["title: a craft for tests", 'title: "two\\nlines"'])).toEqual([
      'models/x.yaml:4:8 title: "two\\u{a}lines" holds characters that cannot be printed on one line',
    ]);
  });

  test.each(["..", ".hidden", "a/b", "a\\\\b", "", " ", "-r", "x".repeat(41)])(
    "a name that could leave its folder: %j",
    (name) => {
      expect(complaints(["name: Sanderling", `name: "${name}"`])).toHaveLength(1);
    },
  );

  test("keys that JavaScript holds special are unknown keys like any other", () => {
    expect(complaints(["name: Sanderling", "name: Sanderling\n__proto__: {mass: 1 g}\nconstructor: 1"])).toEqual([
      `models/x.yaml:3:1 __proto__: unknown key (expected one of: ${keys})`,
      `models/x.yaml:4:1 constructor: unknown key (expected one of: ${keys})`,
    ]);
  });

  test("a file that is no model at all", () => {
    expect(complaintsOf(() => parse(""))).toEqual([
      `models/x.yaml:1:1: expected the keys ${keys}, found an empty value`,
    ]);
    expect(complaintsOf(() => parse("[1, 2]"))).toEqual([`models/x.yaml:1:1: expected the keys ${keys}, found a list`]);
    expect(complaintsOf(() => parse("{}"))).toHaveLength(11);
  });
});

describe("physics a model cannot have", () => {
  test("rotors in line cannot roll", () => {
    expect(
      complaints(
        ["[100 mm, -75 mm, 0 mm]", "[300 mm, 0 mm, 0 mm]"],
        ["[100 mm, 75 mm, 0 mm]", "[100 mm, 0 mm, 0 mm]"],
        ["[-100 mm, 75 mm, 0 mm]", "[-100 mm, 0 mm, 0 mm]"],
        ["[-100 mm, -75 mm, 0 mm]", "[-300 mm, 0 mm, 0 mm]"],
      ),
    ).toEqual([
      "models/x.yaml:10:3 rotors: these rotors cannot produce a roll torque of their own (place some to the left and some to the right of the centre of mass, not all in line)",
    ]);
  });

  test("rotors that all spin one way cannot yaw", () => {
    const oneWay = SMALL_MODEL.replaceAll("spin: ccw", "spin: cw");
    expect(complaintsOf(() => parse(oneWay))).toEqual([
      "models/x.yaml:10:3 rotors: these rotors cannot produce a yaw torque of their own (let neighbours spin opposite ways: cw, ccw)",
    ]);
  });

  test("sides that spin alike yaw only with a roll", () => {
    const sides = changed(
      SMALL_MODEL,
      ["[100 mm, -75 mm, 0 mm], spin: ccw", "[100 mm, -75 mm, 0 mm], spin: cw"],
      ["[100 mm, 75 mm, 0 mm], spin: cw", "[100 mm, 75 mm, 0 mm], spin: ccw"],
    );
    expect(complaintsOf(() => parse(sides))).toEqual([
      "models/x.yaml:10:3 rotors: these rotors cannot produce a yaw torque of their own (let neighbours spin opposite ways: cw, ccw)",
    ]);
  });

  test("a craft heavier than its full throttle", () => {
    const [line, ...more] = complaints(["  mass: 600 g", "  mass: 5 kg"]);
    expect(more).toEqual([]);
    expect(line).toMatch(
      /^models\/x\.yaml:6:3 frame: cannot hover: full throttle lifts 4\d\d\d g, the craft weighs 5000 g$/,
    );
  });

  test("a centre of mass that no rotor holds from behind", () => {
    expect(complaints(["[0 mm, 0 mm, 0 mm]", "[-120 mm, 0 mm, 0 mm]"])).toEqual([
      "models/x.yaml:6:3 frame: cannot hover: the centre of mass, -120 mm forward and 0 mm to the left of the origin, is not between the rotors",
    ]);
  });

  test("a motor that a full pack cannot turn", () => {
    // 4 cells of 4.2 V over 10 ohm are 1.68 A.
    expect(
      complaints(["resistance: 75 mohm, no_load_current: 0.8 A", "resistance: 10 ohm, no_load_current: 2 A"]),
    ).toEqual([
      "models/x.yaml:21:62 motor.no_load_current: a full pack drives no more than 1.68 A through a standing motor, so it never turns",
    ]);
  });

  test("fewer than four rotors, more than eight", () => {
    expect(complaints(["  - {at: [-100 mm, -75 mm, 0 mm], spin: cw}\n", ""])).toEqual([
      "models/x.yaml:10:3 rotors: expected 4 to 8 rotors, found 3",
    ]);
  });

  test("a propeller better than any measured one, and one worse", () => {
    // 0.7979 x 0.16^1.5 / 0.05 = 1.021; the range is that of the UIUC Propeller Database (seen as data).
    expect(complaints(["cp: 0.08", "cp: 0.05"])).toEqual([
      "models/x.yaml:18:7 propeller.cp: ct 0.16 and cp 0.05 make a figure of merit of 1.021, measured propellers lie between 0.2 and 0.85",
    ]);
    expect(complaints(["cp: 0.08", "cp: 0.3"])).toEqual([
      "models/x.yaml:18:7 propeller.cp: ct 0.16 and cp 0.3 make a figure of merit of 0.1702, measured propellers lie between 0.2 and 0.85",
    ]);
  });

  test("an inertia no body has: one moment above the sum of the others", () => {
    expect(complaints(["zz: 3.2e-3", "zz: 3.7e-3"])).toEqual([
      "models/x.yaml:8:12 frame.inertia: no body can have it: one principal moment exceeds the sum of the other two, which no distribution of mass can do",
    ]);
  });

  test("propellers that hit each other", () => {
    expect(complaints(["[100 mm, 75 mm, 0 mm]", "[100 mm, 45 mm, 0 mm]"])).toEqual([
      "models/x.yaml:11:10 rotors[1].at: its propeller hits that of rotors[0]: 120 mm apart",
    ]);
  });

  test("a low-pass at or above half the loop rate", () => {
    expect(complaints(["sensing: {noise", "sensing: {low_pass: [{order: 2, cutoff: 2 kHz}], noise"])).toEqual([
      "models/x.yaml:23:41 sensing.low_pass[0].cutoff: 2 kHz is not below half the loop rate, 2 kHz",
    ]);
  });

  test("a frame given twice, or by halves", () => {
    expect(
      complaints(["  mass: 600 g", "  parts: [{shape: point, name: all, mass: 1 g, at: rotors}]\n  mass: 600 g"]),
    ).toEqual([
      "models/x.yaml:7:9 frame.mass: comes from the parts; give either the parts or mass, centre_of_mass and inertia",
      "models/x.yaml:8:19 frame.centre_of_mass: comes from the parts; give either the parts or mass, centre_of_mass and inertia",
      "models/x.yaml:9:12 frame.inertia: comes from the parts; give either the parts or mass, centre_of_mass and inertia",
    ]);
    expect(complaints(["  mass: 600 g\n", ""])).toEqual([
      "models/x.yaml:6:3 frame: expected parts, or all of mass, centre_of_mass and inertia",
    ]);
  });

  test("a part of unknown shape, and one that lacks what its shape needs", () => {
    const parts = (part: string) =>
      complaints(
        ["  mass: 600 g\n", `  parts: [${part}]\n`],
        ["  centre_of_mass: [0 mm, 0 mm, 0 mm]\n", ""],
        ["  inertia: {xx: 1.2e-3 kg m^2, yy: 2.4e-3 kg m^2, zz: 3.2e-3 kg m^2}\n", ""],
      );
    expect(parts("{shape: ball, name: a, mass: 1 g, at: rotors}")).toEqual([
      "models/x.yaml:6:19 frame.parts[0].shape: expected box, cylinder, rod or point",
    ]);
    expect(parts("{shape: rod, name: a, mass: 1 g, at: rotors}")).toEqual([
      "models/x.yaml:6:11 frame.parts[0].from: missing",
      "models/x.yaml:6:11 frame.parts[0].to: missing",
      "models/x.yaml:6:44 frame.parts[0].at: unknown key (expected one of: shape, name, mass, from, to)",
    ]);
    expect(parts("{shape: point, name: a, mass: 1 g, at: rotor}")).toEqual([
      'models/x.yaml:6:50 frame.parts[0].at: expected "rotors" or a list, found "rotor"',
    ]);
  });

  test("tables that do not rise", () => {
    expect(complaints(["  blades: 2", "  blades: 2\n  table: [{j: 0.2, cp: 0.08}, {j: 0.1, cp: 0.07}]"])).toEqual([
      "models/x.yaml:17:35 propeller.table[1].j: expected to rise from row to row",
    ]);
    expect(complaints(["  blades: 2", "  blades: 2\n  table: [{j: 0.9, cp: 0.05}]"])).toEqual([
      "models/x.yaml:17:10 propeller.table: needs a row with j above 0 and up to 0.4, where hovering rotors work",
    ]);
    expect(
      complaints([
        "cells: 4",
        "cells: 4, open_circuit: [{charge: 0 %, voltage: 3.3 V}, {charge: 100 %, voltage: 3.2 V}]",
      ]),
    ).toEqual([
      "models/x.yaml:22:89 pack.open_circuit[1].voltage: a fuller cell cannot stand lower; expected rising voltages",
    ]);
  });
});
