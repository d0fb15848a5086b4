// The one catalogue of script kinds: what each is judged for, what it asks of a script file, what of it the ladder and the
// report show. The compiler asks for a new kind's reader and words; where a kind is compared by name it cannot: DEVELOPERS.md says where.
import type { MeasureId } from "./measures.js";

/** How a kind takes part in the planned climb. */
interface OnLadder {
  /** The measure that tells the kind's scripts apart: the ladder takes the one that shows most. */
  readonly deciding: MeasureId;
  /** In every step of the ladder, or only to check the finished tune. */
  readonly everyStep: boolean;
  /** Title of the step that checks the finished tune by it, and what its picture is called. */
  readonly title: string;
  readonly pictured: string;
  /** What its picture draws: the rate, the angle off the commanded course, or that angle about its straight drift. */
  readonly draws: "rate" | "angle" | "angle about its drift";
}

interface ScriptKindRow {
  /** What the window is judged for: reference tables and messages read it. */
  readonly shows: string;
  /** What the window answers; the tail answers the same for every kind. */
  readonly measures: readonly MeasureId[];
  /** A commanded rate it cannot do without: one that ends, or one that ends as the window begins. */
  readonly command: "ends" | "ends at the window" | null;
  /** Still air, silent sensor, small angles: the sign of the growth alone decides. */
  readonly smallSignal: boolean;
  /** Whether motor heat and commands are summed as well: it takes time. */
  readonly effort: boolean;
  /** Null: no pilot is asked to fly it. A script with gusts is left out whatever stands here: nobody can order a gust. */
  readonly ladder: OnLadder | null;
}

// In the order in which one stands in for another where a figure can show a single kind.
const ROWS = {
  nudge: {
    shows: "a small kick in still air with a quiet sensor: the small-signal loop",
    measures: ["ringFrequency"],
    command: "ends",
    smallSignal: true,
    effort: false,
    ladder: null,
  },
  stop: {
    shows: "a commanded rate that ends: bounce-back, settling, rebounds",
    measures: ["overshoot", "settling", "rebounds", "ringFrequency", "damping", "rise"],
    command: "ends at the window",
    smallSignal: false,
    effort: false,
    ladder: { deciding: "overshoot", everyStep: true, title: "Stops", pictured: "stop", draws: "rate" },
  },
  blip: {
    shows: "throttle up and back: attitude kick and recovery",
    measures: ["kick", "recovery"],
    command: null,
    smallSignal: false,
    effort: false,
    ladder: { deciding: "kick", everyStep: false, title: "Throttle", pictured: "throttle", draws: "angle" },
  },
  wobble: {
    shows: "disturbed air: angle and frequency of the wobble",
    measures: ["wobbleAngle", "wobbleFrequency"],
    command: null,
    smallSignal: false,
    effort: false,
    ladder: {
      deciding: "wobbleAngle",
      everyStep: true,
      title: "Prop wash",
      pictured: "wobble",
      draws: "angle about its drift",
    },
  },
  hover: {
    shows: "nothing but noise: heat and command noise",
    measures: ["heat", "commandNoise"],
    command: null,
    smallSignal: false,
    effort: true,
    ladder: null,
  },
} as const satisfies Readonly<Record<string, ScriptKindRow>>;

export type ScriptKind = keyof typeof ROWS;
/** The kinds a pilot is asked to fly. */
export type LadderKind = { [K in ScriptKind]: (typeof ROWS)[K]["ladder"] extends null ? never : K }[ScriptKind];

export const SCRIPT_KINDS: Readonly<Record<ScriptKind, ScriptKindRow>> = Object.freeze(ROWS);
export const KIND_IDS = Object.freeze(Object.keys(ROWS) as ScriptKind[]);

const isOnLadder = (kind: ScriptKind): kind is LadderKind => SCRIPT_KINDS[kind].ladder !== null;

/** The kinds a pilot is asked to fly: those of every step first, in the order in which a tune is checked. */
export const LADDER_KINDS: readonly LadderKind[] = Object.freeze(
  KIND_IDS.filter(isOnLadder).sort((a, b) => +ladderRow(b).everyStep - +ladderRow(a).everyStep),
);

export function ladderRow(kind: LadderKind): OnLadder {
  return ROWS[kind].ladder;
}
