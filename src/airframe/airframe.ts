// One version of one craft as physics: what the kernel, the theory and the plan work from. SI throughout.
// Axes: x forward, y to the left, z up, right-handed; positions from the origin the model file chose.
import type { Spread } from "../base/spread.js";

export type Vector3 = readonly [number, number, number];

/** Symmetric inertia matrix about the centre of mass, kg m^2, as matrix entries (products carry their sign). */
export interface Inertia {
  readonly xx: number;
  readonly yy: number;
  readonly zz: number;
  readonly xy: number;
  readonly xz: number;
  readonly yz: number;
}

export interface Rotor {
  /** m, from the model's origin. */
  readonly at: Vector3;
  /** +1 counter-clockwise seen from above, -1 clockwise. */
  readonly spin: 1 | -1;
}

export interface Propeller {
  readonly diameter: number; // m
  readonly blades: number;
  /** Static thrust coefficient, T = ct rho n^2 D^4. */
  readonly ct: number;
  /** Static power coefficient, P = cp rho n^3 D^5. */
  readonly cp: number;
  /** Change of cp per unit of advance ratio, from the model's table. */
  readonly cpSlope: number;
  /** Advance ratio at which thrust vanishes. */
  readonly zeroThrustAdvance: number;
  readonly inertia: number; // kg m^2, about the shaft
}

export interface Motor {
  /** Kt = Ke = 60/(2 pi KV), N m/A or V s/rad. */
  readonly constant: number;
  readonly resistance: number; // ohm, winding and speed controller
  readonly noLoadCurrent: number; // A
  readonly bellInertia: number; // kg m^2
}

export interface Pack {
  readonly cells: number;
  readonly capacity: number; // C (ampere-seconds)
  readonly resistance: number; // ohm, whole pack with leads
  /** Open-circuit voltage per cell against charge (0 to 1, rising): [charge, V]. */
  readonly openCircuit: readonly (readonly [number, number])[];
}

/** One low-pass stage: bilinear with pre-warped corner; order 2 is Butterworth. */
export interface LowPass {
  readonly order: 1 | 2;
  readonly cutoff: number; // Hz
}

/** One band-stop stage: nothing passes at its centre, half the power at both ends of its width. */
export interface Notch {
  readonly centre: number; // Hz
  /** Hz, from one -3 dB point to the other. */
  readonly width: number;
}

export type FilterStage = LowPass | Notch;

/** A low-pass whose corner goes with throttle: rising throttles, straight lines between them, flat outside. */
export interface ScheduledLowPass {
  readonly order: 1 | 2;
  readonly corners: readonly {
    readonly throttle: number; // collective duty, fraction
    readonly cutoff: number; // Hz
  }[];
}

/** A notch on a multiple of the rotors' mean speed. */
export interface TrackingNotch {
  readonly harmonic: number;
  /** From one -3 dB point to the other, as a share of where its centre stands. */
  readonly width: number;
  /** Hz: the centre comes no lower, however slowly rotors turn. */
  readonly lowest: number;
}

export type MovingStage = ScheduledLowPass | TrackingNotch;

/** A vibration line at a multiple of rotor speed; amplitude grows with speed squared. */
export interface VibrationLine {
  readonly harmonic: number;
  readonly atHover: number; // rad/s of measured rate, per rotor at hover speed
}

export interface Sensing {
  /** One-sided white noise density of the measured rate, (rad/s)/sqrt(Hz). */
  readonly noiseDensity: number;
  readonly lowPass: readonly LowPass[];
  /** In the same chain; left out where the model has none. */
  readonly notch?: readonly Notch[];
  /** Behind both; left out where the model has none, as the next. */
  readonly lowPassSchedule?: readonly ScheduledLowPass[];
  readonly trackingNotch?: readonly TrackingNotch[];
  readonly vibration: readonly VibrationLine[];
}

export interface AxisGains {
  /** Fraction of full command per (rad/s). */
  readonly p: number;
  /** Fraction per rad. */
  readonly i: number;
  /** Fraction per (rad/s^2), on the measured rate. */
  readonly d: number;
}

/** Gains of a swept axis as the model declares them: what holds it while the other axis is swept; null: not declared. */
export interface DeclaredGains {
  readonly p: number | null; // fraction per (rad/s)
  readonly i: number; // fraction per rad
  readonly d: number | null; // fraction per (rad/s^2)
}

