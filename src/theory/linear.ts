// Rotors and body about a trim, linear: rotor speeds and body rates against the rotors' duties.
// The same equations as the loop integrates, differentiated by hand.
import { Matrix } from "ml-matrix";
import type { Craft } from "../airframe/craft.js";
import { invertInertia } from "../airframe/inertia.js";
import type { Trim } from "../airframe/powered.js";

/** x' = A x + B u. States: one speed per rotor (rad/s), then roll, pitch and yaw rate (rad/s). Inputs: duties. */
export interface LinearPlant {
  readonly a: Matrix;
  readonly b: Matrix;
}

/** The craft's linear model at a trim without climb or body rates. */
export function linearPlant(craft: Craft, trim: Trim): LinearPlant {
  const rotors = craft.arms.length;
  const { speeds, air, reaction } = slopesAt(craft, trim);
  const a = Matrix.zeros(rotors + 3, rotors + 3);
  a.setSubMatrix(speeds.byState, 0, 0).setSubMatrix(Matrix.add(air, reaction.byState), rotors, 0);
  const b = Matrix.zeros(rotors + 3, rotors);
  b.setSubMatrix(speeds.byDuty, 0, 0).setSubMatrix(reaction.byDuty, rotors, 0);
  return { a, b };
}

/** Accelerations, rad/s^2, against the states and duties, by what causes them. */
export interface PlantSlopes {
  /** Of the rotors. */
  readonly speeds: Slopes;
  /** Of the body by thrust and the rotors' angular momentum, which no duty moves at once. */
  readonly air: Matrix;
  /** Of the body by the motors' torque on their rotors. */
  readonly reaction: Slopes;
}

export function slopesAt(craft: Craft, trim: Trim): PlantSlopes {
  const currents = currentSlopes(craft, trim);
  const mobility = mobilityMatrix(craft);
  const motors = reactionSlopes(craft, currents);
  return {
    speeds: speedSlopes(craft, trim, currents),
    air: mobility.mmul(airTorques(craft, trim)),
    reaction: { byState: mobility.mmul(motors.byState), byDuty: mobility.mmul(motors.byDuty) },
  };
}

interface Slopes {
  readonly byState: Matrix;
  readonly byDuty: Matrix;
}

interface CurrentSlopes {
  readonly bySpeed: Matrix;
  readonly byDuty: Matrix;
}

/** Motor currents (A): i = (u V - K w)/R, and through the pack's voltage V every rotor feels every other. */
function currentSlopes(craft: Craft, trim: Trim): CurrentSlopes {
  const { motor, pack } = craft.airframe;
  const { duties, speeds, volts } = trim;
  const ratio = pack.resistance / motor.resistance;
  const sag = 1 / (1 + ratio * duties.reduce((sum, u) => sum + u * u, 0));
  const own = (i: number, j: number) => (i === j ? 1 : 0);
  const table = (entry: (i: number, j: number) => number) =>
    new Matrix(duties.map((_, i) => duties.map((_, j) => entry(i, j) / motor.resistance)));
  return {
    bySpeed: table((i, j) => duties[i] * (sag * ratio * motor.constant * duties[j]) - own(i, j) * motor.constant),
    byDuty: table(
      (i, j) => own(i, j) * volts + duties[i] * (sag * ratio * (motor.constant * speeds[j] - 2 * duties[j] * volts)),
    ),
  };
}

/** Rotor accelerations, rad/s^2: motor torque less the load, which changes with speed and with inflow. */
function speedSlopes(craft: Craft, trim: Trim, currents: CurrentSlopes): Slopes {
  const { rotorInertia, torqueStatic, torqueInflow, arms } = craft;
  const perCurrent = craft.airframe.motor.constant / rotorInertia;
  const byState = Matrix.zeros(arms.length, arms.length + 3);
  byState.setSubMatrix(Matrix.mul(currents.bySpeed, perCurrent), 0, 0);
  trim.speeds.forEach((speed, i) => {
    byState.set(i, i, byState.get(i, i) - (2 * torqueStatic * speed) / rotorInertia);
    setInflow(byState, i, arms, (-torqueInflow * speed) / rotorInertia);
  });
  return { byState, byDuty: Matrix.mul(currents.byDuty, perCurrent) };
}

/** Puts into row `i` the slope per m/s of inflow times the inflow that roll and pitch rates bring to rotor `i`. */
function setInflow(to: Matrix, i: number, arms: Craft["arms"], slope: number): void {
  const [x, y] = arms[i];
  to.set(i, arms.length, slope * y).set(i, arms.length + 1, -slope * x);
}

/** Torques on the body, N m: thrust at the arms, and the rotors' angular momentum. */
function airTorques(craft: Craft, trim: Trim): Matrix {
  const { arms, spins } = craft;
  const byState = Matrix.zeros(3, arms.length + 3);
  const levers = new Matrix([arms.map(([, y]) => y), arms.map(([x]) => -x)]);
  byState.setSubMatrix(levers.mmul(thrustSlopes(craft, trim)), 0, 0);
  const momentum = craft.rotorInertia * trim.speeds.reduce((sum, speed, i) => sum + spins[i] * speed, 0);
  byState.set(0, arms.length + 1, byState.get(0, arms.length + 1) - momentum);
  byState.set(1, arms.length, byState.get(1, arms.length) + momentum);
  return byState;
}

/** The motors turn their rotors one way and the body the other, N m. */
function reactionSlopes({ arms, spins, airframe }: Craft, currents: CurrentSlopes): Slopes {
  const reaction = new Matrix([spins.map((spin) => -spin * airframe.motor.constant)]);
  const byState = Matrix.zeros(3, arms.length + 3);
  byState.setSubMatrix(reaction.mmul(currents.bySpeed), 2, 0);
  const byDuty = Matrix.zeros(3, arms.length);
  byDuty.setSubMatrix(reaction.mmul(currents.byDuty), 2, 0);
  return { byState, byDuty };
}

/** Thrust of each rotor, N, against the states: its own speed, and the inflow from roll and pitch rate. */
function thrustSlopes(craft: Craft, trim: Trim): Matrix {
  const thrusts = Matrix.zeros(craft.arms.length, craft.arms.length + 3);
  trim.speeds.forEach((speed, i) => {
    thrusts.set(i, i, 2 * craft.thrustStatic * speed);
    setInflow(thrusts, i, craft.arms, -craft.thrustInflow * speed);
  });
  return thrusts;
}

function mobilityMatrix(craft: Craft): Matrix {
  const { xx, yy, zz, xy, xz, yz } = invertInertia(craft.inertia);
  return new Matrix([
    [xx, xy, xz],
    [xy, yy, yz],
    [xz, yz, zz],
  ]);
}
