// The input of the reference program: models as plain numbers, in the units and with the words of a resolved model.
import type { Airframe, LowPass, Notch, ScheduledLowPass } from "../../src/airframe/airframe.js";
import { type Craft, craftUnder, STANDARD_DAY, type Surroundings } from "../../src/airframe/craft.js";
import type { Trim } from "../../src/airframe/powered.js";
import { hoverTrim, trimAt } from "../../src/airframe/trim.js";
import type { GainsByAxis } from "../../src/theory/plant.js";

const stages = (list: readonly LowPass[]) => list.map(({ order, cutoff }) => [order, cutoff]);

const notches = (list: readonly Notch[] = []) => list.map(({ centre, width }) => [centre, width]);

const schedules = (list: readonly ScheduledLowPass[] = []) =>
  list.map(({ order, corners }) => ({ order, corners: corners.map(({ throttle, cutoff }) => [throttle, cutoff]) }));

/** A model under its surroundings at a throttle (fraction), with these gains (SI). */
export interface Model {
  readonly airframe: Airframe;
  readonly around: Surroundings;
  readonly throttle: number;
  readonly gains: GainsByAxis;
}

export const craftOf = ({ airframe, around }: Model): Craft => craftUnder(airframe, around);
export const trimOf = (model: Model): Trim => trimAt(craftOf(model), model.throttle);

/** A model at its hover throttle times `more`. */
export function hovering(airframe: Airframe, gains: GainsByAxis, more = 1, around: Surroundings = STANDARD_DAY): Model {
  const hover = hoverTrim(craftUnder(airframe, around));
  if (hover === null) throw new Error(`${airframe.name} cannot hover`);
  return { airframe, around, throttle: Math.min(0.95, more * hover.throttle), gains };
}

/** The command whose duty is the lowest one, read off the table by bisection. */
function leastCommand({ dutyTable: rows, idle }: Airframe["controller"]): number {
  if (rows === undefined) return idle;
  const dutyAt = (command: number) => {
    const next = Math.max(
      1,
      rows.findIndex((row) => row.command >= command),
    );
    const [a, b] = [rows[next - 1], rows[next]];
    return a.duty + ((command - a.command) / (b.command - a.command)) * (b.duty - a.duty);
  };
  let [low, high] = [0, 1];
  for (let round = 0; round < 60; round++) {
    const middle = 0.5 * (low + high);
    if (dutyAt(middle) < idle) low = middle;
    else high = middle;
  }
  return high;
}

export function questionOf({ airframe, around, throttle, gains }: Model) {
  const { inertia, motor, propeller, pack, sensing, controller } = airframe;
  return {
    rotors: airframe.rotors.map(({ at }) => at),
    spins: airframe.rotors.map(({ spin }) => spin),
    centre: airframe.centreOfMass,
    mass: airframe.mass,
    inertia: [inertia.xx, inertia.yy, inertia.zz, inertia.xy, inertia.xz, inertia.yz],
    propeller,
    motor,
    pack,
    charge: around.charge,
    altitude: around.altitude,
    temperature: around.temperature ?? [],
    throttle,
    controller: {
      rate: controller.rate,
      latency: controller.latency,
      idle: controller.idle,
      integralLimit: controller.integralLimit,
      sensor: stages(sensing.lowPass),
      derivative: stages(controller.derivativeFilter),
      sensorNotch: notches(sensing.notch),
      derivativeNotch: notches(controller.derivativeNotch),
      sensorSchedule: schedules(sensing.lowPassSchedule),
      sensorTracking: sensing.trackingNotch ?? [],
      derivativeSchedule: schedules(controller.derivativeFilterSchedule),
      derivativeTracking: controller.derivativeTrackingNotch ?? [],
      commandLowPass: stages(controller.commandLowPass ?? []),
      feedForward: (["roll", "pitch", "yaw"] as const).map((axis) => {
        const { rate, slope } = controller.feedForward?.[axis] ?? { rate: 0, slope: 0 };
        return [rate, slope];
      }),
      dutyTable: (controller.dutyTable ?? []).map(({ command, duty }) => [command, duty]),
      idleCommand: leastCommand(controller),
      nominal: controller.packCompensation?.nominal ?? [],
      cutoff: controller.packCompensation?.cutoff ?? [],
      shapes: controller.dutyTable !== undefined || controller.packCompensation !== undefined,
      gainSchedule: (controller.gainSchedule ?? []).map(({ throttle: at, p, i, d }) => [at, p, i, d]),
      gains: (["roll", "pitch", "yaw"] as const).map((axis) => [gains[axis].p, gains[axis].i, gains[axis].d]),
    },
  };
}
