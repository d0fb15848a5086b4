// Doubts about propeller, motor and pack: mostly a slipped decimal point or unit. Common practice, no source, where no other is
// named.
import type { Airframe } from "../airframe/airframe.js";
import { figures, quantityText } from "../base/units.js";
import { type Figures, inertiaText, type Likely, millimetres, outside, percent, twoDigits } from "./doubt.js";

// Static figure of merit of the measured propellers, best of each: 0.25 to 0.79 (UIUC Propeller Database, vols. 1 to 3).
// Beyond 0.2 to 0.85 a file is refused.
const MERIT: Likely = [0.25, 0.8];

export function merit({ propeller: { ct, cp } }: Airframe, { figureOfMerit }: Figures): string | null {
  if (!outside(figureOfMerit, MERIT)) return null;
  return `ct ${figures(ct)} and cp ${figures(cp)} make a figure of merit of ${figures(figureOfMerit)}; measured propellers have 0.25 to 0.79 at their best`;
}

// Torque over thrust is 0.006 to 0.038 m in published research craft (Bouabdallah 2007; Michael et al. 2010; Luukkonen 2011;
// Forster 2015) and grows with diameter; over the diameter measured propellers have 0.05 to 0.16 (UIUC Propeller Database).
const TORQUE_ARM: Likely = [0.04, 0.3];

export function torqueArm({ propeller: { ct, cp, diameter } }: Airframe): string | null {
  const share = cp / (2 * Math.PI * ct);
  if (!outside(share, TORQUE_ARM)) return null;
  return `torque over thrust is ${millimetres(share * diameter)}, ${percent(share)} of the diameter; measured propellers have 5 to 16 %: look at ct and cp`;
}

// As a slender rod (m L^2/12) a propeller of this inertia would weigh so much; kg per m^3 of diameter.
const ROD_DENSITY: Likely = [0.06, 24];

export function propellerInertia({ propeller: { inertia: own, diameter } }: Airframe): string | null {
  const mass = (12 * own) / (diameter * diameter);
  if (!outside(mass / (diameter * diameter * diameter), ROD_DENSITY)) return null;
  return `${inertiaText(own)} is the inertia of a ${quantityText(diameter, "length", "in")} rod of ${quantityText(mass, "mass", "g")} (m L^2/12): far from what such a propeller weighs`;
}

const TIP_MACH = 0.75;

export function tipSpeed(_: Airframe, { fullThrottle: { tipMach, rotorSpeedRpm } }: Figures): string | null {
  if (tipMach <= TIP_MACH) return null;
  return `at full throttle on a fresh pack the tips reach Mach ${twoDigits(tipMach)} (${figures(Math.round(rotorSpeedRpm))} rpm), where thrust falls short of the model's; look at motor.kv, pack.cells and propeller.diameter`;
}

const BELL_TO_PROPELLER: Likely = [0.02, 5];

export function bell({ motor: { bellInertia }, propeller }: Airframe): string | null {
  const ratio = bellInertia / propeller.inertia;
  if (!outside(ratio, BELL_TO_PROPELLER)) return null;
  return `${inertiaText(bellInertia)} is ${twoDigits(ratio)} times the propeller's ${inertiaText(propeller.inertia)}; bells of small motors have a tenth to three times their propeller's`;
}

const LAG: Likely = [4, 120]; // ms; published craft: 20 to 60 (partly from memory), 3-inch ones 10

export function lag(airframe: Airframe, { hover }: Figures): string | null {
  if (!outside(hover.motorLagMs, LAG) || bell(airframe) !== null || propellerInertia(airframe) !== null) return null;
  return `the motors follow within ${twoDigits(hover.motorLagMs)} ms in hover; small craft have 8 to 60: look at motor.resistance, motor.kv and the rotor's inertia`;
}

const HEATING = 0.4; // of the volts at full throttle
const EFFICIENCY = 0.5; // in hover

export function losses({ motor }: Airframe, { hover, fullThrottle: full }: Figures): string | null {
  const speed = hover.rotorSpeedRpm * ((2 * Math.PI) / 60);
  const given = motor.constant * (hover.motorCurrentA - motor.noLoadCurrent) * speed;
  const taken = hover.motorCurrentA * (motor.resistance * hover.motorCurrentA + motor.constant * speed);
  if (given < EFFICIENCY * taken)
    return `in hover only ${percent(given / taken)} of the motors' power reaches the propellers, usually 60 to 85 %; look at motor.no_load_current too`;
  const heating = (motor.resistance * full.motorCurrentA) / full.packVoltageV;
  if (heating <= HEATING) return null;
  return `at full throttle the windings take ${percent(heating)} of the pack's voltage, usually 5 to 20 %`;
}

const SAG = 0.35;

export function sag({ pack: { resistance } }: Airframe, { fullThrottle: { packVoltageV, packCurrentA } }: Figures) {
  const lost = resistance * packCurrentA;
  if (lost <= SAG * (packVoltageV + lost)) return null;
  return `at full throttle the pack gives ${figures(Math.round(packCurrentA))} A and loses ${percent(lost / (packVoltageV + lost))} of its voltage; look at pack.resistance and motor.resistance`;
}
