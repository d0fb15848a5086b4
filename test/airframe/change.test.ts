// Keys of a model set anew: each spread as wide as before, the propeller's table with its ct and cp, lists and correlations.
import { describe, expect, it } from "vitest";
import { parseAirframe } from "../../src/airframe/resolve.js";
import { InputError } from "../../src/base/problem.js";
import { readYaml } from "../../src/files/yaml.js";
import { changedModel } from "../../src/flow/changed-model.js";
import { changed, SMALL_MODEL } from "../fixtures/small-model.js";

const LISTS =
  "low_pass: [{order: 2, cutoff: 250 Hz}, {order: 1, cutoff: 500 Hz}], vibration: [{harmonic: 1, at_hover: 1 deg/s ± 30 %}, {harmonic: 2, at_hover: 2 deg/s ± 30 %}]";
const TEXT = changed(
  SMALL_MODEL,
  ["resistance: 75 mohm", "resistance: 75 mohm ± 20 %"],
  ["no_load_current: 0.8 A", "no_load_current: 0.8 A ± 40 %"],
  ["resistance: 18 mohm", "resistance: 15 to 21 mohm"],
  ["ct: 0.16", "ct: 0.16 ± 10 %\n  table: [{j: 0.2, ct: 0.14, cp: 0.076}]"],
  ["latency: 1.0 ms", "latency: 1.0 ms ± 0.2 ms"],
  ["[0 mm, 0 mm, 0 mm]", "[10 mm ± 2 mm, 0 mm, 0 mm]"],
  ["noise: 0.01 deg/s/sqrt(Hz)", `noise: 0.01 deg/s/sqrt(Hz), ${LISTS}`],
).concat("wash: {rms: 16 % ± 4 %}\n");

const read = (text: string) => {
  const document = readYaml("x.yaml", text);
  return { value: parseAirframe(document), document };
};
const set = (options: readonly string[], text = TEXT) => changedModel(read(text), options);
/** What a file with these replacements gives, but for what says that it was changed. */
const likeFile = (options: readonly string[], ...pairs: readonly (readonly [string, string])[]) => {
  const { changed: _, version: __, ...craft } = set(options).value;
  const { version: ___, ...file } = read(changed(TEXT, ...pairs)).value;
  expect(craft).toEqual(file);
};
const complaint = (options: readonly string[], text = TEXT): string => {
  try {
    set(options, text);
  } catch (error) {
    if (error instanceof InputError) return error.message;
    throw error;
  }
  throw new Error("nothing was refused");
};

type Row = readonly [title: string, options: readonly string[], ...pairs: (readonly [from: string, to: string])[]];
const ROWS: readonly Row[] = [
  ["a count", ["pack.cells=6"], ["cells: 4", "cells: 6"]],
  ["a quantity, its relative spread as before", ["motor.resistance=80 mohm"], ["75 mohm ± 20 %", "80 mohm ± 20 %"]],
  ["in another unit", ["motor.resistance=0.08 ohm"], ["75 mohm ± 20 %", "0.08 ohm ± 20 %"]],
  ["with a spread of its own", ["motor.resistance=80 mohm ± 5 %"], ["75 mohm ± 20 %", "80 mohm ± 5 %"]],
  ["a log-normal one", ["no_load_current=1 A"], ["0.8 A ± 40 %", "1 A ± 40 %"]],
  ["a spread that was written as a quantity", ["latency=2 ms"], ["1.0 ms ± 0.2 ms", "2 ms ± 0.4 ms"]],
  ["a range", ["pack.resistance=36 mohm"], ["15 to 21 mohm", "30 to 42 mohm"]],
  ["a share, whose % is its own unit", ["wash.rms=8 %"], ["16 % ± 4 %", "8 % ± 2 %"]],
  ["a place, whose spread is no share of it", ["frame.centre_of_mass[0]=20 mm"], ["10 mm ± 2 mm", "20 mm ± 2 mm"]],
  ["a place on the origin", ["frame.centre_of_mass=[0 mm, 0 mm, 0 mm]"], ["10 mm ± 2 mm", "0 mm ± 2 mm"]],
  [
    "ct, its table with it",
    ["propeller.ct=0.08", "propeller.cp=0.04"],
    ["0.16 ± 10 %", "0.08 ± 10 %"],
    ["cp: 0.08", "cp: 0.04"],
    ["ct: 0.14, cp: 0.076", "ct: 0.07, cp: 0.038"],
  ],
  [
    "a list of one, written as its member",
    ["sensing.notch={centre: 220 Hz, width: 60 Hz}"],
    ["low_pass:", "notch: [{centre: 220 Hz, width: 60 Hz}], low_pass:"],
  ],
  ["a member of a list", ["sensing.low_pass[1].cutoff=400 Hz"], ["cutoff: 500 Hz", "cutoff: 400 Hz"]],
  ["one member more", ["low_pass[2]={order: 1, cutoff: 90 Hz}"], ["500 Hz}", "500 Hz}, {order: 1, cutoff: 90 Hz}"]],
  [
    "a group that was not there",
    ["controller.gain_schedule={throttle: 50 %, p: 0.8}"],
    ["  gains:", "  gain_schedule: [{throttle: 50 %, p: 0.8}]\n  gains:"],
  ],
  ["a key taken out, and what is then assumed", ["wash="], ["wash: {rms: 16 % ± 4 %}\n", ""]],
  [
    "a member taken out, those behind it with their own spreads",
    ["vibration[0]="],
    ["{harmonic: 1, at_hover: 1 deg/s ± 30 %}, ", ""],
  ],
  [
    "two keys, one after the other",
    ["pack.cells=6", "motor.kv=1300 rpm/V"],
    ["cells: 4", "cells: 6"],
    ["1950", "1300"],
  ],
];

