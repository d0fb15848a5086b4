// The sustained boundary at each throttle and pack state, and how the craft hovers in each.

import { type ThrottleLines, throttleLines, throttleLinesSvg } from "../../charts/throttle-lines.js";
import type { StabilityMap } from "../../map/format.js";
import { endText } from "../../map/gain-text.js";
import { type OwnScale, ownScale } from "../../map/own-scale.js";
import { usefulFirst } from "../../map/useful.js";
import { AXES, type Axis } from "../../words/axes.js";
import { throttleTitle } from "../../words/chart-titles.js";
import { withUnit } from "../../words/numbers.js";
import { html, type Piece, raw } from "./html.js";
import { linesKey } from "./lines-key.js";
import { scrolling } from "./scrolling.js";

const scriptTitle = (map: StabilityMap, script: string): string =>
  map.variants.find((variant) => variant.script === script)?.title ?? script;

/** Where each line starts on the left: the same picture in numbers. */
function startsOf(own: OwnScale | null, shown: ThrottleLines): string {
  const parts = shown.levels.map(({ throttle, perD }) => {
    const first = usefulFirst(perD[0]?.stable ?? [])[0];
    const end =
      first === undefined
        ? "no stable P"
        : first.toOpen
          ? "no limit in the swept range"
          : `P ${endText(own, "p", first.to)}`;
    return `${withUnit(throttle, "%")} throttle: ${end}`;
  });
  return `At the lowest D, ${parts.join("; ")}.`;
}

async function figure(map: StabilityMap, name: Axis, shown: ThrottleLines): Promise<Piece> {
  const svg = await throttleLinesSvg(map, name, shown);
  const title = throttleTitle(name, shown.condition, shown.levels);
  const starts = startsOf(ownScale(map), shown);
  return html`<figure class="throttle">
<h3>${title}</h3>
<div role="img" aria-label="Sustained boundary of ${name}, ${shown.condition}, a line per throttle. ${starts}">${raw(svg)}</div>
<figcaption>${scriptTitle(map, shown.script)}. ${starts}</figcaption>
</figure>`;
}

function hoverTable(map: StabilityMap): Piece {
  const rows = Object.entries(map.hover).map(
    ([condition, { throttle, rotorSpeed, voltage }]) =>
      html`<tr><th scope="row">${condition}</th>
<td>${withUnit(throttle, "%")}</td><td>${withUnit(rotorSpeed, "rpm")}</td><td>${withUnit(voltage, "V")}</td></tr>`,
  );
  return scrolling(
    "In hover",
    html`<table>
<caption>In hover</caption>
<thead><tr><th scope="col">Condition</th><th scope="col">Throttle</th><th scope="col">Rotor speed</th><th scope="col">Pack voltage</th></tr></thead>
<tbody>${rows}</tbody>
</table>`,
  );
}

const hasTheory = (map: StabilityMap): boolean => AXES.some((name) => map.axes[name].boundary.theory !== undefined);

export async function conditions(map: StabilityMap): Promise<Piece> {
  const shown = AXES.flatMap((name) => throttleLines(map.axes[name]).map((lines) => ({ name, lines })));
  const figures = await Promise.all(shown.map(({ name, lines }) => figure(map, name, lines)));
  return html`
<section aria-labelledby="throttle">
<h2 id="throttle">Throttle and pack</h2>
<p class="lead">Each line is the sustained boundary at one throttle. More throttle and a fresher pack make the rotors answer
harder, so the boundary comes down. The tinted ground stays stable in every script, at every throttle and on every pack: where
it stops short of the lines, another script or another pack cuts the corner. Pictures of an axis share the scale
of its <a href="#map">map</a>${hasTheory(map) ? html`, and their legend with those of <a href="#theory">theory</a>` : ""}.</p>
${linesKey(map)}
<div class="multiples">${figures}</div>
${hoverTable(map)}
</section>`;
}
