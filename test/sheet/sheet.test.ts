// A model's sheet against figures worked out elsewhere, and against theory's own loop.
import { describe, expect, it } from "vitest";
import { craftUnder, STANDARD_DAY } from "../../src/airframe/craft.js";
import { parseAirframe } from "../../src/airframe/resolve.js";
import { trimAt } from "../../src/airframe/trim.js";
import { readYaml } from "../../src/files/yaml.js";
import { readAirframe } from "../../src/flow/read.js";
import { renderSheet } from "../../src/report/index.js";
import { sheetOf } from "../../src/sheet/sheet.js";
import { axisPieces } from "../../src/theory/axis-pieces.js";
import { SETS } from "../airframe/published-sets.js";
import { stretchedX } from "../fixtures/airframe.js";
import { changed, SMALL_MODEL } from "../fixtures/small-model.js";
import { fittedAirframe, LARGE_MOTOR, mounted, SMALL_MOTOR } from "./published-sheets.js";

const near = (value: number, expected: number, share: number): void =>
  expect(Math.abs(value / expected - 1), `${value}, expected ${expected}`).toBeLessThan(share);

describe("a level, by the torque balance of a direct-current machine on a propeller (Drela 2007; from memory, recomputed)", () => {
  it.each([
    ["KV 2300 at 7.4 V", SMALL_MOTOR, 7.4, 15614.13, 10.18748, 23.8825, 0.706671],
    ["KV 2300 at 14.8 V", SMALL_MOTOR, 14.8, 29351.76, 33.97278, 21.2248, 1.180587],
    ["KV 920 at 11.1 V", LARGE_MOTOR, 11.1, 9373.13, 7.5985, 28.628, 0.89834],
  ] as const)("%s: speed, current, lag and authority", (_, motor, volts, rpm, current, lag, thrustPerVolt) => {
    const { at70Percent: level } = sheetOf(mounted(motor, volts));
    near(level.rotorSpeedRpm, rpm, 2e-6);
    near(level.motorCurrentA, current, 1e-5);
    near(level.packCurrentA, 4 * 0.7 * current, 1e-5);
    near(level.motorLagMs, lag, 2e-5);
    // four rotors 0.1 m away, half of them up and half down, a hundredth of the pack's volts each
    const perPercent = ((180 / Math.PI) * (4 * 0.1 * thrustPerVolt * (volts / 0.7))) / 100;
    near(level.authorityDegPerS2PerPercent.roll, perPercent / 1e-3, 1e-5);
    near(level.authorityDegPerS2PerPercent.pitch, perPercent / 2e-3, 1e-5);
  });

  it("full throttle: thrust by the measured propeller (UIUC), over the weight", () => {
    // 9.882912 N a rotor at 14.8 V
    const { fullThrottle } = sheetOf(mounted(SMALL_MOTOR, 0.7 * 14.8));
    near(fullThrottle.thrustN, 4 * 9.882912, 1e-6);
    near(fullThrottle.thrustToWeight, (4 * 9.882912) / (0.4 * 9.80665), 1e-6);
    // speed of sound at sea level 340.294 m/s (ISO 2533:1975)
    near(fullThrottle.tipMach, (3073.7087 * 0.0635) / 340.294, 1e-6);
  });
});

describe("yaw's authority", () => {
  it("is the rotors' drag slope over the inertia, once the rotors have settled", () => {
    // dQ/dV = 2 kQ w dw/dV, from the same worked example: 1.457807e-8, 1635.1076 rad/s, 206.5769 rad/s per V
    const { at70Percent: level } = sheetOf(mounted(SMALL_MOTOR, 7.4));
    const drag = 2 * 1.457807e-8 * 1635.1076 * 206.5769;
    near(level.authorityDegPerS2PerPercent.yaw, ((180 / Math.PI) * 4 * drag * (7.4 / 0.7)) / 100 / 3e-3, 1e-5);
  });
});

