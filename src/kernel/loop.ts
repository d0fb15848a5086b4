// The rate loop of one craft, step by step: sense, command, mix, power, turn. The only description of the physics: the vector
// kernel is made from it (see translator). Hence flat arrays, minimum, maximum and choose: no branch depends on a lane's number.
import {
  type Index,
  maximum,
  minimum,
  type Uniform,
  type UniformMemory,
  type Varying,
  type VaryingMemory,
} from "../base/lane-numbers.js";
import { senseAndCommand } from "./command.js";
import { dutyFor, packFactor } from "./duty.js";
import * as m from "./memory.js";

/**
 * Advances one trial from control period `from` to `to` (exclusive).
 * craft, drive and state are laid out by memory.ts; trace receives the rate of `axis` (0 roll, 1 pitch, 2 yaw; rad/s) at each
 * sampling instant. Where `disturbed` is 0 the air is still: no climb, no gust, all thrust; heat and commands are summed where
 * `accumulate` is 1; `extended` and `coupled` as in memory.ts. Mutates state and trace, allocates nothing.
 */
export function advance(
  craft: UniformMemory,
  drive: UniformMemory,
  state: VaryingMemory,
  trace: VaryingMemory,
  rotors: Index,
  sensorStages: Index,
  derivativeStages: Index,
  dutyBends: Index,
  movingSensorStages: Index,
  movingDerivativeStages: Index,
  delaySteps: Index,
  substeps: Index,
  olderSteps: Index,
  extended: Index,
  coupled: Index,
  axis: Index,
  disturbed: Index,
  accumulate: Index,
  from: Index,
  to: Index,
): void {
  const rotorTable: Index = m.CRAFT_SIZE;
  const dutyTable: Index = rotorTable + rotors * m.ROTOR_WIDTH + (sensorStages + derivativeStages) * m.STAGE_WIDTH;
  const width: Index =
    m.DRIVE_BASE +
    rotors +
    extended * (m.EXTENSION + movingSensorStages * m.MOVING_WIDTH + movingDerivativeStages * m.MOVING_WIDTH);
  const speeds: Index = m.STATE_SIZE;
  const midSpeeds: Index = speeds + rotors;
  const demands: Index = midSpeeds + rotors;
  const line: Index =
    demands + rotors + 6 * sensorStages + 4 * derivativeStages + 6 * movingSensorStages + 4 * movingDerivativeStages;
  const lineEnd: Index = line + (delaySteps + 1) * rotors;
  const integralFloor: Uniform = -craft[m.INTEGRAL_LIMIT];
  const idle: Uniform = craft[m.IDLE];
  const dutySpan: Uniform = craft[m.DUTY_SPAN];
  const yawRoom: Uniform = craft[m.YAW_ROOM];
  const halfStep: Uniform = 0.5 * craft[m.SUBSTEP];
  const emf: Uniform = craft[m.PACK_EMF];
  const packRatio: Uniform = craft[m.PACK_RATIO];
  const motorConstant: Uniform = craft[m.MOTOR_CONSTANT];
  const sagBySpeed: Uniform = packRatio * motorConstant;
  // What changes a rotor's speed, a current too, as the change it makes within half a step, rad/s.
  const perAmpere: Uniform = halfStep * craft[m.TORQUE_TO_SPEED];
  const drivePerVolt: Uniform = perAmpere * craft[m.CONDUCTANCE];
  const voltsPerDrive: Uniform = 1 / drivePerVolt;
  const backDrive: Uniform = motorConstant * drivePerVolt;
  const friction: Uniform = halfStep * craft[m.FRICTION];
  const loadStatic: Uniform = halfStep * craft[m.LOAD_STATIC];
  const loadInflow: Uniform = halfStep * craft[m.LOAD_INFLOW];
  const bearingTorque: Uniform = craft[m.BEARING_TORQUE];
  const rotorInertia: Uniform = craft[m.ROTOR_INERTIA];
  const torquePerDrive: Uniform = rotorInertia / halfStep;
  const thrustStatic: Uniform = craft[m.THRUST_STATIC];
  const zeroThrustSlope: Uniform = craft[m.ZERO_THRUST_SLOPE];
  const ixx: Uniform = craft[m.INERTIA];
  const iyy: Uniform = craft[m.INERTIA + 1];
  const izz: Uniform = craft[m.INERTIA + 2];
  const ixy: Uniform = craft[m.INERTIA + 3];
  const ixz: Uniform = craft[m.INERTIA + 4];
  const iyz: Uniform = craft[m.INERTIA + 5];
  const wxx: Uniform = halfStep * craft[m.MOBILITY];
  const wyy: Uniform = halfStep * craft[m.MOBILITY + 1];
  const wzz: Uniform = halfStep * craft[m.MOBILITY + 2];
  const wxy: Uniform = halfStep * craft[m.MOBILITY + 3];
  const wxz: Uniform = halfStep * craft[m.MOBILITY + 4];
  const wyz: Uniform = halfStep * craft[m.MOBILITY + 5];
  let p: Varying = state[m.BODY_RATE];
  let q: Varying = state[m.BODY_RATE + 1];
  let r: Varying = state[m.BODY_RATE + 2];
  let halfP: Varying = state[m.HALF_STEP_DELTA];
  let halfQ: Varying = state[m.HALF_STEP_DELTA + 1];
  let halfR: Varying = state[m.HALF_STEP_DELTA + 2];
  let served: Varying = state[m.SERVED];
  let fastest: Varying = state[m.FASTEST];
  let heat: Varying = 0;
  let servedSum: Varying = state[m.SERVED_SUM];
  let commandSum: Varying = state[m.COMMAND_SUM];
  let commandSquares: Varying = state[m.COMMAND_SQUARES];
  let write: Index = line + (from % (delaySteps + 1)) * rotors;
  for (let k: Index = from; k < to; k++) {
    const now: Index = k * width;
    const rate: Varying = axis === 0 ? p : axis === 1 ? q : r;
    trace[k] = rate;
    fastest = maximum(fastest, rate * rate);

    senseAndCommand(
      craft,
      drive,
      state,
      p,
      q,
      r,
      served,
      integralFloor,
      rotors,
      sensorStages,
      derivativeStages,
      movingSensorStages,
      movingDerivativeStages,
      extended,
      coupled,
      axis,
      now,
    );
    const rollCommand: Varying = state[m.AXIS_COMMAND];
    const pitchCommand: Varying = state[m.AXIS_COMMAND + 1];
    if (accumulate > 0) {
      const axisCommand: Varying = state[m.AXIS_COMMAND + axis];
      commandSum += axisCommand;
      commandSquares += axisCommand * axisCommand;
    }

    // Mix: roll and pitch first, scaled together to the duty span; yaw what is left; the collective keeps every rotor inside.
    for (let i: Index = 0; i < rotors; i++) {
      const t: Index = rotorTable + i * m.ROTOR_WIDTH;
      state[demands + i] = craft[t + m.MIX_ROLL] * rollCommand + craft[t + m.MIX_PITCH] * pitchCommand;
    }
    let low: Varying = state[demands];
    let high: Varying = state[demands];
    for (let i: Index = 1; i < rotors; i++) {
      low = minimum(low, state[demands + i]);
      high = maximum(high, state[demands + i]);
    }
    const spread: Varying = high - low;
    const scale: Varying = minimum(1, dutySpan / spread);
    served = scale < 1 ? 0 : 1;
    const yawLimit: Varying = (dutySpan - scale * spread) * yawRoom;
    const yawCommand: Varying = maximum(-yawLimit, minimum(yawLimit, state[m.AXIS_COMMAND + 2]));
    servedSum += axis < 2 ? served : yawCommand === state[m.AXIS_COMMAND + 2] ? served : 0; // yaw is cut first
    for (let i: Index = 0; i < rotors; i++) {
      const yawShare: Uniform = craft[rotorTable + i * m.ROTOR_WIDTH + m.MIX_YAW];
      state[demands + i] = scale * state[demands + i] + yawShare * yawCommand;
    }
    low = state[demands];
    high = state[demands];
    for (let i: Index = 1; i < rotors; i++) {
      low = minimum(low, state[demands + i]);
      high = maximum(high, state[demands + i]);
    }
    const collective: Varying = maximum(idle - low, minimum(1 - high, drive[now + m.THROTTLE]));

    // Latency: the oldest command acts; where its fraction of a period ends, the next one takes over.
    const read: Index = write + rotors < lineEnd ? write + rotors : line;
    const newer: Index = read + rotors < lineEnd ? read + rotors : line;
    let dutySquares: Varying = 0;
    let factor: Varying = 1;
    if (extended > 0) factor = packFactor(craft, state);
    for (let i: Index = 0; i < rotors; i++) {
      let duty: Varying = collective + state[demands + i];
      if (extended > 0) duty = dutyFor(craft, duty, factor, dutyTable, dutyBends);
      state[write + i] = duty;
      const u: Varying = state[read + i];
      dutySquares += u * u;
    }
    let drivePerDuty: Varying = drivePerVolt / (1 + packRatio * dutySquares);
    let changeSquares: Varying = 0;
    let rollChange: Varying = 0;
    let pitchChange: Varying = 0;
    for (let n: Index = 0; n < substeps; n++) {
      // The step in which the newer command takes over has the mean of both; what that mean hides of lift and heat is below.
      if (olderSteps < n + 1) {
        const takeover: Index = m.NEWER_SHARE;
        const share: Index = n === olderSteps ? takeover : takeover + 1;
        dutySquares = 0;
        for (let i: Index = 0; i < rotors; i++) {
          const t: Index = rotorTable + i * m.ROTOR_WIDTH;
          const change: Varying = state[newer + i] - state[read + i];
          if (accumulate > 0) changeSquares += change * change;
          const pull: Varying = 2 * change * state[midSpeeds + i];
          rollChange += craft[t + m.ARM_Y] * pull;
          pitchChange -= craft[t + m.ARM_X] * pull;
          const u: Varying = state[read + i] + craft[share] * change;
          state[read + i] = u;
          dutySquares += u * u;
        }
        drivePerDuty = drivePerVolt / (1 + packRatio * dutySquares);
      }

      // Power: the pack's voltage with all currents at once. Mid-step is foreseen from the step before: second order.
      let dutySpeeds: Varying = 0;
      for (let i: Index = 0; i < rotors; i++) dutySpeeds += state[read + i] * state[midSpeeds + i];
      const fullDrive: Varying = (emf + sagBySpeed * dutySpeeds) * drivePerDuty;
      if (extended > 0) state[m.PACK_VOLTS] = fullDrive * voltsPerDrive;
      const pm: Varying = p + halfP;
      const qm: Varying = q + halfQ;
      const rm: Varying = r + halfR;
      let rollInflow: Varying = zeroThrustSlope * pm;
      let pitchInflow: Varying = zeroThrustSlope * qm;
      if (disturbed > 0) {
        rollInflow += zeroThrustSlope * drive[now + m.GUST_ROLL];
        pitchInflow += zeroThrustSlope * drive[now + m.GUST_PITCH];
      }
      let rollLift: Varying = 0;
      let pitchLift: Varying = 0;
      let spinDrive: Varying = 0;
      let spinSpeed: Varying = 0;
      for (let i: Index = 0; i < rotors; i++) {
        const t: Index = rotorTable + i * m.ROTOR_WIDTH;
        const x: Uniform = craft[t + m.ARM_X];
        const y: Uniform = craft[t + m.ARM_Y];
        const spin: Uniform = craft[t + m.SPIN];
        const w: Varying = state[midSpeeds + i];
        let zeroThrustSpeed: Varying = rollInflow * y - pitchInflow * x;
        if (disturbed > 0) zeroThrustSpeed += zeroThrustSlope * drive[now + m.CLIMB];
        const driveDelta: Varying = state[read + i] * fullDrive - backDrive * w;
        if (accumulate > 0) heat += driveDelta * driveDelta;
        const load: Varying = (loadStatic * w + loadInflow * zeroThrustSpeed) * w;
        const half: Varying = driveDelta - (friction + load);
        const middle: Varying = state[speeds + i] + half;
        const next: Varying = maximum(0, middle + half);
        state[speeds + i] = next;
        state[midSpeeds + i] = next + half;
        let lift: Varying = (middle - zeroThrustSpeed) * middle;
        if (disturbed > 0) lift *= drive[now + m.THRUST_SHARE + i];
        rollLift += y * lift;
        pitchLift -= x * lift;
        spinDrive += spin * driveDelta;
        spinSpeed += spin * middle;
      }

      // The older command first: within the step rotors are slower than under the mean. Heat goes by the square of either's current.
      if (n === olderSteps) {
        const hidden: Varying = craft[m.SHARE_VARIANCE] * fullDrive;
        rollLift -= hidden * rollChange;
        pitchLift -= hidden * pitchChange;
        if (accumulate > 0) heat += hidden * changeSquares * fullDrive;
      }

      // Turn: Euler's equations at mid-step, rotors along z; the motors' torque on them turns the body the other way.
      let hx: Varying = ixx * pm + ixz * rm;
      let hy: Varying = iyy * qm;
      let hz: Varying = ixz * pm + izz * rm + rotorInertia * spinSpeed;
      if (coupled > 0) {
        hx += ixy * qm;
        hy += ixy * pm + iyz * rm;
        hz += iyz * qm;
      }
      const tx: Varying = thrustStatic * rollLift - (qm * hz - rm * hy);
      const ty: Varying = thrustStatic * pitchLift - (rm * hx - pm * hz);
      const tz: Varying = qm * hx - pm * hy + (bearingTorque - torquePerDrive * spinDrive);
      halfP = wxx * tx + wxz * tz;
      halfQ = wyy * ty;
      halfR = wxz * tx + wzz * tz;
      if (coupled > 0) {
        halfP += wxy * ty;
        halfQ += wxy * tx + wyz * tz;
        halfR += wyz * ty;
      }
      p += halfP + halfP;
      q += halfQ + halfQ;
      r += halfR + halfR;
    }
    write = read;
  }

  state[m.BODY_RATE] = p;
  state[m.BODY_RATE + 1] = q;
  state[m.BODY_RATE + 2] = r;
  state[m.HALF_STEP_DELTA] = halfP;
  state[m.HALF_STEP_DELTA + 1] = halfQ;
  state[m.HALF_STEP_DELTA + 2] = halfR;
  state[m.SERVED] = served;
  state[m.FASTEST] = fastest;
  if (accumulate > 0) state[m.HEAT] += heat / (perAmpere * perAmpere);
  state[m.SERVED_SUM] = servedSum;
  state[m.COMMAND_SUM] = commandSum;
  state[m.COMMAND_SQUARES] = commandSquares;
}
