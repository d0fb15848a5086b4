// From a stability map, or two and their drift, to strings: pages, tables, summaries.

export { simulationData } from "../page-data/simulation-data.js";
export { notSimulatedWords } from "../words/not-simulated-words.js";
export { unsealedWords } from "../words/unsealed-words.js";
export { type CardOptions, renderCard } from "./card/card.js";
export { cardFlight, isAsPrinted } from "./card/flight-file.js";
export { renderJunit } from "./comparison/junit.js";
export { renderDriftMarkdown } from "./comparison/markdown.js";
export { renderComparison } from "./comparison/page.js";
export { renderDriftTable } from "./comparison/table.js";
export { renderCsv } from "./csv.js";
export { renderEffects } from "./effects/page.js";
export { renderEffectsText } from "./effects/text.js";
export { fitPage } from "./fit/page.js";
export { fitText } from "./fit/text.js";
export { renderFlight } from "./flight-text.js";
export { type ChangedLine, changesWords, type NightPair, nightCounts } from "./night/night.js";
export { renderNight } from "./night/page.js";
export { renderSarif } from "./night/sarif.js";
export { renderNightMarkdown } from "./night/summary.js";
export { renderPage } from "./page/page.js";
export type { PageKernels } from "./page/scripts.js";
export { renderSheet } from "./sheet-text.js";
export { renderStripsCsv } from "./strips-csv.js";
export { renderSummary } from "./summary.js";
export { renderWhatIf } from "./what-if-text.js";
