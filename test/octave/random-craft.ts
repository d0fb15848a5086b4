// Seeded craft of every kind: four to eight rotors, built askew, from palm size to arm's length.
import type { Airframe, LowPass, Notch, ScheduledLowPass } from "../../src/airframe/airframe.js";
import { type Craft, craftUnder, GRAVITY, STANDARD_DAY } from "../../src/airframe/craft.js";
import { inertiaFault } from "../../src/airframe/inertia.js";
import { allocationFault } from "../../src/airframe/mixer.js";
import { speedTimeConstant, steadySpeed } from "../../src/airframe/motor.js";
import { CELL_OPEN_CIRCUIT } from "../../src/airframe/pack.js";
import type { Trim } from "../../src/airframe/powered.js";
import { hoverTrim } from "../../src/airframe/trim.js";
import { stream } from "../../src/base/random.js";
import { softHold } from "../../src/plan/soft-hold.js";
import { axisPieces } from "../../src/theory/axis-pieces.js";
import { stableIntervals } from "../../src/theory/boundary.js";
import type { GainsByAxis } from "../../src/theory/plant.js";
import type { Model } from "./questions.js";

type Draw = (from: number, to: number) => number;

/** The craft of this seed; the few draws that cannot hover are skipped. */
export function randomModel(seed: number): Model {
  for (let attempt = 0; ; attempt++) {
    const source = stream("random craft", seed, attempt);
    const draw: Draw = (from, to) => from + ((to - from) * source.next()) / 2 ** 32;
    const plain = randomAirframe(draw);
    const airframe = withFeatures(plain, seed);
    if (inertiaFault(airframe.inertia) !== null) continue;
    if (allocationFault(airframe.rotors, airframe.centreOfMass) !== null) continue;
    const around = { ...STANDARD_DAY, charge: draw(0.1, 1), altitude: draw(0, 2500) };
    const craft = craftUnder(airframe, around);
    const hover = hoverTrim(craft);
    if (hover === null || lagOf(craft, hover) > SLOWEST) continue;
    const throttle = Math.min(0.95, hover.throttle * draw(0.9, 1.7));
    return { airframe, around, throttle, gains: randomGains(craft, hover, draw) };
  }
}

/** Time constant of rotors that any rate loop could still use, s. */
const SLOWEST = 0.25;

const lagOf = ({ airframe, rotorInertia, torqueStatic }: Craft, hover: Trim): number =>
  speedTimeConstant(airframe.motor, rotorInertia, torqueStatic, hover.speeds[0]);

const pick = <T>(draw: Draw, ...list: readonly T[]): T => list[Math.floor(draw(0, list.length))];

/** Evenly over the digits: as many between 1 and 2 as between 2 and 4. */
const decade = (draw: Draw, from: number, to: number): number => from * (to / from) ** draw(0, 1);

function filters(draw: Draw, rate: number): LowPass[] {
  return Array.from({ length: pick(draw, 0, 1, 1, 2) }, () => ({
    order: pick(draw, 1 as const, 2 as const),
    cutoff: decade(draw, 50, 0.35 * rate),
  }));
}

/** Every third with notches, every fourth with scheduled gains, every fifth with a table of duties and a pack made up for, every seventh with filters that move. */
function withFeatures(airframe: Airframe, seed: number): Airframe {
  const notched = seed % 3 === 0 ? withNotches(airframe, seed) : airframe;
  const scheduled = seed % 4 === 0 ? withSchedule(notched, seed) : notched;
  const shaped = seed % 5 === 0 ? withDuties(scheduled, seed) : scheduled;
  return seed % 7 === 0 ? withMovingFilters(shaped, seed) : shaped;
}

/** Factors between a half and two at three throttles; of a stream of their own. */
function withSchedule(airframe: Airframe, seed: number): Airframe {
  const source = stream("random schedule", seed);
  const factor = () => 0.5 + (1.5 * source.next()) / 2 ** 32;
  const gainSchedule = [0.2, 0.45, 0.8].map((throttle) => ({ throttle, p: factor(), i: factor(), d: factor() }));
  return { ...airframe, controller: { ...airframe.controller, gainSchedule } };
}

/** A low-pass and a notch that move in either chain; of a stream of their own. */
function withMovingFilters(airframe: Airframe, seed: number): Airframe {
  const source = stream("random moving filters", seed);
  const draw: Draw = (from, to) => from + ((to - from) * source.next()) / 2 ** 32;
  const { sensing, controller } = airframe;
  const lowPass = (): ScheduledLowPass => ({
    order: pick(draw, 1, 2),
    corners: [0.2, 0.5, 0.8].map((throttle) => ({ throttle, cutoff: decade(draw, 80, 0.35 * controller.rate) })),
  });
  const notch = () => ({ harmonic: decade(draw, 0.3, 3), width: draw(0.1, 0.8), lowest: decade(draw, 30, 200) });
  return {
    ...airframe,
    sensing: { ...sensing, lowPassSchedule: [lowPass()], trackingNotch: [notch()] },
    controller: { ...controller, derivativeFilterSchedule: [lowPass()], derivativeTrackingNotch: [notch()] },
  };
}

/** A table that bends twice, and a nominal voltage so low that the collective is never cut off; of a stream of their own. */
function withDuties(airframe: Airframe, seed: number): Airframe {
  const source = stream("random duties", seed);
  const share = () => source.next() / 2 ** 32;
  const dutyTable = [
    { command: 0, duty: 0.1 * share() },
    { command: 0.1 + 0.2 * share(), duty: 0.2 + 0.2 * share() },
    { command: 0.5 + 0.2 * share(), duty: 0.6 + 0.3 * share() },
    { command: 1, duty: 1 },
  ];
  const packCompensation = { nominal: airframe.pack.cells * (2.3 + 0.6 * share()), cutoff: 2 };
  return { ...airframe, controller: { ...airframe.controller, dutyTable, packCompensation } };
}

