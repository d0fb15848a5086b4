// Faults of an assembled airframe: no torque about an axis, no hover.
import { quantityText } from "../base/units.js";
import type { Airframe } from "./airframe.js";
import type { Fault } from "./fault.js";
import { allocationFault } from "./mixer.js";
import { openCircuitVolts } from "./pack.js";
import { hoverFault } from "./trim.js";

/** Why the airframe could never fly; none where it can. */
export function hoverFaults(airframe: Airframe): Fault[] {
  const torque = allocationFault(airframe.rotors, airframe.centreOfMass);
  if (torque !== null) {
    return [
      {
        path: ["rotors"],
        message: `these rotors cannot produce a ${torque} torque of their own (${REMEDY[torque] ?? ""})`,
      },
    ];
  }
  if (isOutside(airframe))
    return [
      {
        path: ["frame"],
        message: `cannot hover: the centre of mass, ${centreText(airframe)}, is not between the rotors`,
      },
    ];
  const most = openCircuitVolts(airframe.pack, 1) / airframe.motor.resistance;
  if (most <= airframe.motor.noLoadCurrent) {
    return [
      {
        path: ["motor", "no_load_current"],
        message: `a full pack drives no more than ${quantityText(most, "current")} through a standing motor, so it never turns`,
      },
    ];
  }
  const hover = hoverFault(airframe);
  return hover === null ? [] : [{ path: ["frame"], message: `cannot hover: ${hover}` }];
}

/** Seen from the centre of mass, half of the horizon or more has no rotor. */
function isOutside({ rotors, centreOfMass: [x, y] }: Airframe): boolean {
  const bearings = rotors.map(({ at }) => Math.atan2(at[1] - y, at[0] - x)).sort((a, b) => a - b);
  const gaps = bearings.map((bearing, k) => (bearings[k + 1] ?? (bearings[0] ?? 0) + 2 * Math.PI) - bearing);
  return Math.max(...gaps) >= Math.PI;
}

const centreText = ({ centreOfMass: [x, y] }: Airframe): string =>
  `${quantityText(x, "length", "mm")} forward and ${quantityText(y, "length", "mm")} to the left of the origin`;

const REMEDY: Readonly<Record<string, string>> = {
  roll: "place some to the left and some to the right of the centre of mass, not all in line",
  pitch: "place some before and some behind the centre of mass, not all in line",
  yaw: "let neighbours spin opposite ways: cw, ccw",
};
