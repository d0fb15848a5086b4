// Flight files: what they give, and one line with line and column for each fault.
import { readdirSync, readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { readYaml } from "../../src/files/yaml.js";
import { MANOEUVRES } from "../../src/flight/manoeuvres.js";
import { parseFlight } from "../../src/flight/parse.js";
import { complaintsOf } from "../fixtures/complaints.js";
import { SMALL_FLIGHT } from "../fixtures/small-flight.js";
import { changed } from "../fixtures/small-model.js";

const parsed = (text: string) => parseFlight(readYaml("flight.yaml", text));
const faultsOf = (...pairs: readonly (readonly [string, string])[]) =>
  complaintsOf(() => parsed(changed(SMALL_FLIGHT, ...pairs)));

const DEGREE = Math.PI / 180;

it("a flight file gives gains as set, columns with their scale, and sightings with two standard deviations", () => {
  const flight = parsed(SMALL_FLIGHT);
  expect(flight).toMatchObject({ date: "2026-05-14", model: "model.yaml", pack: { cells: 4, charge: 0.95 } });
  expect(flight.gains).toEqual({
    roll: { own: true, p: 310, i: 120, d: 26 },
    pitch: { own: true, p: 345, i: 120, d: 31 },
  });
  const { log, sightings } = flight;
  expect(log?.time).toMatchObject({ name: "time_us", scale: 1e-6 });
  expect(log?.rate.roll).toMatchObject({ scale: DEGREE, limit: 2000 * DEGREE });
  expect(log?.rate.pitch?.scale).toBe(-DEGREE);
  expect(log?.rate.yaw?.scale).toBeCloseTo(DEGREE / 16.4, 15);
  expect(log?.motor.map(({ rotor, zero, scale }) => [rotor, zero, scale])).toEqual([
    [0, 0, 1 / 65535],
    [1, 1000, 1 / 1000],
  ]);
  // a column of electrical turns a minute: seven of them to one of the shaft
  expect(log?.rotorSpeed[0]?.scale).toBeCloseTo((2 * Math.PI) / 60 / 7, 15);
  expect(log?.use).toEqual([{ from: 12, to: 48 }]);
  expect(sightings[0]).toMatchObject({ kind: "hover-throttle", value: 0.31 });
  // anywhere in a range: its standard deviation is the half width over the root of three
  expect(sightings[1]).toMatchObject({ kind: "motor-tone", value: 410, size: expect.closeTo(20 / Math.sqrt(3), 9) });
  expect(sightings[2]).toMatchObject({
    axis: "roll",
    gains: { own: true, p: 240, i: null, d: 8 },
    manoeuvre: "roll-stop",
    diedOut: true,
    swings: 3,
    frequency: { value: 18, size: 3 },
    pace: null,
    motors: "warm",
    path: ["sightings", 2],
  });
  expect(sightings[3]).toMatchObject({ diedOut: false, pace: { than: 17, seen: "slower" }, gains: { own: false } });
});

it.each([
  [
    "an unknown key",
    ["voltage: {column: vbat", "voltage: {colum: vbat"],
    "colum: vbat",
    'log.voltage.colum: unknown key (did you mean "column"?)',
  ],
  [
    "another unit",
    ["{column: vbat, unit: mV}", "{column: vbat, unit: volts}"],
    "volts",
    'log.voltage.unit: expected V or mV, found "volts"',
  ],
  ["a sign that is none", ["sign: -1", "sign: minus"], "minus", 'log.rate.pitch.sign: expected 1 or -1, found "minus"'],
  [
    "no spread",
    ["31 % ± 2 %", "31 %"],
    "31 %",
    'sightings[0].hover_throttle: 31 % says not how far it may be off (try "31 % ± 2 %")',
  ],
  [
    "one column in two roles",
    ["column: m2", "column: m1"],
    "m1, zero",
    'log.motor[1].column: "m1" has another role already, expected one column for each',
  ],
  [
    "two columns of a rotor",
    ["full: 2000, rotor: 2", "full: 2000, rotor: 1"],
    "1}\n  throttle",
    "log.motor[1].rotor: rotor 1 has a column already",
  ],
  [
    "a full scale of nothing",
    ["full: 100}", "full: 0}"],
    "0}\n  voltage",
    "log.throttle.full: expected a number other than 0",
  ],
  [
    "a stretch that ends first",
    ["to: 48 s", "to: 8 s"],
    "8 s}]",
    "log.use[0].to: ends before it begins, expected `to` after `from`",
  ],
  [
    "own numbers beside units",
    ["{p: 240, d: 8}", '{p: 240, d: "8 %/(1000 deg/s^2)"}'],
    '"8 %',
    "sightings[2].gains.d: the gains of one set are all the controller's own numbers, or all with units",
  ],
  [
    "a pace against no picture",
    [", picture: 17 Hz", ""],
    "{axis: pitch",
    "sightings[3].picture: missing; slower, same or faster than which picture? Its frequency stands on the card",
  ],
  [
    "a sighting of two kinds",
    ["{hover_throttle: 31 % ± 2 %}", "{hover_throttle: 31 % ± 2 %, axis: roll}"],
    "{hover",
    "sightings[0]: expected one sighting: hover_throttle, motor_tone, or axis with gains and what was seen",
  ],
  [
    "nothing seen",
    [", died_out: yes, swings: 3, frequency: 18 Hz ± 3 Hz, motors: warm", ""],
    "{axis: roll",
    "sightings[2].died_out: missing; what was seen? (one or more of died_out, swings, frequency, pace, motors)",
  ],
  [
    "a manoeuvre nobody knows",
    ["manoeuvre: roll-stop", "manoeuvre: rol-stop"],
    "rol-stop",
    'sightings[2].manoeuvre: expected drop-and-catch, flip-stop, gust, hover-noise, lasting-gust, nudge, punch-out, roll-stop, throttle-blip or wash-turn, found "rol-stop" (did you mean "roll-stop"?)',
  ],
] as const)("%s is one line", (_, pair, mark, line) => {
  const before = changed(SMALL_FLIGHT, pair).split(mark)[0]?.split("\n") ?? [];
  expect(faultsOf(pair)).toEqual([`flight.yaml:${before.length}:${(before.at(-1) ?? "").length + 1} ${line}`]);
});

it("a frequency that contradicts the pace is a fault", () => {
  expect(faultsOf(["picture: 17 Hz, pace: slower", "picture: 17 Hz, pace: slower, frequency: 25 Hz ± 2 Hz"])).toEqual([
    "flight.yaml:30:114 sightings[3].pace: slower than the picture, but the frequency says otherwise",
  ]);
});

it("a file without log and sightings says so", () => {
  const [head = ""] = SMALL_FLIGHT.split("log:");
  expect(complaintsOf(() => parsed(head))).toEqual([
    expect.stringMatching(/^flight\.yaml:\d+:\d+ log: missing; a flight file holds a log, sightings, or both$/),
  ]);
});

it("the manoeuvres are the shipped scripts of roll and pitch", () => {
  const shipped = readdirSync("sweeps/scripts")
    .filter((file) => !/^axes: \[yaw\]$/m.test(readFileSync(`sweeps/scripts/${file}`, "utf8")))
    .map((file) => file.replace(".yaml", ""));
  expect([...MANOEUVRES]).toEqual(shipped.sort());
});
