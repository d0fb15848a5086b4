import type { Airframe, AxisGains } from "../../src/airframe/airframe.js";

/** Points (s, value) joined by straight lines; before the first one 0. */
export type Line = readonly (readonly [time: number, value: number])[];

export interface SimulatedFlight {
  readonly seconds: number;
  /** SI; yaw's are the model's where they are left out. */
  readonly gains: { readonly roll: AxisGains; readonly pitch: AxisGains; readonly yaw?: AxisGains };
  /** rad/s */
  readonly command?: { readonly roll?: Line; readonly pitch?: Line; readonly yaw?: Line };
  /** Duty beside that of hover. */
  readonly throttle?: Line;
  /** Descent over the hover's induced velocity. */
  readonly descent?: Line;
  /** Whether the sensor is noisy and shaken; true where it is left out. */
  readonly noise?: boolean;
  readonly seed?: number;
  /** Share of the pack; 1 where it is left out. */
  readonly charge?: number;
  /** Control periods from row to row; 1 where it is left out. */
  readonly every?: number;
}

export interface SimulatedLog {
  readonly time: Float64Array; // s
  /** Roll, pitch, yaw; rad/s. */
  readonly rate: readonly [Float64Array, Float64Array, Float64Array];
  readonly command: readonly [Float64Array, Float64Array, Float64Array];
  readonly duty: readonly Float64Array[];
  readonly throttle: Float64Array;
  readonly voltage: Float64Array; // V
  readonly rotorSpeed: readonly Float64Array[]; // rad/s
}

/** What a craft would have logged on such a flight, by the kernel of `dist`. */
export function simulateLog(airframe: Airframe, flight: SimulatedFlight): SimulatedLog;
