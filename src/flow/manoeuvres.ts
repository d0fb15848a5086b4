// Which of a sweep's scripts the pilot flies in the climb: one of each kind, the one that shows the most.
import { at } from "../base/at.js";
import { type LadderKind, ladderRow, type ScriptKind } from "../base/script-kinds.js";
import type { Plan, Variant } from "../plan/plan.js";
import type { Axis } from "../sweep/sweep.js";
import type { TracedTrials } from "./traced-trials.js";

/** SI gains. */
interface Tune {
  readonly p: number;
  readonly d: number;
}

/** The variant, under a condition, of the script of this kind that shows the most at the tune; null where there is none. */
export function mostRevealing(
  plan: Plan,
  trials: TracedTrials,
  manoeuvre: { readonly axis: Axis; readonly condition: number; readonly kind: LadderKind },
  tune: Tune,
): Variant | null {
  const shown = (variant: Variant) =>
    trials.simulate(variant, tune.p, tune.d).measures[ladderRow(manoeuvre.kind).deciding] ?? 0;
  const candidates = nearestToHover(plan, manoeuvre).map((variant) => ({ variant, shown: shown(variant) }));
  return candidates.sort((a, b) => b.shown - a.shown)[0]?.variant ?? null;
}

/** Noise in steady flight, under a condition; null where the sweep has no such script. */
export const steadyHover = (plan: Plan, axis: Axis, condition: number): Variant | null =>
  nearestToHover(plan, { axis, condition, kind: "hover" })[0] ?? null;

/** The same script and axis under another condition. */
export const sameUnder = (plan: Plan, variant: Variant, condition: number): Variant | null =>
  nearestToHover(plan, { axis: variant.axis, condition, kind: variant.script.kind }).find(
    ({ script }) => script.name === variant.script.name,
  ) ?? null;

/** Of each script of the kind the variant nearest to hover; a gust cannot be ordered. */
function nearestToHover(
  { variants }: Plan,
  { axis, condition, kind }: { readonly axis: Axis; readonly condition: number; readonly kind: ScriptKind },
): Variant[] {
  const all = variants.filter(
    (variant) =>
      variant.axis === axis &&
      variant.condition === condition &&
      variant.script.kind === kind &&
      variant.script.gusts.length === 0,
  );
  return [...new Set(all.map(({ script }) => script.name))].map((name) => {
    const levels = all.filter(({ script }) => script.name === name);
    return (
      levels.find(({ hovering }) => hovering) ??
      at(
        levels.sort((a, b) => a.throttle - b.throttle),
        0,
      )
    );
  });
}
