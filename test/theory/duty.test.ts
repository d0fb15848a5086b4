// What stands between a rotor's command and its duty: a table that straightens thrust, and what makes up for the pack's
// voltage. Closed forms, and the edge of stability that they move.
import { describe, expect, test } from "vitest";
import type { Airframe, Controller } from "../../src/airframe/airframe.js";
import { craftUnder } from "../../src/airframe/craft.js";
import { dutyByTable, idleCommand } from "../../src/airframe/duty.js";
import type { Trim } from "../../src/airframe/powered.js";
import { parseAirframe } from "../../src/airframe/resolve.js";
import { hoverTrim, trimAt } from "../../src/airframe/trim.js";
import { P_UNIT } from "../../src/base/units.js";
import { readYaml } from "../../src/files/yaml.js";
import { rigOf } from "../../src/kernel/rig.js";
import { scratchFor, simulateTrial } from "../../src/kernel/simulate-trial.js";
import { modelFormat } from "../../src/map/simulable.js";
import { softHold } from "../../src/plan/soft-hold.js";
import { authorityAt } from "../../src/theory/authority.js";
import { axisPieces } from "../../src/theory/axis-pieces.js";
import { ultimateGain } from "../../src/theory/boundary.js";
import { effectsOf } from "../../src/theory/sensitivity.js";
import { FULL, nudge, planOf, stretchedX, TIRED } from "../fixtures/airframe.js";
import { changed, SMALL_MODEL } from "../fixtures/small-model.js";

const withDuties = (change: Partial<Controller>, airframe: Airframe = stretchedX): Airframe => ({
  ...airframe,
  controller: { ...airframe.controller, ...change },
});
const thrustOf = ({ speeds }: Trim): number => speeds.reduce((sum, w) => sum + w * w, 0);

describe("a table from command to duty", () => {
  const rows = [
    { command: 0, duty: 0 },
    { command: 0.25, duty: 0.5 },
    { command: 1, duty: 1 },
  ];

  test("is straight between its rows, and idle is the command whose duty is the lowest", () => {
    const { controller } = withDuties({ dutyTable: rows });
    expect([0, 0.125, 0.25, 0.625, 1].map((command) => dutyByTable(controller, command))).toEqual([
      0, 0.25, 0.5, 0.75, 1,
    ]);
    const idle = 0.06;
    expect(idleCommand({ controller: { ...controller, idle } })).toBeCloseTo(0.03, 15);
    expect(idleCommand(stretchedX)).toBe(stretchedX.controller.idle);
  });

  /** The duties at which a craft lifts shares of what it lifts at full duty: bisection on its own trims. */
  const straightening = (airframe: Airframe): Airframe => {
    const craft = craftUnder(airframe, FULL);
    const most = thrustOf(trimAt(craft, 1));
    const dutyFor = (share: number) => {
      let [low, high] = [0, 1];
      while (high - low > 1e-13) {
        const middle = 0.5 * (low + high);
        if (thrustOf(trimAt(craft, middle)) < share * most) low = middle;
        else high = middle;
      }
      return high;
    };
    const shares = Array.from({ length: 17 }, (_, k) => k / 16);
    const dutyTable = shares.map((share) => ({
      command: share,
      duty: share === 1 ? 1 : share === 0 ? 0 : dutyFor(share),
    }));
    return withDuties({ dutyTable }, airframe);
  };
  const straight = straightening(stretchedX);
  const craft = craftUnder(straight, FULL);

  test("that straightens thrust makes it the command's share of the most, at its rows exactly", () => {
    const most = thrustOf(trimAt(craft, 1));
    for (let k = 3; k <= 16; k++) expect(thrustOf(trimAt(craft, k / 16)) / most).toBeCloseTo(k / 16, 9);
    // between rows a chord lies below the curve by its bend
    expect(Math.abs(thrustOf(trimAt(craft, 9.5 / 16)) / most - 9.5 / 16)).toBeLessThan(1e-3);
  });

  // A pack that gives way lowers all thrusts together, but no difference between rotors: without its resistance the two agree.
  test("makes authority the same at every throttle, where without it it grows", () => {
    const stiff: Airframe = { ...stretchedX, pack: { ...stretchedX.pack, resistance: 1e-9 } };
    const even = straightening(stiff);
    const authority = (airframe: Airframe, throttle: number) => {
      const one = craftUnder(airframe, FULL);
      return authorityAt(one, trimAt(one, throttle)).roll;
    };
    const [low, high] = [6, 13].map((k) => authority(even, k / 16));
    expect(Math.abs(high / low - 1)).toBeLessThan(0.01);
    expect(authority(stiff, 13 / 16) / authority(stiff, 6 / 16)).toBeGreaterThan(1.25);
  });

  test("gains that hold softly know the slope where the craft hovers", () => {
    const bent = craftUnder(straight, FULL);
    const plain = craftUnder(stretchedX, FULL);
    const [one, other] = [bent, plain].map((each) => {
      const hover = hoverTrim(each) as Trim;
      return softHold(each, hover, "roll").p * authorityAt(each, hover).roll;
    });
    expect(one / other).toBeCloseTo(1, 3);
  });
});

