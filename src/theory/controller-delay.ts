// How late the controller answers a slow swing: what its filters and its latency cost, as one time.
import type { Airframe } from "../airframe/airframe.js";
import type { WorkingPoint } from "../airframe/moving-filter.js";
import { atan2 } from "../base/arctangent.js";
import { numberAt } from "../base/at.js";
import { cos, sin } from "../base/elementary.js";
import { controllerPieces } from "./controller.js";
import type { ComplexArray } from "./frequency.js";

/** s, of P's share of the command and of D's; negative where filters run ahead. */
export interface ControllerDelay {
  readonly p: number;
  readonly d: number;
}

/** Phase over angular frequency at `frequency` (Hz) and a working point, latency included. */
export function controllerDelay(airframe: Airframe, point: WorkingPoint, frequency: number): ControllerDelay {
  const w = 2 * Math.PI * frequency;
  const { p, d } = controllerPieces(airframe, point, Float64Array.of(w));
  const { latency } = airframe.controller;
  // A slope runs a quarter of a turn ahead of what it is the slope of.
  return { p: lag(p, 0) / w + latency, d: lag(d, Math.PI / 2) / w + latency };
}

/** rad by which a response lags what runs `ahead` of the rate. */
function lag({ re, im }: ComplexArray, ahead: number): number {
  const [c, s] = [cos(ahead), sin(ahead)];
  const [x, y] = [numberAt(re, 0), numberAt(im, 0)];
  const turned = -atan2(y * c - x * s, x * c + y * s);
  return turned < -Math.PI / 2 ? turned + 2 * Math.PI : turned;
}
