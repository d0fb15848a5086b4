// What a thing that a controller does gains and costs, as one sentence from its numbers.
import { measureOf } from "../base/measures.js";
import type { AxisEffect, Both, Difference, Effect } from "../compare/effect-format.js";
import { AXES } from "./axes.js";
import { percentText } from "./effect-words.js";
import { capital, lowerFirst } from "./limit-words.js";
import { toThreeDigits, withUnit } from "./numbers.js";
import { unitLabel } from "./units.js";

type Found = NonNullable<Effect["found"]>;

/** One thing said: whether having it is a gain, and how much of a whole it is, so that the most comes first. */
interface Said {
  readonly text: string;
  readonly isGain: boolean;
  readonly size: number;
}

const MOST_SAID = 2; // gains, and as many costs
const LEAST_DELAY = 0.005; // ms, which rounds to nothing

/** "Gyro notches: 12 % of the safe ground on roll, for 0.4 ms of delay." */
export function findingWords({ kind, name, found }: Effect): string {
  const title = capital(name);
  if (found === null) return `${title}: not in this model.`;
  const said = [
    ...groundSaid(found, kind),
    ...boundarySaid(found, kind),
    ...conditionSaid(found, kind),
    ...delaySaid(found, kind),
    ...measuresSaid(found, kind),
  ];
  const texts = (isGain: boolean) =>
    said
      .filter((one) => one.isGain === isGain)
      .sort((a, b) => b.size - a.size)
      .slice(0, MOST_SAID)
      .map(({ text }) => text);
  const [gains, costs] = [texts(true), texts(false)];
  if (gains.length === 0 && costs.length === 0) return `${title}: no difference seen.`;
  if (gains.length === 0) return `${title}: nothing gained, at the cost of ${listed(costs)}.`;
  return `${title}: ${listed(gains)}, ${costs.length === 0 ? "at no cost seen" : `at the cost of ${listed(costs)}`}.`;
}

const listed = (texts: readonly string[]): string => texts.join(", and ");

/** By having it, % of what there would be without it; of all there is where nothing would be left. */
function gainOf({ percent }: Difference, kind: Effect["kind"]): number {
  if (percent === null || kind === "with") return percent ?? 0;
  return percent > -100 ? 100 / (1 + percent / 100) - 100 : 100;
}

/** The same of safe ground, but a gain as a share of the ground there is: "12 % of the safe ground". */
function groundGain(difference: Difference, kind: Effect["kind"]): number {
  const { percent } = difference;
  return kind === "without" && percent !== null && percent < 0 ? -percent : gainOf(difference, kind);
}

/** "12 % on roll, 8 % on pitch", of those that gain, or of those that lose. */
function percentsOn(
  found: Found,
  of: (axis: AxisEffect) => Difference,
  gainIn: (difference: Difference) => number,
  isGain: boolean,
) {
  const each = AXES.flatMap((axis) => {
    const difference = of(found.axes[axis]);
    const gain = gainIn(difference);
    return difference.seen && gain > 0 === isGain ? [{ axis, size: Math.abs(gain) }] : [];
  });
  const rounded = each.map(({ size }) => percentText(size));
  const size = Math.max(0, ...each.map((one) => one.size));
  if (each.length === 0) return null;
  if (each.length === AXES.length && new Set(rounded).size === 1) return { first: rounded[0] ?? "", rest: "", size };
  const [axis, ...others] = each.map(({ axis }, k) => ({ axis, text: rounded[k] ?? "" }));
  const rest = others.map((one) => ` and ${one.text} on ${one.axis}`).join("");
  return { first: axis?.text ?? "", rest: ` on ${axis?.axis}${rest}`, size };
}

function groundSaid(found: Found, kind: Effect["kind"]): Said[] {
  return [true, false].flatMap((isGain) => {
    const words = percentsOn(
      found,
      ({ ground }) => ground,
      (one) => groundGain(one, kind),
      isGain,
    );
    if (words === null) return [];
    const { first, rest, size } = words;
    const what = !isGain ? "less safe ground" : kind === "without" ? "of the safe ground" : "more safe ground";
    return [{ text: `${first} ${what}${rest}`, isGain, size: 1000 + size }];
  });
}

