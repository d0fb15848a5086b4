// The rate loop of one craft, step by step: sense, command, mix, power, turn. This is the only
// description of the physics; the vector kernel is made from this file. It therefore keeps to
// arithmetic on flat arrays, minimum, maximum and choose: no branch depends on a lane's number.
import * as m from "./memory.js";

/** A number of which every lane has its own. */
type Lane = number;
/** A number all lanes share. */
type Shared = number;
/** A place in memory or a count. */
type Index = number;

const minimum = (a: Lane, b: Lane): Lane => (a < b ? a : b);
const maximum = (a: Lane, b: Lane): Lane => (a > b ? a : b);

/**
 * Advances one trial from control period `from` to `to` (exclusive).
 * craft, drive and state are laid out by memory.ts; trace receives the rate of `axis` (rad/s) at each
 * sampling instant. Mutates state and trace, allocates nothing.
 */
export function advance(
  craft: Float64Array,
  drive: Float64Array,
  state: Float64Array,
  trace: Float64Array,
  rotors: Index,
  sensorStages: Index,
  derivativeStages: Index,
  delaySteps: Index,
  substeps: Index,
  axis: Index,
  from: Index,
  to: Index,
): void {
  const rotorTable: Index = m.CRAFT_SIZE;
  const sensorTable: Index = rotorTable + rotors * m.ROTOR_WIDTH;
  const derivativeTable: Index = sensorTable + sensorStages * m.STAGE_WIDTH;
  const width: Index = m.DRIVE_BASE + rotors;
  const sensorMemory: Index = m.STATE_SIZE;
  const derivativeMemory: Index = sensorMemory + 6 * sensorStages;
  const speeds: Index = derivativeMemory + 4 * derivativeStages;
  const foreseen: Index = speeds + rotors;
  const duties: Index = foreseen + rotors;
  const line: Index = duties + rotors;
  const lineSlots: Index = delaySteps + 1;

  const integralLimit: Shared = craft[m.INTEGRAL_LIMIT];
  const idle: Shared = craft[m.IDLE];
  const dutySpan: Shared = craft[m.DUTY_SPAN];
  const yawRoom: Shared = craft[m.YAW_ROOM];
  const h: Shared = craft[m.SUBSTEP];
  const halfStep: Shared = 0.5 * h;
  const emf: Shared = craft[m.PACK_EMF];
  const packRatio: Shared = craft[m.PACK_RATIO];
  const motorConstant: Shared = craft[m.MOTOR_CONSTANT];
  const conductance: Shared = craft[m.CONDUCTANCE];
  const backCurrent: Shared = motorConstant * conductance;
  const sagBySpeed: Shared = packRatio * motorConstant;
  const torqueToSpeed: Shared = craft[m.TORQUE_TO_SPEED];
  const friction: Shared = craft[m.FRICTION];
  const loadStatic: Shared = craft[m.LOAD_STATIC];
  const loadInflow: Shared = craft[m.LOAD_INFLOW];
  const rotorInertia: Shared = craft[m.ROTOR_INERTIA];
  const thrustStatic: Shared = craft[m.THRUST_STATIC];
  const thrustInflow: Shared = craft[m.THRUST_INFLOW];
  const ixx: Shared = craft[m.INERTIA];
  const iyy: Shared = craft[m.INERTIA + 1];
  const izz: Shared = craft[m.INERTIA + 2];
  const ixy: Shared = craft[m.INERTIA + 3];
  const ixz: Shared = craft[m.INERTIA + 4];
  const iyz: Shared = craft[m.INERTIA + 5];
  const wxx: Shared = craft[m.MOBILITY];
  const wyy: Shared = craft[m.MOBILITY + 1];
  const wzz: Shared = craft[m.MOBILITY + 2];
  const wxy: Shared = craft[m.MOBILITY + 3];
  const wxz: Shared = craft[m.MOBILITY + 4];
  const wyz: Shared = craft[m.MOBILITY + 5];

  let p: Lane = state[m.BODY_RATE];
  let q: Lane = state[m.BODY_RATE + 1];
  let r: Lane = state[m.BODY_RATE + 2];
  let halfP: Lane = state[m.HALF_TURN];
  let halfQ: Lane = state[m.HALF_TURN + 1];
  let halfR: Lane = state[m.HALF_TURN + 2];
  let scale: Lane = state[m.TORQUE_SCALE];
  let heat: Lane = state[m.HEAT];
  let limited: Lane = state[m.LIMITED];
  let commandSum: Lane = state[m.COMMAND_SUM];
  let commandSquares: Lane = state[m.COMMAND_SQUARES];

  for (let k: Index = from; k < to; k++) {
    const now: Index = k * width;
    state[m.BODY_RATE] = p;
    state[m.BODY_RATE + 1] = q;
    state[m.BODY_RATE + 2] = r;
    trace[k] = state[m.BODY_RATE + axis];

    // Sense and command: gyro, low-pass chain, then P and I on the error and D on the measured rate.
    // The integral share waits while the mixer cannot serve the demand.
    for (let a: Index = 0; a < 3; a++) {
      let y: Lane = state[m.BODY_RATE + a] + drive[now + m.NOISE + a];
      for (let s: Index = 0; s < sensorStages; s++) {
        const c: Index = sensorTable + s * m.STAGE_WIDTH;
        const z: Index = sensorMemory + (a * sensorStages + s) * 2;
        const x: Lane = y;
        y = craft[c] * x + state[z];
        state[z] = craft[c + 1] * x - craft[c + 3] * y + state[z + 1];
        state[z + 1] = craft[c + 2] * x - craft[c + 4] * y;
      }
      const error: Lane = drive[now + m.COMMAND + a] - y;
      const gathered: Lane = state[m.INTEGRAL + a] + (scale < 1 ? 0 : state[m.I_GAIN + a] * error);
      const integral: Lane = maximum(-integralLimit, minimum(integralLimit, gathered));
      state[m.INTEGRAL + a] = integral;
      state[m.AXIS_COMMAND + a] = state[m.P_GAIN + a] * error + integral;
      if (a === 2) break; // yaw flies without D
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
    const traced: Lane = state[m.AXIS_COMMAND + axis];
    commandSum += traced;
    commandSquares += traced * traced;

    // Mix: roll and pitch first, scaled together to the duty span; yaw takes what is left; then the
    // collective moves to keep every rotor inside.
    const rollCommand: Lane = state[m.AXIS_COMMAND];
    const pitchCommand: Lane = state[m.AXIS_COMMAND + 1];
    let low: Lane = 1e300;
    let high: Lane = -1e300;
    for (let i: Index = 0; i < rotors; i++) {
      const t: Index = rotorTable + i * m.ROTOR_WIDTH;
      const demand: Lane = craft[t + m.MIX_ROLL] * rollCommand + craft[t + m.MIX_PITCH] * pitchCommand;
      state[duties + i] = demand;
      low = minimum(low, demand);
      high = maximum(high, demand);
    }
    const spread: Lane = high - low;
    scale = spread > dutySpan ? dutySpan / spread : 1;
    const yawLimit: Lane = (dutySpan - scale * spread) * yawRoom;
    const yawCommand: Lane = maximum(-yawLimit, minimum(yawLimit, state[m.AXIS_COMMAND + 2]));
    low = 1e300;
    high = -1e300;
    for (let i: Index = 0; i < rotors; i++) {
      const demand: Lane = scale * state[duties + i] + craft[rotorTable + i * m.ROTOR_WIDTH + m.MIX_YAW] * yawCommand;
      state[duties + i] = demand;
      low = minimum(low, demand);
      high = maximum(high, demand);
    }
    const collective: Lane = maximum(idle - low, minimum(1 - high, drive[now + m.THROTTLE]));
    limited += scale < 1 ? 1 : 0;

    // Latency: whole control periods between the mixer and the motors.
    const write: Index = line + (k % lineSlots) * rotors;
    const read: Index = line + ((k + 1) % lineSlots) * rotors;
    let dutySquares: Lane = 0;
    for (let i: Index = 0; i < rotors; i++) {
      state[write + i] = collective + state[duties + i];
      const u: Lane = state[read + i];
      dutySquares += u * u;
    }
    const sag: Lane = 1 / (1 + packRatio * dutySquares);

    for (let n: Index = 0; n < substeps; n++) {
      // Power: the pack's voltage with all currents at once. Speeds and body rates are taken at mid-step,
      // foreseen from the change of the step before: second order with one look at the forces.
      let dutySpeeds: Lane = 0;
      for (let i: Index = 0; i < rotors; i++) dutySpeeds += state[read + i] * state[foreseen + i];
      const drivenCurrent: Lane = (emf + sagBySpeed * dutySpeeds) * sag * conductance;

      const pm: Lane = p + halfP;
      const qm: Lane = q + halfQ;
      const rm: Lane = r + halfR;
      const pAir: Lane = pm + drive[now + m.GUST_ROLL];
      const qAir: Lane = qm + drive[now + m.GUST_PITCH];
      const climb: Shared = drive[now + m.CLIMB];
      let rollTorque: Lane = 0;
      let pitchTorque: Lane = 0;
      let spunCurrent: Lane = 0;
      let spunSpeed: Lane = 0;
      for (let i: Index = 0; i < rotors; i++) {
        const t: Index = rotorTable + i * m.ROTOR_WIDTH;
        const x: Shared = craft[t + m.ARM_X];
        const y: Shared = craft[t + m.ARM_Y];
        const spin: Shared = craft[t + m.SPIN];
        const w: Lane = state[foreseen + i];
        const inflow: Lane = climb + (pAir * y - qAir * x);
        const current: Lane = state[read + i] * drivenCurrent - backCurrent * w;
        heat += current * current;
        const load: Lane = (loadStatic * w + loadInflow * inflow) * w;
        const half: Lane = halfStep * (torqueToSpeed * current - (friction + load));
        const middle: Lane = state[speeds + i] + half;
        const next: Lane = maximum(0, middle + half);
        state[speeds + i] = next;
        state[foreseen + i] = next + half;
        const thrust: Lane = drive[now + m.THRUST_SHARE + i] * (thrustStatic * middle - thrustInflow * inflow) * middle;
        rollTorque += y * thrust;
        pitchTorque -= x * thrust;
        spunCurrent += spin * current;
        spunSpeed += spin * middle;
      }

      // Turn: Euler's equations at mid-step, with the rotors' angular momentum along z; the motors'
      // torque on their rotors (drag and acceleration together) turns the body the other way.
      const hx: Lane = ixx * pm + ixy * qm + ixz * rm;
      const hy: Lane = ixy * pm + iyy * qm + iyz * rm;
      const hz: Lane = ixz * pm + iyz * qm + izz * rm + rotorInertia * spunSpeed;
      const tx: Lane = rollTorque - (qm * hz - rm * hy);
      const ty: Lane = pitchTorque - (rm * hx - pm * hz);
      const tz: Lane = -motorConstant * spunCurrent - (pm * hy - qm * hx);
      halfP = halfStep * (wxx * tx + wxy * ty + wxz * tz);
      halfQ = halfStep * (wxy * tx + wyy * ty + wyz * tz);
      halfR = halfStep * (wxz * tx + wyz * ty + wzz * tz);
      p += halfP + halfP;
      q += halfQ + halfQ;
      r += halfR + halfR;
    }
  }

  state[m.BODY_RATE] = p;
  state[m.BODY_RATE + 1] = q;
  state[m.BODY_RATE + 2] = r;
  state[m.HALF_TURN] = halfP;
  state[m.HALF_TURN + 1] = halfQ;
  state[m.HALF_TURN + 2] = halfR;
  state[m.TORQUE_SCALE] = scale;
  state[m.HEAT] = heat;
  state[m.LIMITED] = limited;
  state[m.COMMAND_SUM] = commandSum;
  state[m.COMMAND_SQUARES] = commandSquares;
}
