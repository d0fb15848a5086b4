// A model's sheet: what it says of motors and propellers mounted on a craft.
import { sheetOf } from "../../../src/sheet/sheet.js";
import { LARGE_MOTOR, mounted, SMALL_MOTOR } from "../../sheet/published-sheets.js";
import { alike, type Group } from "../check.js";

const MACHINE = "direct-current machine on a measured propeller, mounted on a craft (M. Drela, MIT 2007; UIUC)";
const level = (motor: typeof SMALL_MOTOR, volts: number) => () => sheetOf(mounted(motor, volts)).at70Percent;

export const SHEET: Group = {
  title: "A model's sheet",
  checks: [
    ...alike({ source: MACHINE, status: "from memory; recomputed", unit: "rpm", within: { share: 2e-6 } }, [
      ["rotor speed of KV 2300 at 7.4 V", 15614.13, () => level(SMALL_MOTOR, 7.4)().rotorSpeedRpm],
      ["rotor speed of KV 920 at 11.1 V", 9373.13, () => level(LARGE_MOTOR, 11.1)().rotorSpeedRpm],
    ]),
    ...alike({ source: MACHINE, status: "from memory; recomputed", unit: "A", within: { share: 1e-5 } }, [
      ["current of KV 2300 at 14.8 V", 33.97278, () => level(SMALL_MOTOR, 14.8)().motorCurrentA],
      ["current of KV 920 at 11.1 V", 7.5985, () => level(LARGE_MOTOR, 11.1)().motorCurrentA],
    ]),
    ...alike({ source: MACHINE, status: "from memory; recomputed", unit: "ms", within: { share: 2e-5 } }, [
      ["motor lag of KV 2300 at 14.8 V", 21.2248, () => level(SMALL_MOTOR, 14.8)().motorLagMs],
    ]),
    {
      quantity: "thrust of four KV 2300 at full 14.8 V",
      source: MACHINE,
      status: "from memory; recomputed",
      unit: "N",
      expected: 39.531648,
      within: { share: 1e-6 },
      obtain: () => sheetOf(mounted(SMALL_MOTOR, 0.7 * 14.8)).fullThrottle.thrustN,
    },
    {
      quantity: "roll authority from thrust per volt, 0.1 m arms",
      source: MACHINE,
      status: "from memory; recomputed",
      unit: "deg/s^2 per %",
      expected: 1712.11753,
      within: { share: 1e-5 },
      obtain: () => level(SMALL_MOTOR, 7.4)().authorityDegPerS2PerPercent.roll,
    },
  ],
};