describe.each(SETS)("published craft of $name", (set) => {
  it("hovers at the published rotor speed", () => {
    // figures there rest on 9.81 m/s^2
    const rpm = (set.hover * Math.sqrt(9.80665 / 9.81) * 30) / Math.PI;
    near(sheetOf(fittedAirframe(set, set.diameter, 6e-5)).hover.rotorSpeedRpm, rpm, 3e-6);
  });
});

describe("the delays", () => {
  it("add up to the phase that theory's loop loses with frequency", () => {
    const firm = { ...stretchedX, pack: { ...stretchedX.pack, resistance: 1e-9 } };
    // an axis that nothing damps: without the inflow that its rate brings only the integrator turns the phase, by 90 degrees
    const craft = { ...craftUnder(firm, STANDARD_DAY), thrustInflow: 0, torqueInflow: 0 };
    const trim = trimAt(craft, 0.7);
    const gains = { p: 0, i: 0, d: 0 };
    const pieces = axisPieces(craft, trim, "roll", { roll: gains, pitch: gains, yaw: gains });
    const k = pieces.frequencies.findIndex((w) => w > 2);
    const w = pieces.frequencies[k] as number;
    const lost = -(Math.atan2(pieces.a.im[k] as number, pieces.a.re[k] as number) + Math.PI / 2) / w;
    const { delaySumMs, hover, at70Percent } = sheetOf(firm);
    near(1000 * lost, delaySumMs.p - hover.motorLagMs + at70Percent.motorLagMs, 2e-3);
  });

  it("of D are those of P and its own filters' more", () => {
    const { delays, delaySumMs } = sheetOf(stretchedX);
    const own = delays.filter(({ ofDAlone }) => ofDAlone).reduce((sum, { ms }) => sum + ms, 0);
    near(delaySumMs.d - delaySumMs.p, own, 1e-12);
    // sqrt 2/(2 pi fc) at low frequency, the bilinear one a hair more; half of 250 us
    near(own, 1000 * (Math.SQRT2 / (2 * Math.PI * 100)) + 0.125, 3e-3);
    expect(new Set(delays.map(({ key }) => key))).toEqual(
      new Set([
        "sensing.low_pass[0]",
        "controller.rate_derivative_filter[0]",
        "controller.rate",
        "controller.latency",
        "motor",
      ]),
    );
  });
});

describe("spreads", () => {
  it("are listed as shares of what is written, those of places at 0 without one", () => {
    const text = changed(
      SMALL_MODEL,
      ["resistance: 75 mohm,", "resistance: 60 to 90 mohm,"],
      ["ct: 0.16", "ct: 0.16 ± 5 %"],
      ["bell_inertia: 2.6e-6 kg m^2", "bell_inertia: 2.6e-6 kg m^2 ± 40 %"],
      ["centre_of_mass: [0 mm, 0 mm, 0 mm]", "centre_of_mass: [0 mm ± 2 mm, 0 mm, 0 mm]"],
    );
    const { spreads } = sheetOf(parseAirframe(readYaml("model.yaml", text)));
    const rounded = spreads.map(({ key, plusMinusPercent, law }) => [
      key,
      plusMinusPercent === null ? null : Math.round(plusMinusPercent),
      law,
    ]);
    expect(rounded).toEqual(
      expect.arrayContaining([
        ["frame.centre_of_mass[0]", null, "normal"],
        ["propeller.ct", 5, "normal"],
        ["motor.resistance", 20, "uniform"],
        ["motor.bell_inertia", 40, "log-normal"],
      ]),
    );
    expect(spreads).toHaveLength(4);
  });
});

describe("the shipped Sandpiper", () => {
  const sheet = sheetOf(readAirframe("models/sandpiper-r1.yaml").value);

  it("weighs what stands in its file, on four of what is listed once for all rotors", () => {
    const single = 62 + 34 + 198 + 16 + 11 + 36 + 21 + 9 + 18;
    near(1000 * sheet.massKg, single + 4 * (13 + 33 + 3.5 + 4), 1e-12);
  });

  it("balances where its parts do", () => {
    const moment = 198 * -4 + 16 * -70 + 11 * 78 + 36 * 62 + 21 * -62 + 9 * -40;
    near(sheet.centreOfMassMm.forward, moment / (1000 * sheet.massKg), 1e-9);
    expect(Math.abs(sheet.centreOfMassMm.left)).toBeLessThan(1e-9);
  });

  it("is plain data, finite throughout", () => {
    expect(JSON.parse(JSON.stringify(sheet))).toEqual(sheet);
  });
});

