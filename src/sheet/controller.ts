// What a controller has besides fixed gains and fixed filters, and what each does in hover.
import type { Airframe } from "../airframe/airframe.js";
import { dutyByTable, dutySlope, packFactor } from "../airframe/duty.js";
import { stageDelay } from "../airframe/filter.js";
import { gainFactorsAt } from "../airframe/gain-schedule.js";
import type { Trim } from "../airframe/powered.js";
import { figures, quantityText } from "../base/units.js";
import type { SheetFeature } from "./format.js";

export function featuresOf(airframe: Airframe, hover: Trim): SheetFeature[] {
  const { gainSchedule, commandLowPass = [], packCompensation, dutyTable, rate } = airframe.controller;
  const { p, i, d } = gainFactorsAt(airframe, hover.throttle);
  const percent = (share: number) => `${figures(100 * share)} %`;
  const some = (given: unknown, feature: SheetFeature): SheetFeature[] => (given === undefined ? [] : [feature]);
  return [
    ...some(gainSchedule, {
      key: "controller.gain_schedule",
      title: "gains over throttle",
      inHover: `P × ${figures(p)}, I × ${figures(i)}, D × ${figures(d)}`,
    }),
    ...commandLowPass.map((stage, at) => ({
      key: `controller.command_low_pass[${at}]`,
      title: `low-pass of commands, ${figures(stage.cutoff)} Hz, order ${stage.order}`,
      inHover: `commands ${figures(1000 * stageDelay(stage, rate))} ms later, the loop none`,
    })),
    ...feedForwardOf(airframe),
    ...some(packCompensation, {
      key: "controller.pack_compensation",
      title: "pack made up for",
      inHover: `duties × ${figures(packFactor(airframe.controller, hover.volts))} on a fresh pack`,
    }),
    ...some(dutyTable, {
      key: "controller.duty_table",
      title: "table of duties",
      inHover: `${percent(hover.throttle)} throttle is ${percent(dutyByTable(airframe.controller, hover.throttle))} duty, slope ${figures(dutySlope({ controller: withoutPack(airframe) }, hover.throttle, hover.volts))}`,
    }),
  ];
}

const withoutPack = ({ controller: { packCompensation: _, ...controller } }: Airframe) => controller;

function feedForwardOf({ controller: { feedForward } }: Airframe): SheetFeature[] {
  if (feedForward === undefined) return [];
  const axes = (["roll", "pitch", "yaw"] as const).map((axis) => {
    const { rate, slope } = feedForward[axis];
    return `${axis} ${quantityText(rate, "pGain")} and ${quantityText(slope, "dGain")}`;
  });
  return [{ key: "controller.feed_forward", title: "feed-forward of rate and slope", inHover: axes.join(", ") }];
}
