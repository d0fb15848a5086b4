// The rate loop of one craft, step by step: sense, command, mix, power, turn. This is the only
// description of the physics; the vector kernel is made from this file (see translator). It therefore keeps to
// arithmetic on flat arrays, minimum, maximum and choose: no branch depends on a lane's number.
import * as m from "./memory.js";

/** A number of which every lane has its own. */
type Lane = number;
/** A number all lanes share. */
type Shared = number;
/** A place in memory or a count. */
type Index = number;
type LaneMemory = Float64Array;
type SharedMemory = Float64Array;

const minimum = (a: Lane, b: Lane): Lane => (a < b ? a : b);
const maximum = (a: Lane, b: Lane): Lane => (a > b ? a : b);

/**
 * Advances one trial from control period `from` to `to` (exclusive).
 * craft, drive and state are laid out by memory.ts; trace receives the rate of `axis` (0 roll, 1 pitch; rad/s) at each
 * sampling instant. Where `stirred` is 0 the air is still: no climb, no gust, all thrust; heat and commands are summed where
 * `tally` is 1; `whole` as in memory.ts. Mutates state and trace, allocates nothing.
 */
export function advance(
  craft: SharedMemory,
  drive: SharedMemory,
  state: LaneMemory,
  trace: LaneMemory,
  rotors: Index,
  sensorStages: Index,
  derivativeStages: Index,
  delaySteps: Index,
  substeps: Index,
  whole: Index,
  axis: Index,
  stirred: Index,
  tally: Index,
  from: Index,
  to: Index,
): void {
  const rotorTable: Index = m.CRAFT_SIZE;
  const sensorTable: Index = rotorTable + rotors * m.ROTOR_WIDTH;
  const derivativeTable: Index = sensorTable + sensorStages * m.STAGE_WIDTH;
  const width: Index = m.DRIVE_BASE + rotors;
  const speeds: Index = m.STATE_SIZE;
  const foreseen: Index = speeds + rotors;
  const demands: Index = foreseen + rotors;
  const sensorMemory: Index = demands + rotors;
  const derivativeMemory: Index = sensorMemory + 6 * sensorStages;
  const line: Index = derivativeMemory + 4 * derivativeStages;
  const lineEnd: Index = line + (delaySteps + 1) * rotors;

  const integralLimit: Shared = craft[m.INTEGRAL_LIMIT];
  const integralFloor: Shared = -integralLimit;
  const idle: Shared = craft[m.IDLE];
  const dutySpan: Shared = craft[m.DUTY_SPAN];
  const yawRoom: Shared = craft[m.YAW_ROOM];
  const halfStep: Shared = 0.5 * craft[m.SUBSTEP];
  const emf: Shared = craft[m.PACK_EMF];
  const packRatio: Shared = craft[m.PACK_RATIO];
  const motorConstant: Shared = craft[m.MOTOR_CONSTANT];
  const sagBySpeed: Shared = packRatio * motorConstant;
  // What changes a rotor's speed, a current too, as the change it makes within half a step, rad/s.
  const perAmpere: Shared = halfStep * craft[m.TORQUE_TO_SPEED];
  const drivePerVolt: Shared = perAmpere * craft[m.CONDUCTANCE];
  const backDrive: Shared = motorConstant * drivePerVolt;
  const friction: Shared = halfStep * craft[m.FRICTION];
  const loadStatic: Shared = halfStep * craft[m.LOAD_STATIC];
  const loadScrew: Shared = halfStep * craft[m.LOAD_SCREW];
  const bearingTorque: Shared = craft[m.BEARING_TORQUE];
  const rotorInertia: Shared = craft[m.ROTOR_INERTIA];
  const torquePerDrive: Shared = rotorInertia / halfStep;
  const thrustStatic: Shared = craft[m.THRUST_STATIC];
  const screw: Shared = craft[m.SCREW];
  const ixx: Shared = craft[m.INERTIA];
  const iyy: Shared = craft[m.INERTIA + 1];
  const izz: Shared = craft[m.INERTIA + 2];
  const ixy: Shared = craft[m.INERTIA + 3];
  const ixz: Shared = craft[m.INERTIA + 4];
  const iyz: Shared = craft[m.INERTIA + 5];
  const wxx: Shared = halfStep * craft[m.MOBILITY];
  const wyy: Shared = halfStep * craft[m.MOBILITY + 1];
  const wzz: Shared = halfStep * craft[m.MOBILITY + 2];
  const wxy: Shared = halfStep * craft[m.MOBILITY + 3];
  const wxz: Shared = halfStep * craft[m.MOBILITY + 4];
  const wyz: Shared = halfStep * craft[m.MOBILITY + 5];

  let p: Lane = state[m.BODY_RATE];
  let q: Lane = state[m.BODY_RATE + 1];
  let r: Lane = state[m.BODY_RATE + 2];
  let halfP: Lane = state[m.HALF_TURN];
  let halfQ: Lane = state[m.HALF_TURN + 1];
  let halfR: Lane = state[m.HALF_TURN + 2];
  let served: Lane = state[m.SERVED];
  let fastest: Lane = state[m.FASTEST];
  let heat: Lane = 0;
  let servedSum: Lane = state[m.SERVED_SUM];
  let commandSum: Lane = state[m.COMMAND_SUM];
  let commandSquares: Lane = state[m.COMMAND_SQUARES];

  let write: Index = line + (from % (delaySteps + 1)) * rotors;
  for (let k: Index = from; k < to; k++) {
    const now: Index = k * width;
    const rate: Lane = axis === 0 ? p : q;
    trace[k] = rate;
    fastest = maximum(fastest, rate * rate);

    // Sense and command: gyro, low-pass chain, then P and I on the error and D on the measured rate.
    // The integral share waits while the mixer cannot serve the demand.
    for (let a: Index = 0; a < 3; a++) {
      let y: Lane = (a === 0 ? p : a === 1 ? q : r) + drive[now + m.NOISE + a];
      for (let s: Index = 0; s < sensorStages; s++) {
        const c: Index = sensorTable + s * m.STAGE_WIDTH;
        const z: Index = sensorMemory + (a * sensorStages + s) * 2;
        const x: Lane = y;
        y = craft[c] * x + state[z];
        state[z] = craft[c + 1] * x - craft[c + 3] * y + state[z + 1];
        state[z + 1] = craft[c + 2] * x - craft[c + 4] * y;
      }
      const error: Lane = drive[now + m.COMMAND + a] - y;
      const gathered: Lane = state[m.INTEGRAL + a] + state[m.I_GAIN + a] * (served * error);
      const integral: Lane = maximum(integralFloor, minimum(integralLimit, gathered));
      state[m.INTEGRAL + a] = integral;
      state[m.AXIS_COMMAND + a] = state[m.P_GAIN + a] * error + integral;
      if (a === 2) break; // yaw flies without D
      const damped: Index = a === axis ? 1 : whole;
      if (damped > 0) {
        let slope: Lane = y - state[m.FILTERED + a];
        state[m.FILTERED + a] = y;
        for (let s: Index = 0; s < derivativeStages; s++) {
          const c: Index = derivativeTable + s * m.STAGE_WIDTH;
          const z: Index = derivativeMemory + (a * derivativeStages + s) * 2;
          const x: Lane = slope;
          slope = craft[c] * x + state[z];
          state[z] = craft[c + 1] * x - craft[c + 3] * slope + state[z + 1];
          state[z + 1] = craft[c + 2] * x - craft[c + 4] * slope;
        }
        state[m.AXIS_COMMAND + a] -= state[m.D_GAIN + a] * slope;
      }
    }
    const rollCommand: Lane = state[m.AXIS_COMMAND];
    const pitchCommand: Lane = state[m.AXIS_COMMAND + 1];
    if (tally > 0) {
      const tested: Lane = axis === 0 ? rollCommand : pitchCommand;
      commandSum += tested;
      commandSquares += tested * tested;
    }

    // Mix: roll and pitch first, scaled together to the duty span; yaw takes what is left; then the
    // collective moves to keep every rotor inside.
    for (let i: Index = 0; i < rotors; i++) {
      const t: Index = rotorTable + i * m.ROTOR_WIDTH;
      state[demands + i] = craft[t + m.MIX_ROLL] * rollCommand + craft[t + m.MIX_PITCH] * pitchCommand;
    }
    let low: Lane = state[demands];
    let high: Lane = state[demands];
    for (let i: Index = 1; i < rotors; i++) {
      low = minimum(low, state[demands + i]);
      high = maximum(high, state[demands + i]);
    }
    const spread: Lane = high - low;
    const scale: Lane = minimum(1, dutySpan / spread);
    served = scale < 1 ? 0 : 1;
    servedSum += served;
    const yawLimit: Lane = (dutySpan - scale * spread) * yawRoom;
    const yawCommand: Lane = maximum(-yawLimit, minimum(yawLimit, state[m.AXIS_COMMAND + 2]));
    for (let i: Index = 0; i < rotors; i++) {
      const yawShare: Shared = craft[rotorTable + i * m.ROTOR_WIDTH + m.MIX_YAW];
      state[demands + i] = scale * state[demands + i] + yawShare * yawCommand;
    }
    low = state[demands];
    high = state[demands];
    for (let i: Index = 1; i < rotors; i++) {
      low = minimum(low, state[demands + i]);
      high = maximum(high, state[demands + i]);
    }
    const collective: Lane = maximum(idle - low, minimum(1 - high, drive[now + m.THROTTLE]));

    // Latency: whole control periods between the mixer and the motors.
    const read: Index = write + rotors < lineEnd ? write + rotors : line;
    let dutySquares: Lane = 0;
    for (let i: Index = 0; i < rotors; i++) {
      state[write + i] = collective + state[demands + i];
      const u: Lane = state[read + i];
      dutySquares += u * u;
    }
    const sagged: Lane = drivePerVolt / (1 + packRatio * dutySquares);

    for (let n: Index = 0; n < substeps; n++) {
      // Power: the pack's voltage with all currents at once. Speeds and body rates are taken at mid-step,
      // foreseen from the change of the step before: second order with one look at the forces.
      let dutySpeeds: Lane = 0;
      for (let i: Index = 0; i < rotors; i++) dutySpeeds += state[read + i] * state[foreseen + i];
      const fullDrive: Lane = (emf + sagBySpeed * dutySpeeds) * sagged;

      const pm: Lane = p + halfP;
      const qm: Lane = q + halfQ;
      const rm: Lane = r + halfR;
      let rollScrew: Lane = screw * pm;
      let pitchScrew: Lane = screw * qm;
      if (stirred > 0) {
        rollScrew += screw * drive[now + m.GUST_ROLL];
        pitchScrew += screw * drive[now + m.GUST_PITCH];
      }
      let rollLift: Lane = 0;
      let pitchLift: Lane = 0;
      let spunDrive: Lane = 0;
      let spunSpeed: Lane = 0;
      for (let i: Index = 0; i < rotors; i++) {
        const t: Index = rotorTable + i * m.ROTOR_WIDTH;
        const x: Shared = craft[t + m.ARM_X];
        const y: Shared = craft[t + m.ARM_Y];
        const spin: Shared = craft[t + m.SPIN];
        const w: Lane = state[foreseen + i];
        let thrustless: Lane = rollScrew * y - pitchScrew * x;
        if (stirred > 0) thrustless += screw * drive[now + m.CLIMB];
        const driven: Lane = state[read + i] * fullDrive - backDrive * w;
        if (tally > 0) heat += driven * driven;
        const load: Lane = (loadStatic * w + loadScrew * thrustless) * w;
        const half: Lane = driven - (friction + load);
        const middle: Lane = state[speeds + i] + half;
        const next: Lane = maximum(0, middle + half);
        state[speeds + i] = next;
        state[foreseen + i] = next + half;
        let lift: Lane = (middle - thrustless) * middle;
        if (stirred > 0) lift *= drive[now + m.THRUST_SHARE + i];
        rollLift += y * lift;
        pitchLift -= x * lift;
        spunDrive += spin * driven;
        spunSpeed += spin * middle;
      }

      // Turn: Euler's equations at mid-step, with the rotors' angular momentum along z; the motors'
      // torque on their rotors (drag and acceleration together) turns the body the other way.
      let hx: Lane = ixx * pm + ixz * rm;
      let hy: Lane = iyy * qm;
      let hz: Lane = ixz * pm + izz * rm + rotorInertia * spunSpeed;
      if (whole > 0) {
        hx += ixy * qm;
        hy += ixy * pm + iyz * rm;
        hz += iyz * qm;
      }
      const tx: Lane = thrustStatic * rollLift - (qm * hz - rm * hy);
      const ty: Lane = thrustStatic * pitchLift - (rm * hx - pm * hz);
      const tz: Lane = qm * hx - pm * hy + (bearingTorque - torquePerDrive * spunDrive);
      halfP = wxx * tx + wxz * tz;
      halfQ = wyy * ty;
      halfR = wxz * tx + wzz * tz;
      if (whole > 0) {
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
  state[m.HALF_TURN] = halfP;
  state[m.HALF_TURN + 1] = halfQ;
  state[m.HALF_TURN + 2] = halfR;
  state[m.SERVED] = served;
  state[m.FASTEST] = fastest;
  if (tally > 0) state[m.HEAT] += heat / (perAmpere * perAmpere);
  state[m.SERVED_SUM] = servedSum;
  state[m.COMMAND_SUM] = commandSum;
  state[m.COMMAND_SQUARES] = commandSquares;
}
