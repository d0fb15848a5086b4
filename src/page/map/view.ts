// What the maps show at the moment.
import type { MeasureId } from "../../base/measures.js";
import type { Axis } from "../../words/axes.js";
import type { PageMapAxis } from "../page-map.js";
import type { Level } from "../simulator.js";

export type Shown = "verdict" | MeasureId;

/** All scripts and levels together, or one level's own map. */
export interface View {
  readonly shown: Shown;
  /** An axis that is still being simulated is missing. */
  readonly axes: Readonly<Partial<Record<Axis, PageMapAxis>>>;
  /** Null: every script, throttle and pack together. */
  readonly level: Level | null;
}