describe("a key set anew gives the model of a file that says so", () => {
  const rows = ROWS.map(([title, options, ...pairs]) => ({ title, options, pairs }));
  it.each(rows)("$title", ({ options, pairs }) => likeFile(options, ...pairs));

  it("by a part's name or place, also without the group that it stands in", () => {
    const model = changed(
      SMALL_MODEL,
      ["  mass: 600 g\n", ""],
      ["  centre_of_mass: [0 mm, 0 mm, 0 mm]\n", ""],
      [
        "  inertia: {xx: 1.2e-3 kg m^2, yy: 2.4e-3 kg m^2, zz: 3.2e-3 kg m^2}",
        "  parts:\n    - {name: body, shape: box, mass: 500 g ± 2 %, size: [10 cm, 10 cm, 3 cm], at: [0 mm, 0 mm, 0 mm]}\n    - {name: camera, shape: point, mass: 30 g, at: [80 mm, 0 mm, 0 mm]}",
      ],
    );
    const masses = [
      "frame.parts[camera].mass=60 g",
      "parts[camera].mass=60 g",
      "frame.parts.camera.mass=60 g",
      "frame.parts[1].mass=60 g",
    ].map((option) => set([option], model));
    for (const { value } of masses) {
      expect(value.mass).toBeCloseTo(0.56, 12);
      expect(value.changed).toEqual(["frame.parts[1].mass=60 g"]);
    }
    const replaced = set(["frame.parts[0]={name: other, shape: point, mass: 400 g, at: [0 mm, 0 mm, 0 mm]}"], model);
    expect(replaced.value.spreads, "another part's spread says nothing of this one").toBeUndefined();
  });
});

describe("a changed model", () => {
  it("says so in its version, and how it is made again", () => {
    const { value } = set(["cells=6", "sensing.vibration[0]="]);
    expect(value.version).toBe("r1 with pack.cells = 6, no sensing.vibration[0]");
    expect(value.changed).toEqual(["pack.cells=6", "sensing.vibration[0]="]);
  });

  it("leaves the model it was made from as it is", () => {
    const model = read(TEXT);
    const before = structuredClone(model.document.data);
    changedModel(model, ["propeller.ct=0.12", "sensing.low_pass=", "wash.rms=5 %"]);
    expect(model.document.data).toEqual(before);
  });
});

const PAIRS = (one: string, other: string) =>
  `${TEXT}correlations:\n  - {one: "${one}", other: "${other}", correlation: 0.5}\n`;
const LINE = "sensing.vibration[1].at_hover";