/** One to two notches in the gyro's chain, up to one in D's; of a stream of their own. */
function withNotches(airframe: Airframe, seed: number): Airframe {
  const source = stream("random notches", seed);
  const draw: Draw = (from, to) => from + ((to - from) * source.next()) / 2 ** 32;
  const { sensing, controller } = airframe;
  const notch = (): Notch => {
    const centre = decade(draw, 40, 0.4 * controller.rate);
    return { centre, width: Math.min(draw(0.15, 0.8) * centre, 0.4 * controller.rate) };
  };
  const gyro = Array.from({ length: pick(draw, 1, 2) }, notch);
  const slope = Array.from({ length: pick(draw, 0, 1) }, notch);
  return {
    ...airframe,
    sensing: { ...sensing, notch: gyro },
    controller: { ...controller, ...(slope.length === 0 ? {} : { derivativeNotch: slope }) },
  };
}

function randomAirframe(draw: Draw): Airframe {
  const count = pick(draw, 4, 4, 5, 6, 8);
  const reach = decade(draw, 0.04, 0.35);
  const stretch = draw(0.7, 1.4);
  const rotors = Array.from({ length: count }, (_, k) => {
    const angle = (2 * Math.PI * (k + 0.5 + draw(-0.15, 0.15))) / count;
    const at = [reach * stretch * Math.cos(angle), reach * Math.sin(angle), draw(-0.1, 0.1) * reach] as const;
    return { at, spin: k % 2 === 0 ? (1 as const) : (-1 as const) };
  });
  const diameter = reach * draw(0.9, 1.4);
  const ct = draw(0.08, 0.18);
  const propeller = {
    diameter,
    blades: 2,
    ct,
    cp: ct * draw(0.45, 0.9),
    cpSlope: draw(-0.05, 0.02),
    zeroThrustAdvance: draw(0.6, 1.1),
    inertia: 0.13 * diameter ** 5 * draw(0.6, 1.6), // as of a five-inch blade
  };
  const constant = 60 / (2 * Math.PI * decade(draw, 300, 4000) * (0.127 / diameter));
  const motor = {
    constant,
    resistance: draw(0.02, 0.2),
    noLoadCurrent: draw(0.2, 1.5),
    bellInertia: propeller.inertia * draw(0.2, 1),
  };
  const cells = pick(draw, 1, 2, 3, 4, 6);
  const kT = (ct * 1.225 * diameter ** 4) / (2 * Math.PI) ** 2;
  const kQ = (propeller.cp * 1.225 * diameter ** 5) / (2 * Math.PI) ** 3;
  const fastest = steadySpeed(3.6 * cells, motor, kQ);
  const mass = (count * kT * (draw(0.3, 0.6) * fastest) ** 2) / GRAVITY;
  const [rx, ry, rz] = [draw(0.2, 0.5), draw(0.2, 0.5), draw(0.35, 0.65)].map((share) => share * reach);
  const product = () => draw(-0.1, 0.1) * mass * rx * ry;
  const rate = pick(draw, 1000, 2000, 4000, 8000);
  return {
    name: "Random craft",
    version: "1",
    title: "",
    mass,
    centreOfMass: [draw(-0.1, 0.1) * reach, draw(-0.1, 0.1) * reach, 0],
    inertia: {
      xx: mass * rx * rx,
      yy: mass * ry * ry,
      zz: mass * rz * rz,
      xy: product(),
      xz: product(),
      yz: product(),
    },
    rotors,
    propeller,
    motor,
    pack: { cells, capacity: 5000, resistance: draw(0.002, 0.03) * cells, openCircuit: CELL_OPEN_CIRCUIT },
    sensing: { noiseDensity: 0, lowPass: filters(draw, rate), vibration: [] },
    controller: {
      rate,
      latency: draw(0, 0.002),
      idle: 0.05,
      substeps: 1,
      derivativeFilter: filters(draw, rate),
      integralLimit: 0.3,
      roll: { p: null, i: 0, d: null },
      pitch: { p: null, i: 0, d: null },
      yaw: { p: 0, i: 0, d: 0 },
      scale: null,
    },
    wash: { rms: 0, loss: 0, revolutions: 30, correlation: 0 },
    defaulted: [],
  };
}

/** P from a twelfth of what the axis bears without D to more than it bears, D in proportion to the loop's lag. */
function randomGains(craft: Craft, hover: Trim, draw: Draw): GainsByAxis {
  const calm = (axis: "roll" | "pitch") => ({ p: softHold(craft, hover, axis).p, i: 0, d: 0 });
  const holding = { roll: calm("roll"), pitch: calm("pitch"), yaw: { p: calm("roll").p / 2, i: calm("roll").p, d: 0 } };
  const lag = lagOf(craft, hover);
  const gains = (axis: "roll" | "pitch") => {
    const stable = stableIntervals(axisPieces(craft, hover, axis, holding), 0, 0, { from: 0, to: 1e6 });
    const p = Math.min((stable.at(-1)?.to ?? 1) * decade(draw, 0.08, 1.1), 20 * holding[axis].p);
    return { p, i: p * draw(0, 4), d: p * lag * draw(0, 0.5) };
  };
  return { roll: gains("roll"), pitch: gains("pitch"), yaw: holding.yaw };
}
