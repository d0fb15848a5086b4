// The trial panel's form: which trial to simulate.
import { perDisplayUnit } from "../../map/own-scale.js";
import type { Variant } from "../../plan/plan.js";
import type { Axis } from "../../words/axes.js";
import { withUnit } from "../../words/numbers.js";
import { printable } from "../../words/printable.js";
import { byId, make } from "../dom.js";
import type { Level, Simulator } from "../simulator.js";
import { levelWords } from "../words.js";
import { gainIn, writeGain } from "./gain-input.js";

export interface TrialInputs {
  readonly variant: Variant;
  readonly level: Level;
  readonly axis: Axis;
  /** Gains in display units. */
  readonly p: number;
  readonly d: number;
}

/** The trial the form describes; null while a gain is not a number or no variant has the manoeuvre at that level. */
export function readTrialInputs(simulator: Simulator): TrialInputs | null {
  const own = ownOf(simulator);
  const [p, d] = [gainIn("trial-p", own?.p ?? null), gainIn("trial-d", own?.d ?? null)];
  const axis = chosenIn("trial-axis") as Axis;
  const level = simulator.levels[Number(chosenIn("trial-level"))];
  const script = chosenIn("trial-script");
  const variant = level?.variants.find((one) => one.axis === axis && manoeuvreKey(one) === script);
  return p >= 0 && d >= 0 && level !== undefined && variant !== undefined ? { variant, level, axis, p, d } : null;
}

/** Writes axis and gains into the form. */
export function writeTrialInputs(simulator: Simulator, axis: Axis, p: number, d: number): void {
  byId<HTMLSelectElement>("trial-axis").value = axis;
  const own = ownOf(simulator);
  writeGain("trial-p", own?.p ?? null, p);
  writeGain("trial-d", own?.d ?? null, d);
  offerChoices(simulator);
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

const manoeuvreWords = ({ script, rate }: Variant): string =>
  printable(`${script.title}${rate === 0 ? "" : ` at ${withUnit((180 / Math.PI) * rate, "\u00b0/s")}`}`);

function fill(id: string, options: readonly (readonly [value: string, words: string])[], first: string): void {
  const select = byId<HTMLSelectElement>(id);
  const before = select.value;
  select.replaceChildren(...options.map(([value, words]) => make("option", { value }, words)));
  select.value = options.some(([value]) => value === before) ? before : first;
}
