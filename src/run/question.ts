// What a variant asks of each of its trials.
import { at } from "../base/at.js";
import { SCRIPT_KINDS } from "../base/script-kinds.js";
import type { Rig } from "../kernel/rig.js";
import type { TrialVariant } from "../plan/plan.js";
import type { Question } from "../response/answer.js";

export function questionOf(variant: TrialVariant, rig: Rig): Question {
  const { script } = variant;
  const { steps } = rig;
  const span = ({ from, to }: { from: number; to: number }) => ({
    from: Math.min(steps - 2, Math.round(from / rig.period)),
    to: Math.min(steps, Math.round(to / rig.period)),
  });
  const window = span(script.window);
  const { command } = rig.drive;
  return {
    kind: script.kind,
    period: rig.period,
    command,
    window: { ...window, effort: SCRIPT_KINDS[script.kind].effort },
    tail: span(script.tail),
    stop: SCRIPT_KINDS[script.kind].command === "ends at the window" ? stopOf(command, window.from) : null,
    restHeat: rig.drive.restHeat.subarray(window.from, window.to).reduce((sum, heat) => sum + heat, 0),
  };
}

/** The level held before the window, and the last instant at which it was still commanded. */
function stopOf(command: Float64Array, windowFrom: number): { from: number; level: number } | null {
  let level = 0;
  for (let k = 0; k < windowFrom; k++) if (Math.abs(at(command, k)) >= Math.abs(level)) level = at(command, k);
  for (let k = windowFrom; k >= 0; k--)
    if (level !== 0 && Math.abs(at(command, k)) >= 0.999 * Math.abs(level)) return { from: k, level };
  return null;
}