describe("numbers that go together", () => {
  const text = changed(
    SMALL_MODEL,
    ["resistance: 75 mohm", "resistance: 75 mohm ± 40 %"],
    ["ct: 0.16", "ct: 0.16 ± 10 %"],
    ["inertia: 4.2e-6 kg m^2", "inertia: 4.2e-6 kg m^2 ± 10 %"],
  );
  const sheetWith = (...values: readonly number[]) => {
    const pairs = [
      ["motor.resistance", "propeller.ct"],
      ["propeller.ct", "propeller.inertia"],
      ["propeller.inertia", "motor.resistance"],
    ];
    const lines = values.map(
      (value, k) => `  - {one: ${pairs[k]?.[0]}, other: ${pairs[k]?.[1]}, correlation: ${value}}\n`,
    );
    return sheetOf(parseAirframe(readYaml("x.yaml", `${text}correlations:\n${lines.join("")}`)));
  };

  it("are named, the strongest first, and are no matter of any figure", () => {
    const { together, ...rest } = sheetWith(0.3, -0.8);
    expect(together?.pairs.map(({ correlation }) => correlation)).toEqual([-0.8, 0.3]);
    expect(together?.mendedBy).toBe(0);
    expect(rest).toEqual(sheetOf(parseAirframe(readYaml("x.yaml", text))));
    expect(renderSheet(sheetWith(0.3, -0.8))).toMatch(
      /Go together, .*: propeller\.ct with propeller\.inertia \(\S0\.8\), motor\.resistance with propeller\.ct \(0\.3\)\.\n/,
    );
  });

  it("say by how much they were mended where they cannot all be at once", () => {
    expect(renderSheet(sheetWith(0.9, 0.9, 0.61))).toMatch(/cannot all be at once: .* by up to 0\.00\d+ off\./);
  });
});

describe("what a controller has besides fixed gains and filters", () => {
  it("is told as it is in hover, and a plain controller has none", () => {
    const text = changed(SMALL_MODEL, [
      "  idle: 6 %\n",
      `  idle: 6 %
  command_low_pass: [{order: 2, cutoff: 30 Hz}]
  feed_forward: {roll: {rate: 1 %/(100 deg/s)}}
  pack_compensation: {nominal: 7.4 V, cutoff: 1 Hz}
  duty_table: [{command: 0 %, duty: 0 %}, {command: 20 %, duty: 40 %}, {command: 100 %, duty: 100 %}]
  gain_schedule: [{throttle: 0 %, p: 0.5, d: 0.25}]
`,
    ]);
    const airframe = parseAirframe(readYaml("x.yaml", text));
    const sheet = sheetOf(airframe);
    const inHover = Object.fromEntries((sheet.controller ?? []).map((one) => [one.key, one.inHover]));
    expect(inHover["controller.gain_schedule"]).toBe("P × 0.5, I × 1, D × 0.25");
    // order 2 is late by sqrt(2)/(2 pi cutoff) = 7.5 ms
    expect(inHover["controller.command_low_pass[0]"]).toMatch(/^commands 7\.5\d* ms later, the loop none$/);
    expect(inHover["controller.feed_forward"]).toMatch(/^roll 1 %\/\(100 deg\/s\) and 0 /);
    const factor = Number(/× ([\d.]+)/.exec(inHover["controller.pack_compensation"] ?? "")?.[1]);
    expect(factor * sheet.hover.packVoltageV).toBeCloseTo(7.4, 2);
    expect(inHover["controller.duty_table"]).toMatch(/slope (0\.75|2)$/);
    expect(renderSheet(sheet)).toContain("Controller in hover");
    expect(sheetOf(parseAirframe(readYaml("x.yaml", SMALL_MODEL)))).not.toHaveProperty("controller");
  });
});
