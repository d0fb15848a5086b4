// Cuts steps into segments: runs short enough for their numbers to stay in registers. Only what is live
// between segments goes through memory, and the pairs of lanes take turns segment by segment.
import type { LaneCode, Slot, Step } from "./steps.js";

/** A long loop holds segments of its own; a short one is part of a segment. */
export type Part =
  | { readonly form: "segment"; readonly steps: readonly Step[] }
  | { readonly form: "loop"; readonly loop: Step & { form: "repeat" }; readonly parts: readonly Part[] };

/** Operations a loop's body may have to count as short, and where segments are not cut: a round of three axes. */
const SHORT = 24;
const SHORT_UNCUT = 64;

/** Closes a segment at the first pause after `segmentSize` operations. */
export function segmentsOf(steps: readonly Step[], segmentSize: number): Part[] {
  const parts: Part[] = [];
  const short = Number.isFinite(segmentSize) ? SHORT : SHORT_UNCUT;
  let current: Step[] = [];
  const close = () => {
    if (current.length > 0) parts.push({ form: "segment", steps: current });
    current = [];
  };
  for (const step of steps) {
    if (step.form === "pause") {
      if (weightOf(current) >= segmentSize) close();
    } else if (step.form === "repeat" && !isShort(step.body, short)) {
      close();
      parts.push({ form: "loop", loop: step, parts: segmentsOf(step.body, segmentSize) });
    } else {
      // An index that changes must not overtake the steps that use what it was.
      if (step.form === "count" && step.again) close();
      current.push(step);
    }
  }
  close();
  return parts;
}

/** A short loop is run once for every turn the lanes take: no counter may advance in it, and nothing is hoisted out of it. */
const isShort = (body: readonly Step[], most: number): boolean =>
  weightOf(body) <= most && !body.some((step) => step.form === "hoist" || (step.form === "count" && step.again));

const weightOf = (steps: readonly Step[]): number => steps.reduce((sum, step) => sum + stepWeight(step), 0);

function stepWeight(step: Step): number {
  if (step.form === "repeat") return weightOf(step.body);
  return step.form === "pause" || step.form === "count" ? 0 : operations(step.value);
}

function operations(node: LaneCode): number {
  const parts = partsOf(node);
  return parts.reduce((sum, part) => sum + operations(part), parts.length > 0 ? 1 : 0);
}

function partsOf(node: LaneCode): readonly LaneCode[] {
  if (node.form === "negative") return [node.of];
  if (node.form === "arithmetic" || node.form === "extreme") return [node.left, node.right];
  if (node.form === "choice") return [node.left, node.right, node.met, node.otherwise];
  return [];
}

/** Slots that need a home in memory: state cells, and variables that some segment reads before it has set them. */
export function liveOut(parts: readonly Part[]): ReadonlySet<Slot> {
  const found = new Set<Slot>();
  const visit = (part: Part): void => {
    if (part.form === "loop") part.parts.forEach(visit);
    else readFirst(part.steps, new Set(), found);
  };
  parts.forEach(visit);
  return found;
}

function readFirst(steps: readonly Step[], set: Set<Slot>, found: Set<Slot>): void {
  for (const step of steps) {
    // A short loop may not run at all: what it sets is not sure to be set after it.
    if (step.form === "repeat") readFirst(step.body, new Set(set), found);
    if (step.form === "set" || step.form === "write" || step.form === "hoist")
      eachSlot(step.value, (slot) => set.has(slot) || found.add(slot));
    if (step.form === "set") {
      set.add(step.slot);
      if (step.slot.cell !== null) found.add(step.slot);
    }
  }
}

function eachSlot(node: LaneCode, visit: (slot: Slot) => void): void {
  if (node.form === "slot") visit(node.slot);
  for (const part of partsOf(node)) eachSlot(part, visit);
}

/** Slots set anywhere in these steps. */
export function slotsSet(steps: readonly Step[]): ReadonlySet<Slot> {
  const found = new Set<Slot>();
  for (const step of steps) {
    if (step.form === "set") found.add(step.slot);
    if (step.form === "repeat") for (const slot of slotsSet(step.body)) found.add(slot);
  }
  return found;
}