/** What P, I and D of all axes are multiplied by at a throttle. */
export interface GainFactors {
  readonly p: number;
  readonly i: number;
  readonly d: number;
}

export interface ScheduledGains extends GainFactors {
  readonly throttle: number; // collective duty, fraction
}

/** What an axis is commanded without waiting for an error. */
export interface FeedForward {
  /** Of the commanded rate, fraction per (rad/s). */
  readonly rate: number;
  /** Of its slope, fraction per (rad/s^2). */
  readonly slope: number;
}

/** Duties are multiplied by the nominal voltage over the pack's, behind a low-pass of order 1. */
export interface PackCompensation {
  readonly nominal: number; // V, of the whole pack
  readonly cutoff: number; // Hz
}

/** Of a table from a rotor's command to its duty, fractions. */
export interface DutyRow {
  readonly command: number;
  readonly duty: number;
}

/** How many units of the controller's own setting make one SI gain; null where the model declares none. */
export interface ControllerScale {
  readonly p: number; // fraction per (rad/s), of one unit
  readonly i?: number; // fraction per rad, of one unit
  readonly d: number; // fraction per (rad/s^2), of one unit
  readonly yaw?: { readonly p: number; readonly i?: number };
}

export interface Controller {
  readonly rate: number; // Hz
  readonly latency: number; // s
  readonly idle: number; // lowest duty, fraction
  /** Physics steps per control period; null: as many as a plan finds needed. */
  readonly substeps: number | null;
  readonly derivativeFilter: readonly LowPass[];
  /** In the same chain; left out where the model has none. */
  readonly derivativeNotch?: readonly Notch[];
  /** Behind both; left out where the model has none, as the next. */
  readonly derivativeFilterSchedule?: readonly ScheduledLowPass[];
  readonly derivativeTrackingNotch?: readonly TrackingNotch[];
  /** Largest integral share of a command, fraction. */
  readonly integralLimit: number;
  readonly roll: DeclaredGains;
  readonly pitch: DeclaredGains;
  readonly yaw: AxisGains;
  readonly scale: ControllerScale | null;
  /** What commanded rates pass first; left out where they act as they come. */
  readonly commandLowPass?: readonly LowPass[];
  readonly feedForward?: Readonly<Record<"roll" | "pitch" | "yaw", FeedForward>>;
  readonly packCompensation?: PackCompensation;
  /** Rising commands and duties, from no command to full: straight lines between them; left out where a duty is its command. */
  readonly dutyTable?: readonly DutyRow[];
  /** Rising throttles: straight lines between them, flat outside; left out where gains stay the same. */
  readonly gainSchedule?: readonly ScheduledGains[];
}

/** The rotors' own wake in descent; rms and loss are shares of mean thrust at the worst descent ratio. */
export interface Wash {
  readonly rms: number;
  readonly loss: number;
  /** Rotor revolutions per burst: the corner of the fluctuation is rotor speed / revolutions. */
  readonly revolutions: number;
  /** Correlation between rotors, 0 to 1. */
  readonly correlation: number;
}

/** Of two numbers' scores: of the numbers themselves where they are normal, of their logarithms where they are log-normal. */
export interface Correlation {
  /** As `Spread.key`. */
  readonly one: string;
  readonly other: string;
  /** -1 to 1. */
  readonly correlation: number;
}

export interface Airframe {
  readonly name: string;
  readonly version: string;
  readonly title: string;
  readonly mass: number; // kg
  /** m, from the model's origin. */
  readonly centreOfMass: Vector3;
  readonly inertia: Inertia;
  readonly rotors: readonly Rotor[];
  readonly propeller: Propeller;
  readonly motor: Motor;
  readonly pack: Pack;
  readonly sensing: Sensing;
  readonly controller: Controller;
  readonly wash: Wash;
  /** What the file left out and was assumed, one readable line each ("wash.rms: 12 %"). */
  readonly defaulted: readonly string[];
  /** How far its numbers may be off; only where any of them says so. */
  readonly spreads?: readonly Spread[];
  /** Which of them go together, as declared; only where any do. Every other pair: 0. */
  readonly correlations?: readonly Correlation[];
  /** Keys set anew without a file of its own ("pack.cells=6"), as its version says too; only where any were. */
  readonly changed?: readonly string[];
}

/** Physics steps per control period; one where neither the model nor a plan has a say. */
export const substepsOf = ({ controller }: Airframe): number => controller.substeps ?? 1;
