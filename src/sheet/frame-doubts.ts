// Doubts about weights and places: balance, inertia, and what the rotors must carry. Common practice, no source, where no other
// is named.
import type { Airframe } from "../airframe/airframe.js";
import { GRAVITY } from "../airframe/craft.js";
import { figures, quantityText } from "../base/units.js";
import { type Figures, inertiaText, type Likely, millimetres, outside, percent, twoDigits } from "./doubt.js";
import { armsOf, centreOffset } from "./geometry.js";

const FAR_OFF = 0.08; // of the arm, across the rotors' plane
const HIGH_UP = 0.5; // of the mean arm, along it

export function offCentre(airframe: Airframe): string | null {
  const [x, y] = centreOffset(airframe);
  const { roll, pitch } = armsOf(airframe);
  const side = (value: number, [plus, minus]: readonly [string, string]) =>
    `${millimetres(Math.abs(value))} ${value > 0 ? plus : minus}`;
  const off = [
    ...(Math.abs(x) > FAR_OFF * pitch ? [side(x, ["in front of", "behind"])] : []),
    ...(Math.abs(y) > FAR_OFF * roll ? [side(y, ["left of", "right of"])] : []),
  ];
  if (off.length === 0) return null;
  return `the centre of mass lies ${off.join(" and ")} the rotors' middle, over ${percent(FAR_OFF)} of the arm: some motors work harder than others, and every throttle burst turns the craft; look at the weights and places of the parts, the battery first`;
}

export function highUp(airframe: Airframe): string | null {
  const [, , z] = centreOffset(airframe);
  const { yaw } = armsOf(airframe);
  if (Math.abs(z) <= HIGH_UP * yaw) return null;
  return `the centre of mass lies ${millimetres(Math.abs(z))} ${z > 0 ? "above" : "below"} the rotors' plane, over ${percent(HIGH_UP)} of the arm; look at the heights of the parts and of the rotors`;
}

// Radius of gyration over the rotors' root mean square distance from that axis. Published research craft: 0.51 to 0.72 about
// yaw (Bouabdallah 2007; Michael et al. 2010; Luukkonen 2011; Pounds et al. 2010; Forster 2015).
const GYRATION: Likely = [0.3, 1.1];

export function oddInertia(airframe: Airframe): string | null {
  const arms = armsOf(airframe);
  const found = (["roll", "pitch", "yaw"] as const).flatMap((axis) => {
    const own = airframe.inertia[({ roll: "xx", pitch: "yy", yaw: "zz" } as const)[axis]];
    const radius = Math.sqrt(own / airframe.mass);
    return outside(radius / arms[axis], GYRATION)
      ? [`about ${axis} ${inertiaText(own)}, as if all of its mass were ${millimetres(radius)} from the axis`]
      : [];
  });
  if (found.length === 0) return null;
  return `the inertia does not fit mass and arms: ${found.join("; ")}; the rotors are ${millimetres(arms.roll)} (roll), ${millimetres(arms.pitch)} (pitch) and ${millimetres(arms.yaw)} (yaw) away on average; look at weights and places`;
}

// Published research craft: 0.86 to 0.91 (as above, from Izz/Ixx 1.72 to 1.82); 1 is a flat plate.
const TALLEST = 0.55;

export function tall({ inertia: { xx, yy, zz } }: Airframe): string | null {
  if (zz >= TALLEST * (xx + yy)) return null;
  return `the inertia about yaw is only ${figures(zz / (xx + yy))} of those about roll and pitch together: that of a tower; multirotors are flat, with 0.8 to 0.95`;
}

const DISC_LOADING: Likely = [10, 350]; // N/m^2

export function loading({ mass, rotors, propeller: { diameter } }: Airframe): string | null {
  const area = (rotors.length * Math.PI * diameter * diameter) / 4;
  const load = (mass * GRAVITY) / area;
  if (!outside(load, DISC_LOADING)) return null;
  return `${quantityText(mass, "mass", "g")} on ${rotors.length} propellers of ${quantityText(diameter, "length", "in")} are ${figures(Math.round(load))} N per m^2 of disc; small craft carry 20 to 250: look at propeller.diameter and the weights`;
}

const LEAST_THRUST = 2;
const MOST_THRUST = 20;

export function thrust(_: Airframe, { fullThrottle: { thrustToWeight } }: Figures): string | null {
  const ratio = twoDigits(thrustToWeight);
  if (thrustToWeight < LEAST_THRUST)
    return `full throttle on a fresh pack lifts only ${ratio} times the weight: little is left to turn the craft with, and a tired pack leaves less; look at the weights, motor.kv and pack.cells`;
  if (thrustToWeight > MOST_THRUST)
    return `full throttle lifts ${ratio} times the weight, more than racing craft do: look at the weights, motor.kv and pack.cells`;
  return null;
}

const HOVER = 60; // %

export function hoverThrottle(_: Airframe, { hover }: Figures): string | null {
  if (hover.throttlePercent <= HOVER) return null;
  return `it hovers at ${figures(Math.round(hover.throttlePercent))} % throttle on a fresh pack: little is left above; look at the weights, motor.kv and pack.cells`;
}
