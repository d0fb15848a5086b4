// What a change of a model does to a tune, as a pilot reads it: the factors first, then why.
import type { AxisAnswer, BeforeAfter, UnsureNumber, WhatIfAnswer } from "../sheet/what-if-answer.js";
import { AXES, AXIS_TITLES, type Axis } from "./axes.js";
import { marginsText } from "./margin-words.js";
import { toThreeDigits, withUnit } from "./numbers.js";
import { unitLabel } from "./units.js";

/** What changes by less is said not to. */
const SEEN = 0.01;
const isAlike = (one: number, other: number): boolean => Math.abs(one - other) <= SEEN * Math.abs(other);

/** "0.62", "0.62 ± 0.03". */
function factorText({ value, plusMinus }: UnsureNumber): string {
  const text = (one: number) => (value < 0.1 ? toThreeDigits(Number(one.toPrecision(2))) : one.toFixed(2));
  const off = plusMinus === null ? "" : text(plusMinus);
  return Number(off) > 0 ? `${text(value)} \u00b1 ${off}` : text(value);
}

type Factors = NonNullable<AxisAnswer["factors"]>;

const isNone = ({ p, d }: Factors): boolean => isAlike(p.value, 1) && (d === null || isAlike(d.value, 1));

function sameFactors(one: Factors, other: Factors): boolean {
  const d = one.d === null || other.d === null ? one.d === other.d : isAlike(one.d.value, other.d.value);
  return isAlike(one.p.value, other.p.value) && d;
}

function byWords({ p, d }: Factors, of = ""): string {
  const onD = d === null ? "" : ` and ${of}D by ${factorText(d)}`;
  return `${of}P by ${factorText(p)}${onD}`;
}

/** "Multiply P by 0.62 and D by 0.58"; where the axes differ, both. */
function factorWords({ axes }: WhatIfAnswer): string {
  const found = AXES.flatMap((axis) => {
    const factors = axes[axis]?.factors ?? null;
    return factors === null ? [] : [{ axis, factors }];
  });
  const [first, second] = found;
  if (first === undefined) return "No factors of P and D bring the tune back";
  if (second === undefined) return `Multiply ${byWords(first.factors, `${first.axis}\u2019s `)}`;
  if (isNone(first.factors) && isNone(second.factors)) return "Leave P and D as they are";
  if (sameFactors(first.factors, second.factors)) return `Multiply ${byWords(first.factors)}`;
  return `Multiply ${found.map(({ axis, factors }) => byWords(factors, `${axis}\u2019s `)).join(", ")}`;
}

/** How a turn by a steady command, the motors' lag and the delays changed; what did not is left out. */
function whyWords({ before, after }: WhatIfAnswer): string {
  const levels = [
    ["in hover", before.hover, after.hover],
    ["at 70 %", before.at70Percent, after.at70Percent],
  ] as const;
  const authority = (axis: Axis) =>
    levels.map(([, from, to]) => to.authorityDegPerS2PerPercent[axis] / from.authorityDegPerS2PerPercent[axis]);
  const [roll, pitch] = [authority("roll"), authority("pitch")];
  const ratios = (each: readonly number[]) =>
    each.map((ratio, k) => `\u00d7 ${toThreeDigits(ratio)} ${levels[k]?.[0] ?? ""}`).join(" and ");
  const isSame = roll.every((ratio, k) => isAlike(ratio, pitch[k] ?? Number.NaN));
  const moved = [...roll, ...pitch].some((ratio) => !isAlike(ratio, 1));
  const torque = !moved
    ? []
    : isSame
      ? [`authority ${ratios(roll)}`]
      : [`authority of roll ${ratios(roll)}, of pitch ${ratios(pitch)}`];
  const changed = (title: string, from: number, to: number) =>
    isAlike(to, from) || Math.abs(to - from) < 1e-9 ? [] : [`${title} ${toThreeDigits(from)} to ${withUnit(to, "ms")}`];
  const lags = levels.flatMap(([where, from, to]) => changed(`motor lag ${where}`, from.motorLagMs, to.motorLagMs));
  const delay = (sheet: typeof before, gain: "p" | "d") => sheet.delaySumMs[gain] - sheet.hover.motorLagMs;
  const delays = [
    ...changed("delay of P", delay(before, "p"), delay(after, "p")),
    ...changed("delay of D", delay(before, "d"), delay(after, "d")),
  ];
  const all = [...torque, ...lags, ...delays];
  return all.length === 0 ? "neither authority nor lag nor delay changes" : all.join(", ");
}

