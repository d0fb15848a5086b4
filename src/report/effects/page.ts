// What each change of a model does to its map: the model as it is first, then one small map per change, the largest gain first.
import { axisMapSvg, type Size } from "../../charts/axis-map.js";
import { EFFECT_LINES, effectMapSvg, type Shown } from "../../charts/effect-map.js";
import { lineSwatch, pinnedSwatch, pointSwatch } from "../../charts/swatches.js";
import { BASELINE_FORMAT, mapOfBaseline } from "../../compare/baseline.js";
import type { Effect, Effects } from "../../compare/effect-format.js";
import type { StabilityMap } from "../../map/format.js";
import { AXES, AXIS_TITLES, type Axis } from "../../words/axes.js";
import { axisEffectWords, changeTitle } from "../../words/effect-words.js";
import { findingWords } from "../../words/finding-words.js";
import { count, percent } from "../../words/numbers.js";
import { printable, printableMap } from "../../words/printable.js";
import { head } from "../page/head.js";
import { html, type Piece, raw } from "../page/html.js";
import { key } from "../page/maps.js";
import { effectsTable } from "./numbers.js";
import { EFFECTS_STYLE } from "./style.js";

const WIDE: Size = Object.freeze({ width: 520, height: 380, letters: 16 });
const NARROW: Size = Object.freeze({ width: 296, height: 300, letters: 14 });

/** A change with the map it makes; null where the model has nothing of it. */
interface MappedEffect {
  readonly effect: Effect;
  readonly map: StabilityMap | null;
}

/** The page as one HTML text; the same effects and map give the same bytes. */
export async function renderEffects(found: Effects, asWritten: StabilityMap): Promise<string> {
  const effects = printable(found);
  const asItIs = printableMap(asWritten);
  const maps = effects.effects.map((effect): MappedEffect => {
    const { found: own } = effect;
    return { effect, map: own === null ? null : printableMap(mapOfBaseline({ format: BASELINE_FORMAT, ...own.map })) };
  });
  const all = [asItIs, ...maps.flatMap(({ map }) => (map === null ? [] : [map]))];
  const { airframe, sweep } = effects;
  const title = `${airframe.name} ${airframe.version}: what each thing gains and costs`;
  const [first, figures] = [await asItIsMaps(asItIs, all), await effectFigures(maps, { asItIs, all })];
  const page = await html`<!DOCTYPE html>
<html lang="en">
${head(title, EFFECTS_STYLE)}
<body>
<header class="masthead">
<p class="series">Gainscape changes</p>
<h1>${title}</h1>
<p class="sub">${sweep.title}. ${airframe.title}.</p>
<nav aria-label="Chapters"><ul><li><a href="#findings">Findings</a></li><li><a href="#map">As it is</a></li><li><a href="#effects">Change by change</a></li><li><a href="#numbers">Numbers</a></li><li><a href="#provenance">Provenance</a></li></ul></nav>
</header>
<main>
${findings(maps)}
${first}
${figures}
${effectsTable(effects)}
${provenance(effects)}
</main>
<footer><p>A model’s estimate on every map. Change one thing at a time on the craft, and fly the first pack after it with care.</p></footer>
</body>
</html>
`;
  return page.toString();
}

const findings = (maps: readonly MappedEffect[]): Piece => html`
<section class="start" aria-labelledby="findings">
<h2 id="findings">What each of them does</h2>
<ol>${maps.map(({ effect }) => html`<li>${findingWords(effect)}</li>`)}</ol>
</section>`;

async function asItIsMaps(map: StabilityMap, all: readonly StabilityMap[]): Promise<Piece> {
  const figures: Piece[] = [];
  for (const name of AXES) {
    const [wide, narrow] = [await axisMapSvg(map, name, WIDE, all), await axisMapSvg(map, name, NARROW, all)];
    const words = `${percent(map.axes[name].safeShare)} of the swept points are safe.`;
    const label = `Stability map of ${name}, D across and P up. ${words}`;
    figures.push(html`<figure class="axis-map">
<h3>${AXIS_TITLES[name]}</h3>
<div class="wide" role="img" aria-label="${label}">${raw(wide)}</div>
<div class="narrow" role="img" aria-label="${label}">${raw(narrow)}</div>
<figcaption>${words}</figcaption>
</figure>`);
  }
  return html`
<section aria-labelledby="map">
<h2 id="map">The model as it is</h2>
<p class="lead">Every point is one pair of P and D, simulated through every script at every throttle and pack.</p>
${key(map)}
<div class="pair">${figures}</div>
</section>`;
}

async function effectFigures(maps: readonly MappedEffect[], shown: Shown): Promise<Piece> {
  const figures: Piece[] = [];
  for (const { effect, map } of maps) if (map !== null) figures.push(await effectFigure(effect, map, shown));
  return html`
<section aria-labelledby="effects">
<h2 id="effects">Change by change</h2>
<p class="lead">The same map about its safe ground with one thing changed; all at the same scales, the largest gain of safe ground first.</p>
${effectKey()}
<div class="effects">${figures}</div>
</section>`;
}

const entry = (sign: string, title: string, meaning: string): Piece =>
  html`<li>${raw(sign)}<span><b>${title}</b> ${meaning}</span></li>`;

const effectKey = (): Piece => html`<div class="key">
<ul aria-label="Lines and points of the small maps">
${entry(lineSwatch(EFFECT_LINES.asItIs), "As it is", "Safe ground and boundary of the model as it is.")}
${entry(lineSwatch(EFFECT_LINES.safe, true), "Safe", "The outline of what is safe with the change.")}
${entry(pointSwatch(), "Start", "The starting tune with the change.")}
${entry(pinnedSwatch(), "Same tune", "That of the model as it is: every map is judged there too.")}
</ul>
</div>`;

async function effectFigure(effect: Effect, map: StabilityMap, shown: Shown): Promise<Piece> {
  const axes: Piece[] = [];
  for (const name of AXES) {
    const words = wordsOn(effect, name);
    axes.push(html`<div><h4>${AXIS_TITLES[name]}</h4>
<div role="img" aria-label="${`${changeTitle(effect)}, ${name}: ${words}`}">${raw(await effectMapSvg(map, name, shown))}</div>
<figcaption>${words}</figcaption></div>`);
  }
  return html`<figure class="effect">
<h3>${findingWords(effect)}</h3>
<p>${changeTitle(effect)}: <code>${effect.set.map((text) => `--set ${text}`).join(" ")}</code></p>
<div class="both">${axes}</div>
</figure>`;
}

const wordsOn = ({ found }: Effect, name: Axis): string =>
  found === null ? "" : `${axisEffectWords(found.axes[name])}.`;

const row = (title: string, value: unknown): Piece => html`<div><dt>${title}</dt><dd>${value}</dd></div>`;

const provenance = ({ airframe, sweep, product, command, planDigest, effects }: Effects): Piece => html`
<section aria-labelledby="provenance">
<h2 id="provenance">Provenance</h2>
<dl class="provenance">
${row("Craft", html`${airframe.name} ${airframe.version}, <code>${airframe.digest}</code>`)}
${row("Sweep", `${sweep.title} (${sweep.name}); ${count(effects.filter(({ found }) => found !== null).length)} changes simulated, without draws`)}
${row("Plan", html`<code>${planDigest}</code>`)}
${row("Made by", `${product.name} ${product.version}`)}
</dl>
<p>The same command gives the same page, bit for bit:</p>
<pre><code>${command}</code></pre>
</section>`;
