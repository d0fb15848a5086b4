import { describe, expect, test } from "vitest";
import { readYaml } from "../../src/files/yaml.js";
import { parseScript } from "../../src/sweep/script.js";
import { complaintsOf } from "../fixtures/complaints.js";
import { changed } from "../fixtures/small-model.js";
import { SMALL_SCRIPT } from "../fixtures/small-sweep.js";

const parse = (...pairs: [string, string][]) => parseScript(readYaml("s.yaml", changed(SMALL_SCRIPT, ...pairs)));
const complaints = (...pairs: [string, string][]) => complaintsOf(() => parse(...pairs));

test("no script may be called what a map calls theory", () => {
  expect(complaints(["name: stop", "name: theory"]).join()).toMatch(/"theory" is what a map calls theory/);
});

describe("a script over time", () => {
  test("spans, timelines and switches", () => {
    expect(parse()).toMatchObject({
      name: "stop",
      kind: "stop",
      axes: ["roll"],
      duration: 2,
      window: { from: 0.5, to: 1 },
      tail: { from: 1, to: 2 },
      noise: true,
      throttle: [[0, { kind: "level", plus: 0 }]],
      command: [
        [0.1, { kind: "share", share: 1 }],
        [0.45, { kind: "share", share: 1 }],
        [0.5, { kind: "rate", rate: 0 }],
      ],
      yaw: [[0, { kind: "rate", rate: 0 }]],
      descent: [[0, { kind: "speed", speed: 0 }]],
      gusts: [],
    });
  });

  test.each([
    ["80 %", { kind: "duty", duty: 0.8 }],
    ["level", { kind: "level", plus: 0 }],
    ["level + 20 %", { kind: "level", plus: 0.2 }],
    ["level - 5%", { kind: "level", plus: -0.05 }],
    ["idle", { kind: "idle" }],
  ])("throttle %s", (text, value) => {
    expect(parse(["value: level}", `value: ${text}}`]).throttle).toEqual([[0, value]]);
  });

  test.each([
    ["200 deg/s", { kind: "rate", rate: (200 * Math.PI) / 180 }],
    ["rate", { kind: "share", share: 1 }],
    ["-1 rate", { kind: "share", share: -1 }],
    ["0.5 rate", { kind: "share", share: 0.5 }],
    ["none", { kind: "rate", rate: 0 }],
    ["0 deg/s", { kind: "rate", rate: 0 }],
  ])("command %s", (text, value) => {
    expect(parse(["at: 100 ms, value: rate", `at: 100 ms, value: ${text}`]).command[0]).toEqual([0.1, value]);
  });

  test.each([
    ["8 m/s", { kind: "speed", speed: 8 }],
    ["1.25 vh", { kind: "ratio", ratio: 1.25 }],
    ["none", { kind: "speed", speed: 0 }],
  ])("descent %s", (text, value) => {
    const { descent } = parse(["noise: on", `noise: on\ndescent: [{at: 0 s, value: ${text}}, {at: 1 s, value: none}]`]);
    expect(descent[0]).toEqual([0, value]);
  });

  test("gusts of both kinds", () => {
    const gusts =
      "gusts: [{kind: pulse, at: 100 ms, peak: 5 m/s, length: 4 m, speed: 10 m/s}, {kind: turbulence, from: 0 s, to: 900 ms, rms: 1 m/s, scale: 20 m, speed: 10 m/s}]";
    expect(parse(["noise: on", `noise: on\n${gusts}`]).gusts).toEqual([
      { kind: "pulse", at: 0.1, peak: 5, length: 4, speed: 10 },
      { kind: "turbulence", from: 0, to: 0.9, rms: 1, scale: 20, speed: 10 },
    ]);
  });
});

