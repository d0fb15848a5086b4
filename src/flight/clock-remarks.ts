// Remarks on the clock of a log, and on how often it was written.
import { figures, quantityText } from "../base/units.js";
import type { LogFacts } from "./facts.js";
import type { Remark } from "./log.js";
import { counted } from "./tally.js";

/** Steps that differ from the median by less than this share are common for a log. */
const STEADY = 0.1;

export function clockRemarks({ file, declaration, airframe, rows, clock }: LogFacts): Remark[] {
  const { same, astray, back, gaps, step } = clock;
  const { name } = declaration.time;
  const remarks: Remark[] = [];
  const put = (row: number | null, text: string): void => {
    const line = row === null ? null : rows.line(row);
    remarks.push({ file, row: line, column: name, text });
  };
  if (same.count > 0) {
    const twice = repeated(rows.channels, same.first) ? "the first is the row above once more" : "with other values";
    put(same.first, `${counted(same.count, "row")} at the time of the row above (${twice}): left out`);
  }
  if (astray.count > 0)
    put(astray.first, `${counted(astray.count, "row")} at a time that does not fit those around: left out`);
  if (back.count > 0)
    put(
      back.first,
      `the clock jumps back ${counted(back.count, "time")}, here by ${quantityText(clock.backBy, "duration")}: what follows is set right behind and never joined to what was before`,
    );
  if (gaps.count > 0)
    put(
      gaps.first,
      `${counted(gaps.count, "gap")} of ${quantityText(clock.gapTime, "duration")} in all, the longest ${quantityText(clock.longestGap, "duration")}: the log is cut there`,
    );
  const [low, high] = clock.jitter;
  if (high - step > STEADY * step || step - low > STEADY * step)
    put(
      null,
      `time stamps jitter: 90 of 100 steps last ${figures(1000 * low)} to ${figures(1000 * high)} ms, the median ${figures(1000 * step)} ms`,
    );
  const rate = 1 / step;
  if (rate < 0.95 * airframe.controller.rate)
    put(
      null,
      `${figures(rate)} rows a second, the loop runs at ${figures(airframe.controller.rate)} Hz: what is above ${figures(rate / 2)} Hz appears folded to below, so what one unit of D is worth stays wide`,
    );
  return remarks;
}

/** Whether a row holds the numbers of the one above it. */
const repeated = (channels: readonly Float64Array[], row: number): boolean =>
  channels.every((channel) => Object.is(channel[row], channel[row - 1]));
