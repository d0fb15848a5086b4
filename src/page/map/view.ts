// What the maps show at the moment.
import type { MeasureId } from "../../base/measures.js";
import type { Axis } from "../../report/axes.js";
import type { SurveyAxis } from "../survey.js";

export type Shown = "verdict" | MeasureId;

/** Everything together, or one level's own survey. */
export interface View {
  readonly shown: Shown;
  readonly axes: Readonly<Record<Axis, SurveyAxis>>;
  /** In words; null: every script, throttle and pack together. */
  readonly level: string | null;
}