describe("what is wrong with a script", () => {
  test("times that do not rise, or lie after the end", () => {
    expect(complaints(["at: 450 ms", "at: 100 ms"])).toEqual([
      "s.yaml:13:10 command[1].at: 100 ms does not come after 100 ms, expected rising times",
    ]);
    expect(complaints(["throttle: [{at: 0 s, value: level}]", "throttle: [{at: 3 s, value: level}]"])).toEqual([
      "s.yaml:10:17 throttle[0].at: 3 s is after the end at 2 s",
    ]);
  });

  test("spans that are empty, run over or are too short to judge", () => {
    expect(complaints(["window: {from: 500 ms, to: 1.0 s}", "window: {from: 500 ms, to: 400 ms}"])).toEqual([
      "s.yaml:7:9 window: is empty: from 500 ms to 400 ms",
    ]);
    expect(complaints(["to: 2.0 s", "to: 2.5 s"])).toEqual(["s.yaml:8:25 tail.to: 2.5 s is after the end at 2 s"]);
    expect(complaints(["tail: {from: 1.0 s", "tail: {from: 1.3 s"])).toEqual([
      "s.yaml:8:7 tail: 700 ms long, expected at least 800 ms: slow oscillations need that to show",
    ]);
    expect(complaints(["tail: {from: 1.0 s", "tail: {from: 1.2 s"])).toEqual([]);
    expect(complaints(["duration: 2.0 s", "duration: 11 s"])).toEqual([
      "s.yaml:6:11 duration: 11 s is out of range, expected 0.9 s to 10 s",
    ]);
  });

  test("a tail in which something still moves", () => {
    expect(
      complaints([
        "throttle: [{at: 0 s, value: level}]",
        "throttle: [{at: 0 s, value: level}, {at: 1.5 s, value: 80 %}]",
      ]),
    ).toEqual(["s.yaml:10:42 throttle[1].at: the throttle still moves in the tail, which begins at 1 s"]);
    expect(complaints(["noise: on", "noise: on\ndescent: [{at: 0 s, value: 8 m/s}]"])).toEqual([
      "s.yaml:10:28 descent[0].value: the descent must end at none: the tail is calm",
    ]);
    expect(
      complaints([
        "noise: on",
        "noise: on\ngusts: [{kind: pulse, at: 800 ms, peak: 5 m/s, length: 4 m, speed: 10 m/s}]",
      ]),
    ).toEqual(["s.yaml:10:9 gusts[0]: still blows at 1.2 s, in the tail, which begins at 1 s"]);
  });

  test("a stop that is not timed from its ramp's end, or commands nothing", () => {
    expect(complaints(["window: {from: 500 ms", "window: {from: 600 ms"])).toEqual([
      "s.yaml:7:16 window.from: a stop is timed from the end of the commanded ramp, 500 ms",
    ]);
    const still = SMALL_SCRIPT.slice(0, SMALL_SCRIPT.indexOf("command:"));
    expect(complaintsOf(() => parseScript(readYaml("s.yaml", still)))).toEqual([
      "s.yaml:1:1 command: missing: a stop needs a commanded rate that ends",
    ]);
  });

  test("values no craft can follow", () => {
    expect(complaints(["value: level}", "value: lvl}"])).toEqual([
      's.yaml:10:29 throttle[0].value: expected a duty, level, level + 20 % or idle, found "lvl"',
    ]);
    expect(complaints(["value: level}", "value: 0.5}"])).toEqual([
      "s.yaml:10:29 throttle[0].value: 0.5 has no unit, expected a share (unit: %)",
    ]);
    expect(complaints(["value: level}", "value: 120 %}"])).toEqual([
      "s.yaml:10:29 throttle[0].value: 120 % is out of range, expected 0 % to 100 %",
    ]);
    expect(complaints(["at: 100 ms, value: rate", "at: 100 ms, value: 5 rate"])).toEqual([
      "s.yaml:12:25 command[0].value: 5 rate is out of range, expected -2 rate to 2 rate",
    ]);
    expect(complaints(["at: 100 ms, value: rate", "at: 100 ms, value: fast"])).toEqual([
      's.yaml:12:25 command[0].value: expected an angular rate, rate, -1 rate or none, found "fast"',
    ]);
    expect(complaints(["at: 100 ms, value: rate", "at: 100 ms, value: 5 m/s"])).toEqual([
      "s.yaml:12:25 command[0].value: 5 m/s is a speed, expected an angular rate (unit: deg/s or rad/s)",
    ]);
  });

  test("a group where a value should be, and a number as long as the file", () => {
    expect(complaints(["at: 100 ms, value: rate", "at: 100 ms, value: {a: 1}"])).toEqual([
      "s.yaml:12:25 command[0].value: a group of keys is not a quantity, expected an angular rate (unit: deg/s or rad/s)",
    ]);
    // Its search once took a minute here.
    expect(complaints(["at: 100 ms, value: rate", `at: 100 ms, value: "${"9".repeat(200_000)}"`])).toEqual([
      "s.yaml:12:25 command[0].value: too long for a quantity, expected an angular rate (unit: deg/s or rad/s)",
    ]);
  });

  test("a gust of unknown kind", () => {
    expect(complaints(["noise: on", "noise: on\ngusts: [{kind: storm}]"])).toEqual([
      "s.yaml:10:16 gusts[0].kind: expected pulse or turbulence",
    ]);
  });
});
