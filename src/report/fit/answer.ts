// The first screen: the answer in one line, what to do, and per axis where the tune that was flown stands now.
import { shareInterval } from "../../base/binomial-interval.js";
import { tuneStripSvg } from "../../charts/fit/tune-strip.js";
import type { FitFile, FittedAxis } from "../../fit/format.js";
import { GAIN_UNITS } from "../../map/display-units.js";
import { ownText } from "../../map/gain-text.js";
import { AXES, AXIS_TITLES, type Axis } from "../../words/axes.js";
import { SIMULATED_CRAFT } from "../../words/confidence-words.js";
import { answerWords, shareWords, shiftWords, turnOf } from "../../words/fit/answer.js";
import { changeInterval, changeOf } from "../../words/fit/estimates.js";
import { capital } from "../../words/limit-words.js";
import { toThreeDigits } from "../../words/numbers.js";
import { unitLabel } from "../../words/units.js";
import { html, type Piece, raw } from "../page/html.js";

type Tune = NonNullable<FittedAxis["tune"]>;

const ended = ({ axes }: FitFile): boolean => AXES.some((name) => axes[name].tune?.call === "do not fly");

export const answer = (fit: FitFile): Piece => html`
<section class="start" aria-labelledby="answer">
<h2 id="answer">What the ${fit.flights.length === 1 ? "flight" : "flights"} said</h2>
<p class="answer${ended(fit) ? " bad" : ""}">${answerWords(fit)}</p>
${fit.advice.length === 0 ? "" : html`<ul class="advice">${fit.advice.map((line) => html`<li>${line}</li>`)}</ul>`}
<div class="pair">${AXES.map((name) => panel(name, fit.axes[name]))}</div>
</section>`;

const panel = (
  name: Axis,
  axis: FittedAxis,
): Piece => html`<article class="tune flown" aria-labelledby="answer-${name}">
<h3 id="answer-${name}">${AXIS_TITLES[name]}</h3>
<div class="gains">${axis.tune === null ? noTune() : flown(name, axis, axis.tune)}</div>
<dl class="sayings">
<div><dt>Turn</dt><dd>${capital(turnOf(axis))} (${changeInterval(changeOf(axis.before.authorityOverLag, axis.after.authorityOverLag))}).</dd></div>
<div><dt>Limit</dt><dd>The boundary, beyond which an oscillation keeps itself alive, lies ${shiftWords(axis)}.</dd></div>
${axis.tune === null ? "" : shares(axis.tune)}
</dl>
</article>`;

const noTune = (): Piece =>
  html`<p>The flight file gives no gains of this axis, or none whose worth is known: no tune can be judged.</p>`;

function flown(name: Axis, axis: FittedAxis, tune: Tune): Piece {
  const where = gainWords(tune);
  const label = `Where the tune of ${name}, ${where}, stands on a line of P: the boundary lies ${shiftWords(axis)}.`;
  const call =
    tune.call === undefined
      ? ""
      : html`<p class="call ${tune.call === "holds" ? "good" : "bad"}">${tune.call === "holds" ? "The old tune still holds" : "Do not fly the old tune"}</p>`;
  return html`${call}<p>Flown at ${where}.</p>
<div class="strip-place" role="img" aria-label="${label}">${raw(tuneStripSvg(axis, tune))}</div>
<p class="rest">More P to the right, at this D. In the dark part every draw keeps an oscillation alive, in the yellow part some do. A safe
tune stands far to the left of both.${tune.call === "do not fly" ? " The boundary or the share fell: simulate the fitted model before any gain is flown again." : ""}</p>`;
}

/** "P 2356, D 1916 on the controller (9.43 % per 100 °/s, 0.958 % per 1000 °/s²)"; without its own units the gains alone. */
function gainWords({ p, d, own }: Tune): string {
  const [pShown, dShown] = [
    `${toThreeDigits(p)}\u00a0${unitLabel(GAIN_UNITS.p)}`,
    `${toThreeDigits(d)}\u00a0${unitLabel(GAIN_UNITS.d)}`,
  ];
  if (own === undefined) return `P ${pShown}, D ${dShown}`;
  return `P ${ownText(own.p)}, D ${ownText(own.d)} on the controller (${pShown}, ${dShown})`;
}

/** The share with what so few draws leave open. */
function intervalWords(share: number, draws: number | undefined): string {
  if (draws === undefined) return "";
  const [low, high] = shareInterval(Math.round(share * draws), draws);
  return ` (${Math.round(100 * low)} to ${Math.round(100 * high)}\u00a0%)`;
}

const shares = ({ safeShareBefore, safeShareAfter, draws }: Tune): Piece =>
  html`<div class="share"><dt>Draws</dt><dd><strong>Safe in ${shareWords(safeShareAfter, draws)}</strong>${intervalWords(safeShareAfter, draws)}, before the fit in ${shareWords(safeShareBefore, draws)}${intervalWords(safeShareBefore, draws)}, by theory: ${SIMULATED_CRAFT}.</dd></div>`;