describe("correlations", () => {
  it("hold for a number that is set anew and keeps its spread", () => {
    const text = PAIRS("motor.resistance", "pack.resistance");
    expect(set(["motor.resistance=80 mohm"], text).value.correlations).toHaveLength(1);
  });

  it.each([
    [
      "a member before it is taken out",
      ["sensing.vibration[0]="],
      /correlations name sensing\.vibration\[1\]\.at_hover/,
    ],
    [
      "its list is another",
      ["sensing.vibration=[{harmonic: 2, at_hover: 1 deg/s}, {harmonic: 1, at_hover: 2 deg/s}]"],
      /--set correlations=/,
    ],
    [
      "its group is gone",
      ["sensing.vibration="],
      /--set 'sensing\.vibration=' correlations\[0\]|--set sensing\.vibration= correlations\[0\]/,
    ],
  ])("are refused in one line where %s", (_, options, message) => {
    const line = complaint(options, PAIRS("motor.resistance", LINE));
    expect(line).toMatch(message);
    expect(line.split("\n")).toHaveLength(1);
  });

  it("may be taken out before", () =>
    expect(
      set(["correlations=", "sensing.vibration[0]="], PAIRS("motor.resistance", LINE)).value.correlations,
    ).toBeUndefined());
});

describe("what cannot be is one line that names option and key", () => {
  it.each([
    ["no value", "pack.cells", /^--set pack\.cells: expected key=value/],
    ["no key", "=6", /^--set: not a key/],
    ["half a bracket", "a[1.b=6", /^--set a\[1\.b=6: expected key=value/],
    ["a misspelt key", "pack.cels=6", /has no key cels \(did you mean "cells"\?\)$/],
    ["a misspelt group", "mottor.kv=1000 rpm/V", /unknown key \(did you mean "motor"\?\)$/],
    ["a misspelt key without its group", "latancy=1 ms", /did you mean "controller\.latency"/],
    ["a key that more than one group has", "resistance=5 mohm", /expected motor\.resistance or pack\.resistance$/],
    ["a key of every object", "__proto__.x=1", /unknown key/],
    ["a key below a number", "motor.kv.x=1", /motor\.kv: holds one value/],
    ["a place in what is no list", "motor[0]=1", /motor: is no list/],
    ["a place behind the last", "rotors[9].spin=cw", /rotors: has no \[9\]: its last is \[3\]/],
    ["a name where there are none", "rotors[front].spin=cw", /its members have no names/],
    [
      "another kind of quantity",
      "motor.resistance=5 kg",
      /^--set motor\.resistance: 5 kg is a mass, expected a resistance/,
    ],
    ["a number without its unit", "motor.resistance=5", /^--set motor\.resistance: .*unit/],
    [
      "a word for a number",
      "cells=six",
      /^--set pack\.cells: "six" is not a number, expected a whole number from 1 to 14/,
    ],
    ["what is out of range", "pack.cells=99", /99 is out of range/],
    ["a misspelt word", "rotors[0].spin=ccv", /^--set rotors\[0\]\.spin: .*cw/],
    [
      "a stray key in a group",
      "sensing.notch={center: 220 Hz, width: 60 Hz}",
      /^--set sensing\.notch\[0\]\.center: unknown key \(did you mean "centre"\?\)$/,
    ],
    ["no YAML", "pack.cells={", /^--set pack\.cells: not YAML that can be read/],
    ["two lines", "pack.cells=6\n7", /cannot be printed on one line/],
    ["the model's version", "version=r2", /says which model this is/],
    ["its name", "name=Other", /says which model this is/],
    ["nothing to take out", "sensing.notch=", /has nothing to take out$/],
    ["what every model needs", "pack.cells=", /^--set pack\.cells: no model is without it/],
    ["the last of a list that needs one", "rotors=[]", /^--set rotors: expected/],
    ["a craft that cannot hover", "pack.cells=1", /^--set pack\.cells=1 frame: cannot hover/],
    [
      "propellers that hit each other",
      "propeller.diameter=11 in",
      /^--set 'propeller\.diameter=11 in' rotors\[1\]\.at: its propeller hits/,
    ],
    ["a spread of nothing", "motor.kv=1000 rpm/V ± 0 %", /± 0 % is no spread/],
    ["far too much", `pack.cells=${" ".repeat(500)}6`, /expected at most 400$/],
  ])("%s", (_, option, message) => {
    const line = complaint([option]);
    expect(line).toMatch(message);
    expect(line.split("\n")).toHaveLength(1);
  });

  it("one line for each option that is wrong, keys first", () => {
    expect(complaint(["pack.cels=6", "cells=5", "mottor.kv=1"]).split("\n")).toHaveLength(2);
    expect(complaint(["cells=six", "cells=5 A"]).split("\n")).toHaveLength(1);
    expect(complaint(["cells=six", "motor.kv=fast"]).split("\n")).toHaveLength(2);
  });

  it("a key set twice", () => expect(complaint(["cells=5", "pack.cells=6"])).toBe("--set pack.cells: given twice"));
});
