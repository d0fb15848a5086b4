// The test craft with one feature of a controller each: what the shipped models lack.
import type { Airframe } from "../../src/airframe/airframe.js";
import { stretchedX } from "../fixtures/airframe.js";

/** By a fraction of a control period: 3.6. The shipped models are late by whole ones, the random craft by any. */
export const late: Airframe = { ...stretchedX, controller: { ...stretchedX.controller, latency: 0.9e-3 } };

/** A notch in either chain. */
export const notched: Airframe = {
  ...stretchedX,
  sensing: { ...stretchedX.sensing, notch: [{ centre: 210, width: 60 }] },
  controller: { ...stretchedX.controller, derivativeNotch: [{ centre: 120, width: 30 }] },
};

/** Filters of either chain that move all through the throttle burst of the busy trial. */
export const following: Airframe = {
  ...stretchedX,
  sensing: {
    ...stretchedX.sensing,
    lowPassSchedule: [
      {
        order: 1,
        corners: [
          { throttle: 0.2, cutoff: 200 },
          { throttle: 0.6, cutoff: 500 },
        ],
      },
    ],
    trackingNotch: [{ harmonic: 1, width: 0.3, lowest: 80 }],
  },
  controller: {
    ...stretchedX.controller,
    derivativeFilterSchedule: [
      {
        order: 2,
        corners: [
          { throttle: 0.3, cutoff: 120 },
          { throttle: 0.5, cutoff: 260 },
        ],
      },
    ],
    derivativeTrackingNotch: [{ harmonic: 0.5, width: 0.4, lowest: 110 }],
  },
};

/** Gains that change all through the throttle burst of the busy trial. */
export const rescheduled: Airframe = {
  ...stretchedX,
  controller: {
    ...stretchedX.controller,
    gainSchedule: [
      { throttle: 0.2, p: 1.3, i: 0.7, d: 1.1 },
      { throttle: 0.7, p: 0.6, i: 1.5, d: 0.5 },
    ],
  },
};

/** Commands behind a low-pass, rate and slope of them fed forward. */
export const ahead: Airframe = {
  ...stretchedX,
  controller: {
    ...stretchedX.controller,
    commandLowPass: [
      { order: 1, cutoff: 60 },
      { order: 2, cutoff: 35 },
    ],
    feedForward: {
      roll: { rate: 0.004, slope: 2e-4 },
      pitch: { rate: 0.002, slope: 4e-4 },
      yaw: { rate: 0.01, slope: 0 },
    },
  },
};

/** Thrust straightened by a table. */
export const straightened: Airframe = {
  ...stretchedX,
  controller: {
    ...stretchedX.controller,
    dutyTable: [
      { command: 0, duty: 0 },
      { command: 0.1, duty: 0.28 },
      { command: 0.45, duty: 0.66 },
      { command: 1, duty: 1 },
    ],
  },
};

/** What the pack loses is made up for, quickly enough to show within a trial. */
export const madeUp: Airframe = {
  ...stretchedX,
  controller: { ...stretchedX.controller, packCompensation: { nominal: 14.2, cutoff: 5 } },
};
