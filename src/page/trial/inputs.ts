// The flight panel's form: which trial it asks for.
import type { Variant } from "../../plan/plan.js";
import type { Axis } from "../../report/axes.js";
import { withUnit } from "../../report/numbers.js";
import { printable } from "../../report/printable.js";
import { byId, make } from "../dom.js";
import type { Level, Simulator } from "../simulator.js";
import { levelWords } from "../words.js";

export interface TrialInputs {
  readonly variant: Variant;
  readonly level: Level;
  readonly axis: Axis;
  /** People's gains. */
  readonly p: number;
  readonly d: number;
}

/** What the form asks for; null while a gain is no number or nobody flies the manoeuvre at that level. */
export function readTrialInputs(fleet: Simulator): TrialInputs | null {
  const [p, d] = [gainIn("fly-p"), gainIn("fly-d")];
  const axis = chosenIn("fly-axis") as Axis;
  const level = fleet.levels[Number(chosenIn("fly-level"))];
  const script = chosenIn("fly-script");
  const variant = level?.variants.find((one) => one.axis === axis && manoeuvreKey(one) === script);
  return p >= 0 && d >= 0 && level !== undefined && variant !== undefined ? { variant, level, axis, p, d } : null;
}

/** Writes axis and gains into the form. */
export function writeTrialInputs(fleet: Simulator, axis: Axis, p: number, d: number): void {
  byId<HTMLSelectElement>("fly-axis").value = axis;
  byId<HTMLInputElement>("fly-p").value = String(p);
  byId<HTMLInputElement>("fly-d").value = String(d);
  offerChoices(fleet);
}

/** The manoeuvres of the axis and every level; a choice that is still possible is kept. */
export function offerChoices(fleet: Simulator): void {
  const axis = chosenIn("fly-axis") as Axis;
  const flown = fleet.plan.variants.filter((variant) => variant.axis === axis);
  const manoeuvres = new Map(flown.map((variant) => [manoeuvreKey(variant), manoeuvreWords(variant)]));
  const first = flown.find(({ script }) => script.kind === "stop") ?? flown[0];
  fill("fly-script", [...manoeuvres], first === undefined ? "" : manoeuvreKey(first));
  fill(
    "fly-level",
    fleet.levels.map((level, index) => [String(index), levelWords(level)] as const),
    "0",
  );
}

const chosenIn = (id: string): string => byId<HTMLSelectElement>(id).value;
const gainIn = (id: string): number => byId<HTMLInputElement>(id).valueAsNumber;

const manoeuvreKey = ({ script, rate }: Variant): string => `${rate} ${script.name}`;

const manoeuvreWords = ({ script, rate }: Variant): string =>
  printable(`${script.title}${rate === 0 ? "" : ` at ${withUnit((180 / Math.PI) * rate, "\u00b0/s")}`}`);

function fill(id: string, options: readonly (readonly [value: string, words: string])[], first: string): void {
  const select = byId<HTMLSelectElement>(id);
  const before = select.value;
  select.replaceChildren(...options.map(([value, words]) => make("option", { value }, words)));
  select.value = options.some(([value]) => value === before) ? before : first;
}