function boundarySaid(found: Found, kind: Effect["kind"]): Said[] {
  return [true, false].flatMap((isGain) => {
    const words = percentsOn(
      found,
      ({ boundary }) => boundary,
      (one) => gainOf(one, kind),
      isGain,
    );
    if (words === null) return [];
    const { first, rest, size } = words;
    return [{ text: `a boundary ${first} ${isGain ? "higher" : "lower"}${rest}`, isGain, size: 500 + size }];
  });
}

const FARTHER = 1.5; // times as far as the first, by which a pack must move to be worth a word

/** Only a condition that moves otherwise than the first, as a tired pack does that is compensated. */
function conditionSaid({ axes }: Found, kind: Effect["kind"]): Said[] {
  const all = AXES.flatMap((axis) => {
    const [first, ...others] = axes[axis].conditions;
    const usual = first === undefined ? 0 : gainOf(first, kind);
    return others.map((one) => ({ axis, one, gain: gainOf(one, kind), usual }));
  });
  const [most] = all
    .filter(({ one, gain, usual }) => one.seen && (gain * usual < 0 || Math.abs(gain) > FARTHER * Math.abs(usual)))
    .sort((a, b) => Math.abs(b.gain) - Math.abs(a.gain));
  if (most === undefined) return [];
  const { axis, one, gain } = most;
  const text = `${percentText(Math.abs(gain))} ${gain > 0 ? "more" : "less"} room in P with ${one.condition} on ${axis}`;
  return [{ text, isGain: gain > 0, size: 300 + Math.abs(gain) }];
}

/** With the thing, then without it. */
const sides = <T>({ asItIs, changed }: Both<T>, kind: Effect["kind"]): readonly [have: T, without: T] =>
  kind === "without" ? [asItIs, changed] : [changed, asItIs];

function delaySaid({ delayMs }: Found, kind: Effect["kind"]): Said[] {
  const more = (both: Both<number>) => {
    const [have, without] = sides(both, kind);
    return have - without;
  };
  const [p, d] = [more(delayMs.p), more(delayMs.d)];
  const ofD = Math.abs(p) < LEAST_DELAY;
  const delay = ofD ? d : p;
  if (Math.abs(delay) < LEAST_DELAY) return [];
  const text = `${withUnit(Math.abs(Number(delay.toPrecision(2))), "ms")} ${delay > 0 ? "of" : "less"} delay${ofD ? " of D" : ""}`;
  return [{ text, isGain: delay < 0, size: delay < 0 ? 200 : 700 }];
}

/** At the common tune, on the axis where it moves most. */
function measuresSaid({ axes }: Found, kind: Effect["kind"]): Said[] {
  const all = AXES.flatMap((axis) => (axes[axis].tune?.measures ?? []).map((one) => ({ axis, ...one })));
  const most = all.filter(
    (one) => one.seen && all.every((other) => other.id !== one.id || share(other) <= share(one) || !other.seen),
  );
  return most
    .filter((one, k) => most.findIndex(({ id }) => id === one.id) === k)
    .map(({ axis, id, ...both }) => {
      const { title, unit } = measureOf(id);
      const [have, without] = sides(both, kind);
      const text = `${lowerFirst(title)} of ${measureText(have, unit)} where it would be ${measureText(without, unit)} on ${axis}`;
      return { text, isGain: have < without, size: share(both) };
    });
}

const share = ({ asItIs, changed }: Both<number>): number =>
  Math.abs(changed - asItIs) / Math.max(asItIs, changed, 1e-9);

const measureText = (value: number, unit: string): string =>
  unit === "1" ? `\u00d7\u00a0${toThreeDigits(value)}` : withUnit(value, unitLabel(unit));
