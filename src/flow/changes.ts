// The changes of a sweep: each a model of its own, mapped beside the model as it is, on its grid, without draws and strips.

import { at } from "../base/at.js";
import { problemAt } from "../base/document.js";
import { type Problem, Problems } from "../base/problem.js";
import { D_UNIT, P_UNIT } from "../base/units.js";
import { version } from "../base/version.js";
import { byGain, type Delays, effectOf } from "../compare/effect.js";
import { EFFECTS_FORMAT, type Effect, type Effects } from "../compare/effect-format.js";
import { planOf } from "../compare/question.js";
import type { StabilityMap } from "../map/format.js";
import type { SharedPlan } from "../plan/plan.js";
import type { RequestedSweep, Sweep, SweepChange } from "../sweep/sweep.js";
import { controllerDelay } from "../theory/controller-delay.js";
import { changedModel, takesOutNothing } from "./changed-model.js";
import { sharedWith } from "./comparable-plans.js";
import { planFor } from "./plan.js";
import { type MapRequest, type RunMapOptions, runMap } from "./run-map.js";

export interface ChangeRequest {
  readonly change: SweepChange;
  /** Null: the model has nothing of what is to be taken out. */
  readonly request: MapRequest | null;
}

/** The requests of all changes, each checked before anything is simulated. InputError at the line of each that cannot be. */
export function changeRequests({ sweep, model, plan }: MapRequest): readonly ChangeRequest[] {
  const { document, value } = sweep;
  const problems = new Problems();
  const requests = (value.changes ?? []).flatMap((change, index): ChangeRequest[] => {
    const ours = ({ message, path }: Problem): Problem =>
      problemAt(document, ["changes", index, "set"], path === "" ? message : `${path}: ${message}`);
    const request = problems.attempt(() => {
      const set = change.set.filter((text) => !takesOutNothing(model, text));
      if (set.length === 0) return { change, request: null };
      return { change, request: changeRequest({ sweep, model, plan }, set, { grid: plan.sweep.grid }) };
    }, ours);
    return request === null ? [] : [request];
  });
  problems.throwIfAny();
  return requests;
}

function changeRequest({ sweep, model }: MapRequest, set: readonly string[], shared: SharedPlan): MapRequest {
  const { uncertainty: _, changes: __, strips: ___, ...value } = sweep.value;
  const own = { value: value satisfies RequestedSweep, document: sweep.document };
  const changed = changedModel(model, set);
  return { sweep: own, model: changed, plan: planFor(changed, own, shared) };
}

/** A map and what it is the map of. */
export interface ChangedMap {
  readonly effect: Effect;
  /** Null where nothing was simulated. */
  readonly map: StabilityMap | null;
}

export interface ChangedMaps {
  readonly effects: Effects;
  /** In the order of the effects. */
  readonly maps: readonly ChangedMap[];
  /** Of all changed models, cached ones included. */
  readonly trials: number;
}

const DELAY_FREQUENCY = 50; // Hz, about where such loops cross; common practice, no source

/** The map of each change, and what having the thing gains and costs, the largest gain first. */
export async function mapChanges(
  request: MapRequest,
  changes: readonly ChangeRequest[],
  asItIs: StabilityMap,
  options: RunMapOptions,
): Promise<ChangedMaps> {
  const pinned = commonTune(request.plan.sweep, asItIs);
  const found: ChangedMap[] = [];
  for (const { change, request: one } of changes) {
    if (one === null) {
      found.push({ effect: { ...change, found: null }, map: null });
      continue;
    }
    const sweep = { ...one.sweep, value: { ...one.sweep.value, pinned } };
    const plan = planFor(one.model, sweep, sharedWith(asItIs));
    const { map } = await runMap({ ...one, sweep, plan, command: asItIs.provenance.command }, options);
    found.push({ effect: effectOf(change, asItIs, map, delaysOf(request, one)), map });
  }
  const order = byGain(found.map(({ effect }) => effect));
  const maps = order.flatMap((effect) => found.filter((one) => one.effect === effect));
  const trials = maps.reduce((sum, { map }) => sum + (map?.provenance.trials ?? 0), 0);
  return { effects: effectsOf(asItIs, order), maps, trials };
}

/** The pinned tune, or the start of the model as it is, at which every changed model is judged too; null: an axis has none. */
function commonTune({ pinned }: Sweep, { axes: { roll, pitch } }: StabilityMap): Sweep["pinned"] {
  if (pinned !== null || roll.start === null || pitch.start === null) return pinned;
  const gains = ({ p, d }: { readonly p: number; readonly d: number }) => ({ p: p * P_UNIT, d: d * D_UNIT });
  return { roll: gains(roll.start), pitch: gains(pitch.start) };
}

/** Of both controllers where the model as it is hovers first. */
function delaysOf({ plan }: MapRequest, { model: changed }: MapRequest): Delays {
  const { hover } = at(plan.conditions, 0);
  const [from, to] = [plan.airframe, changed.value].map((one) => controllerDelay(one, hover, DELAY_FREQUENCY));
  const both = (gain: "p" | "d") => ({ asItIs: 1000 * (from?.[gain] ?? 0), changed: 1000 * (to?.[gain] ?? 0) });
  return { p: both("p"), d: both("d") };
}

const effectsOf = (map: StabilityMap, effects: readonly Effect[]): Effects => ({
  format: EFFECTS_FORMAT,
  product: { name: "gainscape", version: version() },
  airframe: map.airframe,
  sweep: map.sweep,
  command: map.provenance.command,
  planDigest: planOf(map).digest,
  delayFrequency: DELAY_FREQUENCY,
  effects,
});
