// The gains that hold the axis not under test, and the assumptions to report. Theory checks them, with I in the loop, at
// every throttle level under every condition.

import type { Airframe, AxisGains } from "../airframe/airframe.js";
import { at } from "../base/at.js";
import { D_UNIT, P_UNIT, quantityText } from "../base/units.js";
import type { Axis } from "../sweep/sweep.js";
import type { LoopPieces } from "../theory/pieces.js";
import type { AxisName, GainsByAxis } from "../theory/plant.js";
import { chooseHold, chooseP, type Hold, nearestP } from "./choose-hold.js";
import type { PlanFault } from "./fault.js";
import type { Place } from "./places.js";
import { MARGINS_TEXT, roomOf } from "./room.js";
import type { SoftHold } from "./soft-hold.js";

export interface HoldingGains {
  readonly holding: Readonly<Record<Axis, AxisGains>>;
  /** What was assumed about them, a readable line each. */
  readonly assumed: readonly string[];
}

/** Holding gains of both axes, or faults for gains of the model that do not stabilise their axis. */
export function holdingGains(
  airframe: Airframe,
  places: readonly Place[],
  soft: Readonly<Record<Axis, SoftHold>>,
): HoldingGains | readonly PlanFault[] {
  const yaw = yawFaults(airframe, places);
  if (yaw.length > 0) return yaw;
  const roll = holdOf(airframe, places, soft.roll, "roll");
  const pitch = holdOf(airframe, places, soft.pitch, "pitch");
  if ("message" in roll || "message" in pitch) return [roll, pitch].filter((one) => "message" in one);
  return {
    holding: { roll: roll.gains, pitch: pitch.gains },
    assumed: [
      mainLine(airframe, { roll, pitch }, soft),
      ...restOf(airframe, "roll", roll),
      ...restOf(airframe, "pitch", pitch),
    ],
  };
}

const NONE: AxisGains = Object.freeze({ p: 0, i: 0, d: 0 });

/** The loop of an axis in every place while the other one is under test, its loop open, and yaw closed. */
const loopsOf = (places: readonly Place[], axis: AxisName, yaw: AxisGains): LoopPieces[] => {
  const holding: GainsByAxis = { roll: NONE, pitch: NONE, yaw };
  return places.map(({ loop }) => loop(axis, holding));
};

function yawFaults(airframe: Airframe, places: readonly Place[]): PlanFault[] {
  const { yaw } = airframe.controller;
  const loops = loopsOf(places, "yaw", yaw);
  const message = unstableWords("yaw", loops, places, yaw, false);
  return message === null ? [] : [modelFault("yaw", "p", message)];
}

function holdOf(airframe: Airframe, places: readonly Place[], soft: SoftHold, axis: Axis): Hold | PlanFault {
  const { yaw, [axis]: declared } = airframe.controller;
  const loops = loopsOf(places, axis, yaw);
  const { p, i, d } = declared;
  if (p !== null) {
    const gains = { p, i, d: d ?? 0 };
    const message = unstableWords(axis, loops, places, gains, true);
    return message === null ? { gains, room: roomOf(loops, gains) } : modelFault(axis, "p", message);
  }
  const hold = d === null ? chooseHold(loops, soft, i) : chooseP(loops, i, d);
  if (hold.room > 0) return hold;
  const message = `no P holds ${axis} ${d === null ? "" : `with D ${quantityText(d, "dGain")} and I ${quantityText(i, "iGain")} `}while the other axis is under test; ${d === null ? "look at its filters and latency" : "leave d out, and it is chosen"}`;
  return modelFault(axis, d === null ? "i" : "d", message);
}

const modelFault = (axis: AxisName, gain: "p" | "i" | "d", message: string): PlanFault => ({
  file: "model",
  path: ["controller", "gains", axis, gain],
  message,
});

/** What is wrong with gains that do not hold an axis everywhere, and which P would; null where they do. */
function unstableWords(
  axis: AxisName,
  loops: readonly LoopPieces[],
  places: readonly Place[],
  gains: AxisGains,
  optional: boolean,
): string | null {
  const unstable = places.filter((_, place) => roomOf([at(loops, place)], gains) === 0);
  const [first, ...others] = unstable;
  if (first === undefined) return null;
  const { gains: found, room } = nearestP(loops, gains);
  const where = `${first.words}${others.length === 0 ? "" : ` (and ${others.length} more)`}`;
  const hint = room > 0 ? `try "p: ${quantityText(found.p, "pGain")}"` : "no P holds it with this I: lower i";
  const left = optional ? `, or leave p${gains.d === 0 ? "" : " and d"} out` : "";
  return `with P ${quantityText(gains.p, "pGain")} and I ${quantityText(gains.i, "iGain")} ${axis} is unstable ${where}; ${hint}${left}`;
}

type Holds = Readonly<Record<Axis, Hold>>;

function mainLine({ controller }: Airframe, holds: Holds, soft: Readonly<Record<Axis, SoftHold>>): string {
  const how = (["roll", "pitch"] as const).some((axis) => controller[axis].p !== null)
    ? ""
    : holds.roll.gains.p === soft.roll.p && holds.pitch.gains.p === soft.pitch.p
      ? " weakly on purpose"
      : ` as weakly as its I and ${MARGINS_TEXT} of margin allow`;
  const gainsText = ({ gains }: Hold) =>
    `P ${(gains.p / P_UNIT).toPrecision(3)} %/(100 deg/s)${gains.d === 0 ? "" : ` and D ${(gains.d / D_UNIT).toPrecision(2)} %/(1000 deg/s^2)`}`;
  return `While one axis is swept the other is held${how}: roll at ${gainsText(holds.roll)}, pitch at ${gainsText(holds.pitch)}.`;
}

function restOf({ controller }: Airframe, axis: Axis, { gains, room }: Hold): string[] {
  const { p, i } = controller[axis];
  const lines: string[] = [];
  if (gains.i < i)
    lines.push(
      `No P and D hold ${axis} with its I of ${quantityText(i, "iGain")}: it is held with I ${quantityText(gains.i, "iGain")} while the other axis is swept.`,
    );
  if (room < 1)
    lines.push(
      `${p === null ? `No hold of ${axis} leaves ${MARGINS_TEXT}: this one leaves` : `The model's own hold of ${axis} leaves`} ${Math.floor(100 * room)} % of ${p === null ? "that" : MARGINS_TEXT} in the worst condition.`,
    );
  return lines;
}
