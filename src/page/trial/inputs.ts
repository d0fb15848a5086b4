// The trial panel's form: which trial to simulate.
import { perDisplayUnit } from "../../map/own-scale.js";
import type { Variant } from "../../plan/plan.js";
import type { Axis } from "../../words/axes.js";
import { byId, make } from "../dom.js";
import type { Simulator } from "../simulator.js";
import { levelWords } from "../words.js";
import { gainIn, writeGain } from "./gain-input.js";
import { manoeuvreWords } from "./trial-words.js";

/** The gains the form has, display units; null while one is not a number. */
export function readGains(
  simulator: Simulator,
): { readonly axis: Axis; readonly p: number; readonly d: number } | null {
  const own = ownOf(simulator);
  const [p, d] = [gainIn("trial-p", own?.p ?? null), gainIn("trial-d", own?.d ?? null)];
  return p >= 0 && d >= 0 ? { axis: chosenIn("trial-axis") as Axis, p, d } : null;
}

/** The manoeuvre at the level that the form names; null where no script has it there. */
export function readVariant({ levels }: Simulator): Variant | null {
  const [axis, script] = [chosenIn("trial-axis"), chosenIn("trial-script")];
  const level = levels[Number(chosenIn("trial-level"))];
  return level?.variants.find((one) => one.axis === axis && manoeuvreKey(one) === script) ?? null;
}

/** Writes axis and gains into the form. */
export function writeTrialInputs(simulator: Simulator, axis: Axis, p: number, d: number): void {
  byId<HTMLSelectElement>("trial-axis").value = axis;
  const own = ownOf(simulator);
  writeGain("trial-p", own?.p ?? null, p);
  writeGain("trial-d", own?.d ?? null, d);
  offerChoices(simulator);
}

/** Writes manoeuvre and level of a variant of the form's axis into it. */
export function writeVariant(simulator: Simulator, variant: Variant): void {
  byId<HTMLSelectElement>("trial-script").value = manoeuvreKey(variant);
  const level = simulator.levels.findIndex(({ variants }) => variants.some(({ index }) => index === variant.index));
  byId<HTMLSelectElement>("trial-level").value = String(level);
}

/** The manoeuvres of the axis and every level; the current choice stays if it is still possible. */
export function offerChoices(simulator: Simulator): void {
  const axis = chosenIn("trial-axis") as Axis;
  const variants = simulator.plan.variants.filter((variant) => variant.axis === axis);
  const manoeuvres = new Map(variants.map((variant) => [manoeuvreKey(variant), manoeuvreWords(variant)]));
  const first = variants.find(({ script }) => script.kind === "stop") ?? variants[0];
  fill("trial-script", [...manoeuvres], first === undefined ? "" : manoeuvreKey(first));
  fill(
    "trial-level",
    simulator.levels.map((level, index) => [String(index), levelWords(level)] as const),
    "0",
  );
}

const chosenIn = (id: string): string => byId<HTMLSelectElement>(id).value;
const ownOf = ({ plan }: Simulator) => perDisplayUnit(plan.airframe.controller.scale);

const manoeuvreKey = ({ script, rate }: Variant): string => `${rate} ${script.name}`;

function fill(id: string, options: readonly (readonly [value: string, words: string])[], first: string): void {
  const select = byId<HTMLSelectElement>(id);
  const before = select.value;
  select.replaceChildren(...options.map(([value, words]) => make("option", { value }, words)));
  select.value = options.some(([value]) => value === before) ? before : first;
}
