// The trials of a point in the order of what is wrong with them. The verdict is the map's; this only sorts.
import { MEASURES, type Measure } from "../../base/measures.js";
import { type Limits, slack } from "../../map/verdict.js";
import type { PointTrial } from "./point-trials.js";
import type { Trial } from "./trial.js";

/** What is worst about a trial: how it ended, or the judged measure with the least room to its limit. */
export type Worst =
  | { readonly kind: "lost" | "sustained" | "at rest" | "not judged" }
  | {
      readonly kind: "beyond" | "within";
      readonly measure: Measure;
      /** Share of the limit that is left; negative beyond it. */
      readonly room: number;
    };

export interface RankedTrial extends PointTrial {
  readonly worst: Worst;
}

function worstOfTrial({ outcome, measures, absent }: Trial, limits: Limits): Worst {
  if (outcome === "diverged") return { kind: "lost" };
  if (outcome === "sustained") return { kind: "sustained" };
  if (outcome === "at rest") return { kind: "at rest" };
  const judged = MEASURES.flatMap((measure) => {
    const { id, argues } = measure;
    const shown = { value: measures[id], absent: absent[id], variant: 0 };
    const room = argues === null ? null : slack(measure, shown, limits[id]);
    return room === null ? [] : [{ measure, room, kind: room < 0 ? ("beyond" as const) : ("within" as const) }];
  });
  const [worst] = judged.sort((one, other) => gravity(one) - gravity(other) || one.room - other.room);
  return worst ?? { kind: "not judged" };
}

/** As verdicts go from worst to best. */
function gravity(worst: Worst): number {
  if (worst.kind === "beyond") return worst.measure.argues === "hot" ? 2 : 3;
  return { lost: 0, sustained: 1, within: 4, "not judged": 5, "at rest": 6 }[worst.kind];
}

/** `decider` is the index of the variant that decided the point in the map and comes first; -1: none did. */
export function worstFirst(trials: readonly PointTrial[], limits: Limits, decider: number): RankedTrial[] {
  const ranked = trials.map((one) => ({ ...one, worst: worstOfTrial(one.trial, limits) }));
  const ahead = ({ variant }: RankedTrial) => (variant.index === decider ? 0 : 1);
  return ranked.sort(
    (one, other) =>
      ahead(one) - ahead(other) ||
      gravity(one.worst) - gravity(other.worst) ||
      nearness(one) - nearness(other) ||
      one.variant.index - other.variant.index,
  );
}

/** Less is worse: the room to the limit, or of what does not die out the swing that is left. */
function nearness({ worst, trial }: RankedTrial): number {
  if ("room" in worst) return worst.room;
  return worst.kind === "sustained" ? -(trial.measures.oscillation ?? 0) : 0;
}

export const doesNotDieOut = ({ worst: { kind } }: Pick<RankedTrial, "worst">): boolean =>
  kind === "lost" || kind === "sustained";

/** How many of them end how: what does not die out, passes a limit, is left. */
export function tallyOf(ranked: readonly RankedTrial[]) {
  const sustained = ranked.filter(doesNotDieOut).length;
  const beyond = ranked.filter(({ worst: { kind } }) => kind === "beyond").length;
  return { sustained, beyond, rest: ranked.length - sustained - beyond };
}
