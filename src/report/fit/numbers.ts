// Every number of the model before and after, with its spread, and per axis the shape they make together.
import { intervalsSvg } from "../../charts/fit/intervals.js";
import type { Estimated, FitFile, FittedNumber, FittedShape } from "../../fit/format.js";
import { AXES, AXIS_TITLES, type Axis } from "../../words/axes.js";
import { estimateWords, isLearnt, percents, relativeSpread, wholePercents } from "../../words/fit/estimates.js";
import { capital } from "../../words/limit-words.js";
import { keyBeside, numberTitle, numberTitles } from "../../words/number-words.js";
import { count, toThreeDigits } from "../../words/numbers.js";
import { unitLabel } from "../../words/units.js";
import { html, type Piece, raw } from "../page/html.js";
import { scrolling } from "../page/scrolling.js";

export function numbers(fit: FitFile): Piece {
  const learnt = fit.numbers.filter(isLearnt).sort((one, other) => other.learnt - one.learnt);
  const rest = fit.numbers.filter((one) => !isLearnt(one)).map(({ key }) => key);
  return html`
<section aria-labelledby="numbers">
<h2 id="numbers">The numbers, before and after</h2>
<p class="lead">About 95 of 100 craft lie within a \u00b1. In each picture the thin line is the model before, the broad one after
the fit, both on one scale.</p>
${learnt.length === 0 ? html`<p><strong>No number became better known.</strong></p>` : numberTable(learnt)}
${rest.length === 0 ? "" : html`<p class="rest"><b>Nothing said</b> about ${count(rest.length)} numbers, which keep their spreads: ${numberTitles(rest).join(", ")}.</p>`}
<div class="two">${AXES.map((name) => shapeTable(name, fit.axes[name].before, fit.axes[name].after))}</div>
<p class="rest">A log fixes ratios better than single numbers. How far authority and lag go up and down together, and so cannot be
told apart: correlation ${AXES.map((name) => `${toThreeDigits(Number(fit.axes[name].after.correlationOfAuthorityAndLag.toPrecision(2)))} on ${name}`).join(", ")}.
${correlated(fit)}</p>
</section>`;
}

const numberTable = (learnt: readonly FittedNumber[]): Piece =>
  scrolling(
    "Numbers before and after",
    html`<table class="fit-numbers">
<thead><tr><th scope="col">Number</th><th scope="col">Before</th><th scope="col">After</th><th scope="col">Both</th><th scope="col" class="learnt">Spread is</th></tr></thead>
<tbody>${learnt.map(numberRow)}</tbody>
</table>`,
  );

const titleOf = (key: string): string => (keyBeside(key) === "" ? key : capital(numberTitle(key)));

const numberRow = (number: FittedNumber): Piece =>
  html`<tr><th scope="row">${titleOf(number.key)} <small>${keyBeside(number.key)}</small></th><td data-column="Before">${estimateWords(number.before, number)}</td><td data-column="After">${estimateWords(number.after, number)}</td><td data-column="Both">${raw(intervalsSvg(number.before, number.after))}</td><td class="learnt" data-column="Spread is">${narrower(number.learnt)}</td></tr>`;

const narrower = (learnt: number): string =>
  learnt < 0 ? `wider by ${wholePercents(100 * learnt)}` : `narrower by ${wholePercents(100 * learnt)}`;

const DEGREES = 180 / Math.PI;

const SHAPE: readonly (readonly [title: string, of: (shape: FittedShape) => Estimated, scale: number, unit: string])[] =
  [
    ["Authority over lag", (shape) => shape.authorityOverLag, DEGREES / 1e5, `${unitLabel("deg/s^2")} per % and ms`],
    ["Authority", (shape) => shape.authority, DEGREES / 100, `${unitLabel("deg/s^2")} per %`],
    ["Lag", (shape) => shape.lag, 1000, "ms"],
    ["Delay", (shape) => shape.delay, 1000, "ms"],
  ];

const shapeTable = (name: Axis, before: FittedShape, after: FittedShape): Piece =>
  scrolling(
    `How ${name} answers a command`,
    html`<table class="fit-numbers">
<caption>${AXIS_TITLES[name]}: how it answers a command</caption>
<thead><tr><th scope="col">Of the axis</th><th scope="col">Before</th><th scope="col">After</th><th scope="col">Both</th></tr></thead>
<tbody>${SHAPE.map(([title, of, scale, unit]) => html`<tr><th scope="row">${title} <small>${unit}</small></th><td data-column="Before">${plain(of(before), scale)}</td><td data-column="After">${plain(of(after), scale)}</td><td data-column="Both">${raw(intervalsSvg(of(before), of(after)))}</td></tr>`)}</tbody>
</table>`,
  );

function plain(estimated: Estimated, scale: number): string {
  const spread = relativeSpread(estimated);
  const off = spread === null ? "" : ` \u00b1\u00a0${percents(100 * spread)}`;
  return `${toThreeDigits(estimated.middle * scale)}${off}`;
}

/** Numbers that go together this much or more are told. */
const TOGETHER = 0.5;
const MOST = 5;

function correlated({ correlations }: FitFile): string {
  const strong = correlations
    .filter(({ value }) => Math.abs(value) >= TOGETHER)
    .sort((one, other) => Math.abs(other.value) - Math.abs(one.value))
    .slice(0, MOST);
  if (strong.length === 0) return "";
  const words = strong.map(
    ({ one, other, value }) =>
      `${numberTitle(one)} with ${numberTitle(other)} (${toThreeDigits(Number(value.toPrecision(2)))})`,
  );
  return `Known together better than apart: ${words.join("; ")}. The fitted model carries these, and its draws keep them.`;
}
