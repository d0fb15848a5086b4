// Markup by construction: every value is escaped unless it is markup already.
import { html, raw } from "hono/html";

/** A piece of page; `html` and `raw` make them, arrays of them nest. */
export type Piece = ReturnType<typeof html>;

export { html, raw };
