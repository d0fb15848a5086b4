// The pack's steady voltage is where a plain bisection ends, to the bit, though few of its steps are looked at.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Craft, craftUnder, STANDARD_DAY } from "../../src/airframe/craft.js";
import { dutiesOf } from "../../src/airframe/duty.js";
import { steadySpeed } from "../../src/airframe/motor.js";
import { powered, rotorCommands } from "../../src/airframe/powered.js";
import { readAirframe } from "../../src/flow/read.js";

type Commands = readonly [roll: number, pitch: number, yaw: number];

function bisected(craft: Craft, throttle: number, commands: Commands): number {
  const { airframe } = craft;
  const { motor } = airframe;
  const dutiesAt = dutiesOf(airframe, throttle, rotorCommands(craft, { throttle, commands }));
  const excess = (volts: number): number => {
    let drawn = 0;
    for (const duty of dutiesAt(volts)) {
      const speed = steadySpeed(duty * volts, motor, craft.torqueStatic);
      drawn += duty * ((duty * volts - motor.constant * speed) / motor.resistance);
    }
    return craft.emf - airframe.pack.resistance * drawn - volts;
  };
  let [low, high] = [0, craft.emf];
  while (high - low > 1e-13 * craft.emf) {
    const middle = 0.5 * (low + high);
    if (middle === low || middle === high) break;
    if (excess(middle) > 0) low = middle;
    else high = middle;
  }
  return high;
}

describe.each(["sandpiper-r1", "dunlin-r1", "turnstone-r1", "curlew-r2"])("%s", (model) => {
  const read = readAirframe(`models/${model}.yaml`).value;

  it("at any throttle and commands, on a pack of any charge and resistance", () => {
    const command = fc.double({ min: -0.3, max: 0.3, noNaN: true });
    const cases = fc.record({
      throttle: fc.double({ min: 0, max: 1, noNaN: true }),
      commands: fc.tuple(command, command, command),
      charge: fc.double({ min: 0, max: 1, noNaN: true }),
      resistance: fc.double({ min: 0, max: 0.5, noNaN: true }), // ohm
    });
    fc.assert(
      fc.property(cases, ({ throttle, commands, charge, resistance }) => {
        const airframe = { ...read, pack: { ...read.pack, resistance } };
        const craft = craftUnder(airframe, { ...STANDARD_DAY, charge });
        expect(powered(craft, throttle, commands).volts).toBe(bisected(craft, throttle, commands));
      }),
      { seed: 19, numRuns: 400 },
    );
  });
});
