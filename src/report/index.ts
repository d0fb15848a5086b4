// From a stability map to strings: the page, the table of points, the summary for a terminal.
export { renderCsv } from "./csv.js";
export { renderPage } from "./page/page.js";
export { renderSummary } from "./summary.js";
