// A model's sheet: what follows from its numbers before anything is simulated. Plain data, every unit in its name; a fresh
// pack on a standard day at sea level.
import type { SpreadLaw } from "../base/spread.js";

/** Steady, at one throttle. Means over the rotors. */
export interface SheetLevel {
  readonly throttlePercent: number;
  readonly rotorSpeedRpm: number;
  /** In one motor's windings. */
  readonly motorCurrentA: number;
  /** Out of the pack, all motors together. */
  readonly packCurrentA: number;
  readonly packVoltageV: number;
  /** Time constant of a small change of rotor speed. */
  readonly motorLagMs: number;
  /** Angular acceleration that a steady command brings once the motors have followed it. */
  readonly authorityDegPerS2PerPercent: { readonly roll: number; readonly pitch: number; readonly yaw: number };
}

export interface SheetDelay {
  /** As the model file spells it. */
  readonly key: string;
  readonly title: string;
  readonly ms: number;
  /** Met by D alone, after everything that P meets. */
  readonly ofDAlone: boolean;
}

/** What a controller has besides fixed gains and fixed filters. */
export interface SheetFeature {
  /** As the model file spells it. */
  readonly key: string;
  readonly title: string;
  /** What it does in hover. */
  readonly inHover: string;
}

/** Possible, but unlikely. */
export interface SheetWarning {
  /** What to look at, as the model file spells it. */
  readonly key: string;
  readonly text: string;
}

export interface SheetSpread {
  readonly key: string;
  /** Of the number that is written; null where that is 0. About 95 of 100 such craft lie within it, all of them of a uniform one. */
  readonly plusMinusPercent: number | null;
  readonly law: SpreadLaw;
}

export interface SheetTogether {
  /** As declared, the strongest first. */
  readonly pairs: readonly { readonly one: string; readonly other: string; readonly correlation: number }[];
  /** By how much the furthest correlation differs in draws: those declared cannot all be at once; 0 where they can. */
  readonly mendedBy: number;
}

export interface Sheet {
  readonly model: { readonly name: string; readonly version: string; readonly title: string };
  readonly massKg: number;
  /** From the middle of the rotors. */
  readonly centreOfMassMm: { readonly forward: number; readonly left: number; readonly up: number };
  /** About the centre of mass. */
  readonly inertiaKgM2: { readonly xx: number; readonly yy: number; readonly zz: number };
  readonly rotorInertiaKgM2: number; // propeller and bell
  readonly figureOfMerit: number;
  readonly hover: SheetLevel;
  readonly at70Percent: SheetLevel;
  readonly fullThrottle: {
    readonly thrustN: number;
    readonly thrustToWeight: number;
    readonly rotorSpeedRpm: number;
    readonly motorCurrentA: number;
    readonly packCurrentA: number;
    readonly packVoltageV: number;
    readonly tipMach: number;
  };
  /** Every delay of the loop, in the order in which the signal meets them; the motors' lag is that in hover. */
  readonly delays: readonly SheetDelay[];
  /** Only where the controller has any. */
  readonly controller?: readonly SheetFeature[];
  readonly delaySumMs: { readonly p: number; readonly d: number };
  readonly noise: {
    readonly gyroDegPerSPerRootHz: number;
    readonly vibration: readonly {
      readonly harmonic: number;
      readonly amplitudeDegPerS: number; // in hover, per rotor
      readonly frequencyHz: number; // in hover
    }[];
  };
  readonly wash: {
    /** Shares of mean thrust in the worst descent. */
    readonly rmsPercent: number;
    readonly lossPercent: number;
    readonly revolutionsPerBurst: number;
    readonly burstsPerSecond: number; // in hover
    readonly correlationPercent: number;
  };
  /** Numbers that the file gives with a spread. */
  readonly spreads: readonly SheetSpread[];
  /** Which of them go together; only where any do. */
  readonly together?: SheetTogether;
  /** What the file left out and was assumed. */
  readonly assumed: readonly string[];
  readonly warnings: readonly SheetWarning[];
}
