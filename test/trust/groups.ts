// Every check, in the order of the documents.

import type { Group } from "./check.js";
import { AIR_AND_ROTORS } from "./checks/air-and-rotors.js";
import { BANDWIDTH } from "./checks/bandwidth.js";
import { BOUNDARIES } from "./checks/boundaries.js";
import { ESTIMATES } from "./checks/estimates.js";
import { LIMIT_CYCLES } from "./checks/limit-cycles.js";
import { FILTERS, INERTIA, MOTOR_AND_PACK, PUBLISHED_CRAFT } from "./checks/parts.js";
import { REAL_CRAFT } from "./checks/real-craft.js";
import { SHEET } from "./checks/sheet.js";
import { STEP_RESPONSE } from "./checks/step-response.js";
import { TURBULENCE } from "./checks/turbulence.js";
import { ULTIMATE_GAIN } from "./checks/ultimate-gain.js";
import { WASH } from "./checks/wash.js";

export const GROUPS: readonly Group[] = [
  BOUNDARIES,
  ULTIMATE_GAIN,
  BANDWIDTH,
  LIMIT_CYCLES,
  STEP_RESPONSE,
  TURBULENCE,
  WASH,
  AIR_AND_ROTORS,
  MOTOR_AND_PACK,
  ESTIMATES,
  INERTIA,
  FILTERS,
  PUBLISHED_CRAFT,
  SHEET,
  REAL_CRAFT,
];
