// The numbers of a model that a log shows by itself: the gyro's noise, the rotors' lines, the size of the wash.
import type { Airframe } from "../airframe/airframe.js";
import type { FlightLog } from "../flight/log.js";
import type { ReadNumber } from "./read-number.js";
import { sensorNumbers } from "./sensor-noise.js";
import { washNumbers } from "./wash-size.js";

/** One entry per number, by its key in the model, shown or not. */
export const readNumbers = (log: FlightLog, airframe: Airframe): ReadNumber[] => [
  ...sensorNumbers(log, airframe),
  ...washNumbers(log, airframe),
];
