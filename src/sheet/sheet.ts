// From a model to its sheet: trims, lags, authority and delays on a fresh pack, by the laws that the loop integrates.
import { standardAir } from "../airframe/air.js";
import type { Airframe } from "../airframe/airframe.js";
import { type Craft, craftUnder, GRAVITY, STANDARD_DAY } from "../airframe/craft.js";
import { speedTimeConstant } from "../airframe/motor.js";
import type { Trim } from "../airframe/powered.js";
import { figureOfMerit } from "../airframe/rotor.js";
import { groupsOf, mendedBy } from "../airframe/together.js";
import { hoverTrim, trimAt } from "../airframe/trim.js";
import type { Spread } from "../base/spread.js";
import { authorityAt } from "../theory/authority.js";
import { featuresOf } from "./controller.js";
import { delaySum, delaysOf } from "./delays.js";
import type { Sheet, SheetLevel, SheetSpread } from "./format.js";
import { centreOffset, mean } from "./geometry.js";
import { warningsOf } from "./warnings.js";

const DEGREES = 180 / Math.PI;
const RPM = 60 / (2 * Math.PI);
/** Collective duty at which a sheet looks besides hover. */
export const BRISK = 0.7;

/** The sheet of a model that can hover on a full pack, as every model that was read can; else RangeError. */
export function sheetOf(airframe: Airframe): Sheet {
  const craft = craftUnder(airframe, STANDARD_DAY);
  const hover = hoverTrim(craft);
  if (hover === null) throw new RangeError(`${airframe.name} cannot hover`);
  const lag = lagAt(craft, hover);
  const delays = delaysOf(airframe, hover, lag);
  const features = featuresOf(airframe, hover);
  const figures = {
    model: { name: airframe.name, version: airframe.version, title: airframe.title },
    massKg: airframe.mass,
    centreOfMassMm: centreOf(airframe),
    inertiaKgM2: { xx: airframe.inertia.xx, yy: airframe.inertia.yy, zz: airframe.inertia.zz },
    rotorInertiaKgM2: craft.rotorInertia,
    figureOfMerit: figureOfMerit(airframe.propeller.ct, airframe.propeller.cp),
    hover: levelOf(craft, hover),
    at70Percent: levelOf(craft, trimAt(craft, BRISK)),
    fullThrottle: fullThrottleOf(craft),
    delays,
    delaySumMs: delaySum(delays),
    ...(features.length === 0 ? {} : { controller: features }),
    ...disturbancesOf(airframe, mean(hover.speeds) / (2 * Math.PI)),
    spreads: (airframe.spreads ?? []).map(spreadOf),
    ...togetherOf(airframe),
    assumed: airframe.defaulted,
  };
  return { ...figures, warnings: warningsOf(airframe, figures) };
}

function centreOf(airframe: Airframe): Sheet["centreOfMassMm"] {
  const [x, y, z] = centreOffset(airframe);
  return { forward: 1000 * x, left: 1000 * y, up: 1000 * z };
}

/** A log-normal one is a share of its number already. */
function spreadOf({ key, law, size, nominal }: Spread): SheetSpread {
  const share = law === "log-normal" ? size : nominal === 0 ? null : size / Math.abs(nominal);
  return { key, law, plusMinusPercent: share === null ? null : 100 * share };
}

function togetherOf({ spreads = [], correlations = [] }: Airframe): Pick<Sheet, "together"> {
  if (correlations.length === 0) return {};
  const pairs = [...correlations].sort((one, other) => Math.abs(other.correlation) - Math.abs(one.correlation));
  return { together: { pairs, mendedBy: Math.max(0, ...groupsOf(spreads, correlations).map(mendedBy)) } };
}

const lagAt = (craft: Craft, { speeds }: Trim): number =>
  speedTimeConstant(craft.airframe.motor, craft.rotorInertia, craft.torqueStatic, mean(speeds));

function drawn({ duties, speeds, currents, volts }: Trim) {
  return {
    rotorSpeedRpm: RPM * mean(speeds),
    motorCurrentA: mean(currents),
    packCurrentA: currents.reduce((sum, current, rotor) => sum + current * (duties[rotor] ?? 0), 0),
    packVoltageV: volts,
  };
}

function levelOf(craft: Craft, trim: Trim): SheetLevel {
  const authority = authorityAt(craft, trim);
  const perPercent = (radians: number) => (DEGREES * radians) / 100;
  return {
    throttlePercent: 100 * trim.throttle,
    ...drawn(trim),
    motorLagMs: 1000 * lagAt(craft, trim),
    authorityDegPerS2PerPercent: {
      roll: perPercent(authority.roll),
      pitch: perPercent(authority.pitch),
      yaw: perPercent(authority.yaw),
    },
  };
}

const AIR = 1.4 * 287.05287; // heat ratio and gas constant of dry air (ISO 2533:1975), m^2/(s^2 K)

function fullThrottleOf(craft: Craft): Sheet["fullThrottle"] {
  const trim = trimAt(craft, 1);
  const thrustN = trim.speeds.reduce((sum, speed) => sum + craft.thrustStatic * speed * speed, 0);
  const tip = (Math.max(...trim.speeds) * craft.airframe.propeller.diameter) / 2;
  return {
    thrustN,
    thrustToWeight: thrustN / (craft.mass * GRAVITY),
    ...drawn(trim),
    tipMach: tip / Math.sqrt(AIR * standardAir(0).temperature),
  };
}

/** `turns`: of a hovering rotor, per s. */
function disturbancesOf({ sensing, wash }: Airframe, turns: number): Pick<Sheet, "noise" | "wash"> {
  return {
    noise: {
      gyroDegPerSPerRootHz: DEGREES * sensing.noiseDensity,
      vibration: sensing.vibration.map(({ harmonic, atHover }) => ({
        harmonic,
        amplitudeDegPerS: DEGREES * atHover,
        frequencyHz: harmonic * turns,
      })),
    },
    wash: {
      rmsPercent: 100 * wash.rms,
      lossPercent: 100 * wash.loss,
      revolutionsPerBurst: wash.revolutions,
      burstsPerSecond: turns / wash.revolutions,
      correlationPercent: 100 * wash.correlation,
    },
  };
}
