// The controller's own numbers: what they are read from, and how they are written.
import { describe, expect, it } from "vitest";
import { D_UNIT, I_UNIT, P_UNIT } from "../../src/base/units.js";
import { readAirframe } from "../../src/flow/read.js";
import { endText, ownText, placeText, settingText } from "../../src/map/gain-text.js";
import { ownScale, perDisplayUnit, sharedScale, yawGains } from "../../src/map/own-scale.js";

const scale = { p: 0.004 * P_UNIT, i: 0.02 * I_UNIT, d: 0.0005 * D_UNIT, yaw: { p: 0.01 * P_UNIT } };
const own = perDisplayUnit(scale);

describe("what one unit is worth", () => {
  it("comes from the model a map carries, yaw's included", () => {
    const found = ownScale({ model: { controller: { scale } } });
    expect(found?.p).toBeCloseTo(250, 9);
    expect(found?.i).toBeCloseTo(50, 9);
    expect(found?.d).toBeCloseTo(2000, 9);
    expect(found?.yaw?.p).toBeCloseTo(100, 9);
    expect(found?.yaw?.i).toBeNull();
  });

  it("is nothing where the map or its model does not say", () => {
    for (const model of [null, {}, { controller: {} }, { controller: { scale: null } }])
      expect(ownScale({ model })).toBeNull();
    expect(yawGains({ model: {} })).toBeNull();
    expect(yawGains({ model: { controller: { yaw: { p: 30 * P_UNIT, i: 20 * I_UNIT, d: 0 } } } })?.i).toBeCloseTo(
      20,
      9,
    );
  });

  it("is shared by two maps only where both say the same", () => {
    const other = perDisplayUnit({ ...scale, d: 0.001 * D_UNIT });
    expect(sharedScale(own, perDisplayUnit(scale))).toEqual(own);
    for (const [one, two] of [
      [own, other],
      [own, null],
      [null, own],
    ] as const)
      expect(sharedScale(one, two)).toBeNull();
  });

  it("gives the shipped craft numbers of four digits, which nobody takes for another controller's", () => {
    for (const version of ["r1", "r2", "r3", "r4", "r5"]) {
      const { controller } = readAirframe(`models/sandpiper-${version}.yaml`).value;
      const shipped = perDisplayUnit(controller.scale);
      expect(settingText(shipped, "p", 9.425)).toBe("2356");
      expect(Number(settingText(shipped, "d", 0.958))).toBeGreaterThan(1000);
      expect(Number(settingText(shipped, "i", controller.roll.i / I_UNIT))).toBeGreaterThan(1000);
      expect(shipped?.yaw?.i).toBeGreaterThan(0);
    }
  });
});

describe("a gain as it is written", () => {
  it("is what the pilot types: whole from 10 up, three digits below, nothing between its digits", () => {
    expect([9.99, 9.996, 10, 10.4, 2356.4, 23_456.7, 0.0123].map(ownText)).toEqual(
      ["9.99", "10", "10", "10", "2356", "23457", "0.0123"], // 9.996 reads 10 either way
    );
    expect(settingText(own, "p", 9.425)).toBe("2356");
    expect(placeText(own, { p: 9.425, d: 0.958 })).toBe("P 2356, D 1916");
  });

  it("has three digits where something ends, for more are not known", () => {
    expect(endText(own, "p", 57.21)).toBe("14300");
    expect(endText(null, "p", 57.21)).toBe("57.2");
  });

  it("is in our unit where nobody knows the controller's", () => {
    expect(settingText(null, "p", 9.425)).toBe("9.43");
    expect(settingText(perDisplayUnit({ p: scale.p, d: scale.d }), "i", 25)).toBe("25");
  });
});
