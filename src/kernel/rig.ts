// Everything one variant's trials share, in the kernel's memory: craft, drive and the trimmed start.

import { type Airframe, type Controller, substepsOf } from "../airframe/airframe.js";
import type { Craft } from "../airframe/craft.js";
import { dutyLine, idleCommand } from "../airframe/duty.js";
import { gyroChain, lowPassStage, slopeChain, stagesOf } from "../airframe/filter.js";
import { invertInertia } from "../airframe/inertia.js";
import { delayOf, takeoverOf } from "../airframe/latency.js";
import { movingGyroChain, movingSlopeChain } from "../airframe/moving-filter.js";
import type { TrialPlan, TrialVariant } from "../plan/plan.js";
import type { TestedAxis } from "../sweep/sweep.js";
import { type Drive, driveOf } from "./drive.js";
import * as m from "./memory.js";

export interface Rig {
  readonly shape: m.Shape;
  readonly axis: m.AxisPlace; // the axis under test
  readonly steps: number;
  readonly craft: Float64Array;
  readonly drive: Drive;
  /** State at trim with the holding gains set; P and D of the axis under test are still to be filled in. */
  readonly start: Float64Array;
  readonly rate: number; // Hz, control periods
  readonly period: number; // s
}

/** `driveFor`: what makes its drive, or has it already. */
export function rigOf(
  plan: TrialPlan,
  variant: TrialVariant,
  driveFor: (shape: m.Shape) => Drive = (shape) => driveOf(plan, variant, shape),
): Rig {
  const planned = plan.conditions[variant.condition];
  if (planned === undefined) throw new RangeError(`no condition ${variant.condition}`);
  const shape = simulatedShape(plan, planned.craft, variant.axis);
  const drive = driveFor(shape);
  const { rate } = plan.airframe.controller;
  return {
    shape,
    axis: m.axisPlace(variant.axis),
    steps: drive.steps,
    craft: craftMemory(planned.craft, shape),
    drive,
    start: startMemory(plan, variant, shape),
    rate,
    period: 1 / rate,
  };
}

/** The shape of a craft whose other axes have the plan's holding gains; with yaw under test all terms are simulated. */
export function simulatedShape({ holding }: Pick<TrialPlan, "holding">, craft: Craft, sweptAxis: TestedAxis): m.Shape {
  const shape = shapeOf(craft);
  if (sweptAxis === "yaw") return { ...shape, coupled: 1 };
  return holding[sweptAxis === "roll" ? "pitch" : "roll"].d === 0 ? shape : { ...shape, coupled: 1 };
}

export function shapeOf({ airframe, inertia }: Craft): m.Shape {
  const delay = delayOf(airframe);
  const substeps = substepsOf(airframe);
  const extended = isExtended(airframe) ? 1 : 0;
  return {
    rotors: airframe.rotors.length,
    sensorStages: gyroChain(airframe).length,
    derivativeStages: slopeChain(airframe).length,
    dutyBends: dutyLine(airframe.controller).bends.length,
    movingSensorStages: movingGyroChain(airframe).length,
    movingDerivativeStages: movingSlopeChain(airframe).length,
    delaySteps: delay.steps,
    substeps,
    olderSteps: takeoverOf(delay, substeps).olderSteps,
    extended,
    coupled: inertia.xy === 0 && inertia.yz === 0 ? 0 : 1,
  };
}

/** Whether the controller is more than fixed gains and fixed filters. */
const isExtended = (airframe: Airframe): boolean => {
  const { gainSchedule, feedForward, packCompensation, dutyTable } = airframe.controller;
  const moving = [...movingGyroChain(airframe), ...movingSlopeChain(airframe)];
  return moving.length > 0 || [gainSchedule, feedForward, packCompensation, dutyTable].some((one) => one !== undefined);
};