describe("the pack's voltage made up for", () => {
  const nominal = 13.2;
  const made = withDuties({ packCompensation: { nominal, cutoff: 2 } });

  test("a trim's duties are the commands times nominal over the loaded voltage, whatever the charge", () => {
    const speeds = [FULL, TIRED].map((around) => {
      const craft = craftUnder(made, around);
      const trim = trimAt(craft, 0.5);
      expect((trim.duties[0] * trim.volts) / (0.5 * nominal)).toBeCloseTo(1, 9);
      expect(trim.volts).not.toBeCloseTo(nominal, 1);
      return trim.speeds[0];
    });
    expect(speeds[1] / speeds[0]).toBeCloseTo(1, 9);
  });

  test("full throttle is no more than full duty", () => {
    const strong = craftUnder(withDuties({ packCompensation: { nominal: 30, cutoff: 2 } }), TIRED);
    expect(trimAt(strong, 1).duties).toEqual([1, 1, 1, 1]);
  });

  test.each([FULL, TIRED])(
    "the edge lies where it was at the same duty, times the loaded voltage over nominal",
    (around) => {
      const holding = {
        roll: { p: 0, i: 0, d: 0 },
        pitch: { p: 0, i: 0, d: 0 },
        yaw: { p: 0, i: 0, d: 0 },
      };
      const edge = (airframe: Airframe, throttle: number) => {
        const craft = craftUnder(airframe, around);
        const trim = trimAt(craft, throttle);
        const pieces = axisPieces(craft, trim, "roll", holding);
        return { trim, p: ultimateGain(pieces, 0, 0, { from: 3 * P_UNIT, to: 300 * P_UNIT })[0].p };
      };
      const compensated = edge(made, 0.5);
      const plain = edge(stretchedX, compensated.trim.duties[0]);
      expect(compensated.p / plain.p).toBeCloseTo(compensated.trim.volts / nominal, 9);
    },
  );

  test("a trial starts with the low-pass at rest: without a cause nothing moves", () => {
    const plan = planOf(made, { ...nudge(0), duration: 0.1, command: [] }, [0.5], [TIRED]);
    const rig = rigOf(plan, plan.variants[0]);
    const scratch = scratchFor(rig);
    simulateTrial(rig, 10 * P_UNIT, 0, { from: 0, to: rig.steps }, scratch);
    expect(Math.max(...scratch.trace.map(Math.abs))).toBeLessThan(1e-9);
    const [speed] = plan.variants[0].trim.speeds;
    expect(Math.abs(scratch.state[rig.start.indexOf(speed)] / speed - 1)).toBeLessThan(1e-9);
  });
});

test("what both do is among the sensitivities: either a tenth higher lowers the edge by its square", async () => {
  const holding = { roll: { p: 0, i: 0, d: 0 }, pitch: { p: 0, i: 0, d: 0 }, yaw: { p: 0, i: 0, d: 0 } };
  const rows = [
    { command: 0, duty: 0 },
    { command: 1, duty: 0.9 },
  ];
  const airframe = withDuties(
    { packCompensation: { nominal: 13.2, cutoff: 2 }, dutyTable: rows, roll: { p: null, i: 0, d: null } },
    {
      ...stretchedX,
      propeller: { ...stretchedX.propeller, cp: 1e-9, cpSlope: 0 },
      motor: { ...stretchedX.motor, noLoadCurrent: 0 },
    },
  );
  const craft = craftUnder(airframe, FULL);
  const pieces = axisPieces(craft, trimAt(craft, 0.5), "roll", holding);
  const [{ p }] = ultimateGain(pieces, 0, 0, { from: P_UNIT / 10, to: 300 * P_UNIT });
  const place = { airframe, around: FULL, throttle: 0.5, axis: "roll" as const, holding, d: 0, p };
  const effects = await effectsOf(place, 0.1);
  for (const key of ["controller.pack_compensation.nominal", "controller.duty_table"]) {
    // without drag thrust goes by the square of the voltage at a motor, so authority by that of either factor
    expect(effects.find((effect) => effect.key === key)?.more, key).toBeCloseTo(1 / 1.1 ** 2, 2);
  }
});

describe("in a model file", () => {
  const parse = (lines: string) =>
    parseAirframe(readYaml("x.yaml", changed(SMALL_MODEL, ["  idle: 6 %\n", `  idle: 6 %\n  ${lines}\n`])));

  test("both are read, and older programs learn of them by the model's format", () => {
    const table = parse(
      "duty_table: [{command: 0 %, duty: 2 %}, {command: 40 %, duty: 60 %}, {command: 100 %, duty: 100 %}]",
    );
    expect(table.controller.dutyTable?.[1]).toEqual({ command: 0.4, duty: 0.6 });
    const pack = parse("pack_compensation: {nominal: 7.4 V, cutoff: 1 Hz}");
    expect(pack.controller.packCompensation).toEqual({ nominal: 7.4, cutoff: 1 });
    expect([table, pack].map(modelFormat)).toEqual(Array(2).fill("gainscape.resolved-model/2"));
    expect(JSON.stringify(parseAirframe(readYaml("x.yaml", SMALL_MODEL)))).not.toMatch(/dutyTable|packCompensation/);
  });

  test.each([
    [
      "duty_table: [{command: 0 %, duty: 0 %}, {command: 90 %, duty: 100 %}]",
      /duty_table\[1\]\.command: expected 100 %/,
    ],
    [
      "duty_table: [{command: 10 %, duty: 0 %}, {command: 100 %, duty: 100 %}]",
      /duty_table\[0\]\.command: expected 0 %/,
    ],
    [
      "duty_table: [{command: 0 %, duty: 50 %}, {command: 100 %, duty: 50 %}]",
      /duty_table\[1\]\.duty: expected to rise/,
    ],
    ["pack_compensation: {nominal: 7.4 V}", /pack_compensation\.cutoff/],
  ])("%s is refused", (lines, message) => {
    expect(() => parse(lines)).toThrow(message);
  });
});