/** The answer in one line. */
export const whatIfLine = (answer: WhatIfAnswer): string => `${factorWords(answer)}: ${whyWords(answer)}.`;

const YAW_UNSTABLE =
  "Yaw is unstable then at the model\u2019s own gains, and with it every loop: lower controller.gains.yaw as well, with one --set more.";

/** What margins each axis has then. */
export function marginLines({ axes, yawHolds }: WhatIfAnswer): string[] {
  if (!yawHolds) return [YAW_UNSTABLE];
  return AXES.map((name) => {
    const axis = axes[name];
    const title = AXIS_TITLES[name];
    if (axis === null) return `${title}: no P and D keep even 1 dB and 10\u00b0 before, so there is no tune to change.`;
    if (axis.margins === null) return `${title}: no factors. The tune is unstable then, however far P and D fall.`;
    const { before, after } = axis.margins;
    const [from, to] = [marginsText(before), marginsText(after)];
    if (axis.matched) return `${title} keeps its margins with them: ${to}.`;
    return `${title} comes no nearer to its margins of ${from} than ${to}.`;
  });
}

/** Where the factors come from. */
export function basisLine({ axes, draws }: WhatIfAnswer): string {
  const declared = AXES.some((name) => axes[name]?.tune.declared === true);
  const tune = declared ? "at the model\u2019s own P and D" : "at the most P that keeps a starting tune\u2019s margins";
  const off = draws === 0 ? "" : `; \u00b1 from ${draws} pairs of draws`;
  return `By theory alone, ${tune}: fresh pack, sea level, the worst of hover and 70 % throttle${off}. I goes with P.`;
}

/** What theory does not see. */
export function cautionLine({ axes }: WhatIfAnswer): string {
  const rises = AXES.some((name) => {
    const factors = axes[name]?.factors ?? null;
    return factors !== null && [factors.p, factors.d].some((factor) => factor !== null && factor.value > 1 + SEEN);
  });
  const limits = "Theory knows no noise, no hot motor and no prop wash: with --sweep both are simulated.";
  return rises ? `${limits} A gain that rises is raised in small steps, with a look at the motors after each.` : limits;
}

function unsureText(number: UnsureNumber | null): string {
  if (number === null) return "none near";
  const { value, plusMinus } = number;
  return plusMinus === null || plusMinus < 0.005 * Math.abs(value)
    ? toThreeDigits(value)
    : `${toThreeDigits(value)} \u00b1 ${toThreeDigits(Number(plusMinus.toPrecision(2)))}`;
}

export type WhatIfRow = readonly [title: string, before: string, after: string];

/** Before and after; the tune of after is that of before multiplied by the factors. */
export function whatIfRows(answer: WhatIfAnswer): WhatIfRow[] {
  const row = (title: string, { before, after }: BeforeAfter<UnsureNumber | null>): WhatIfRow => [
    title,
    unsureText(before),
    unsureText(after),
  ];
  const axis = (name: Axis): WhatIfRow[] => {
    const one = answer.axes[name];
    if (one === null) return [];
    const { tune, factors } = one;
    const after = (gain: number, factor: UnsureNumber | null | undefined) =>
      factor == null ? "" : toThreeDigits(gain * factor.value);
    return [
      [`Tune of ${name}: P, ${unitLabel("%/(100 deg/s)")}`, toThreeDigits(tune.p), after(tune.p, factors?.p)],
      [`Tune of ${name}: D, ${unitLabel("%/(1000 deg/s^2)")}`, toThreeDigits(tune.d), after(tune.d, factors?.d)],
      row(`${AXIS_TITLES[name]} gives out at P, with the first D`, one.boundary),
    ];
  };
  return [
    ...AXES.flatMap(axis),
    row("Hover throttle, %", answer.hoverThrottlePercent),
    row("Thrust to weight", answer.thrustToWeight),
  ];
}