export function craftMemory(craft: Craft, shape: m.Shape): Float64Array {
  const { airframe, inertia, mixer, rotorInertia } = craft;
  const { controller, motor, pack } = airframe;
  const memory = new Float64Array(m.craftLength(shape));
  memory[m.SUBSTEP] = 1 / controller.rate / shape.substeps;
  const idle = idleCommand(airframe);
  memory[m.IDLE] = idle;
  memory[m.DUTY_SPAN] = 1 - idle;
  memory[m.YAW_ROOM] = 1 / (Math.max(...mixer.yaw) - Math.min(...mixer.yaw));
  memory[m.INTEGRAL_LIMIT] = controller.integralLimit;
  memory[m.PACK_EMF] = craft.emf;
  memory[m.PACK_RATIO] = pack.resistance / motor.resistance;
  memory[m.MOTOR_CONSTANT] = motor.constant;
  memory[m.CONDUCTANCE] = 1 / motor.resistance;
  memory[m.TORQUE_TO_SPEED] = motor.constant / rotorInertia;
  memory[m.FRICTION] = (motor.constant * motor.noLoadCurrent) / rotorInertia;
  memory[m.LOAD_STATIC] = craft.torqueStatic / rotorInertia;
  const zeroThrustSlope = craft.thrustInflow / craft.thrustStatic;
  memory[m.LOAD_INFLOW] = craft.torqueInflow / zeroThrustSlope / rotorInertia;
  memory[m.ROTOR_INERTIA] = rotorInertia;
  memory[m.BEARING_TORQUE] =
    motor.constant * motor.noLoadCurrent * craft.spins.reduce((sum: number, spin) => sum + spin, 0);
  memory[m.THRUST_STATIC] = craft.thrustStatic;
  memory[m.ZERO_THRUST_SLOPE] = zeroThrustSlope;
  const mobility = invertInertia(inertia);
  memory.set([inertia.xx, inertia.yy, inertia.zz, inertia.xy, inertia.xz, inertia.yz], m.INERTIA);
  memory.set([mobility.xx, mobility.yy, mobility.zz, mobility.xy, mobility.xz, mobility.yz], m.MOBILITY);
  setDuties(memory, shape, airframe);
  const { newerShare } = takeoverOf(delayOf(airframe), shape.substeps);
  memory.set(m.takeoverCells(newerShare), m.NEWER_SHARE);
  craft.arms.forEach(([x, y], i) => {
    const row = [x, y, craft.spins[i], mixer.roll[i], mixer.pitch[i], mixer.yaw[i]];
    memory.set(row, m.CRAFT_SIZE + i * m.ROTOR_WIDTH);
  });
  const filters = m.CRAFT_SIZE + shape.rotors * m.ROTOR_WIDTH;
  stagesOf([...gyroChain(airframe), ...slopeChain(airframe)], airframe).forEach((stage, i) => {
    memory.set(stage, filters + i * m.STAGE_WIDTH);
  });
  return memory;
}

/** From command to duty. */
function setDuties(memory: Float64Array, shape: m.Shape, { controller }: Airframe): void {
  const { packCompensation, dutyTable, idle } = controller;
  const { start, slope, bends } = dutyLine(controller);
  const [share, pole] = packLowPass(controller);
  memory[m.NOMINAL_VOLTS] = packCompensation?.nominal ?? 1;
  memory[m.VOLTS_SHARE] = share;
  memory[m.VOLTS_POLE] = pole;
  memory[m.DUTY_START] = bends.reduce((sum, { command, change }) => sum - change * command, start);
  memory[m.DUTY_SLOPE] = slope;
  const shaped = packCompensation !== undefined || dutyTable !== undefined;
  memory[m.DUTY_FLOOR] = shaped ? idle : Number.NEGATIVE_INFINITY;
  memory[m.DUTY_CEILING] = shaped ? 1 : Number.POSITIVE_INFINITY;
  bends.forEach(({ command, change }, n) => {
    memory.set([command, change], m.dutyTableAt(shape) + 2 * n);
  });
}

/** Share of the newest voltage and pole; where nothing is made up for, what the memory holds stays and is all there is. */
function packLowPass({ packCompensation, rate }: Controller): readonly [share: number, pole: number] {
  if (packCompensation === undefined) return [0, -1];
  const [share, , , pole] = lowPassStage({ order: 1, cutoff: packCompensation.cutoff }, rate);
  return [share, pole];
}

function startMemory(plan: TrialPlan, variant: TrialVariant, shape: m.Shape): Float64Array {
  const { trim } = variant;
  const { rate, yaw } = plan.airframe.controller;
  const state = new Float64Array(m.stateLength(shape));
  const gains = [plan.holding.roll, plan.holding.pitch, yaw];
  gains.forEach((gain, axis) => {
    state[m.INTEGRAL + axis] = trim.commands[axis];
    state[m.P_GAIN + axis] = gain.p;
    state[m.I_GAIN + axis] = gain.i / rate;
    state[m.D_GAIN + axis] = gain.d * rate;
  });
  // An axis may be held with less than the model's I; it is tested with all of it.
  state[m.I_GAIN + m.axisPlace(variant.axis)] = plan.airframe.controller[variant.axis].i / rate;
  state[m.SERVED] = 1;
  const { packCompensation } = plan.airframe.controller;
  const [share] = packLowPass(plan.airframe.controller);
  state[m.PACK_VOLTS] = trim.volts;
  state[m.VOLTS_MEMORY] = packCompensation === undefined ? 1 : (1 - share) * trim.volts;
  const line = m.delayLineAt(shape);
  trim.speeds.forEach((speed, i) => {
    state[m.STATE_SIZE + i] = speed;
    state[m.STATE_SIZE + shape.rotors + i] = speed;
    for (let slot = 0; slot <= shape.delaySteps; slot++) state[line + slot * shape.rotors + i] = trim.duties[i];
  });
  return state;
}
