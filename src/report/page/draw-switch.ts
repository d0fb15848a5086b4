// The control that shows one draw at a time over the maps; hidden until the page's script fills it.
import type { StabilityMap } from "../../map/format.js";
import { html, type Piece } from "./html.js";

/** Nothing where the map was made without draws. */
export const drawSwitch = ({ uncertainty }: StabilityMap): Piece | string =>
  uncertainty === undefined
    ? ""
    : html`<div id="draw-switch" class="switch" hidden>
<label>Draws <select id="draw-shown"><option value="">all together</option></select></label>
<div id="draw-words" class="status" role="status"></div>
</div>`;
