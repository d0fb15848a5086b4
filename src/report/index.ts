// From a stability map, or two and their drift, to strings: pages, tables, summaries.

export { renderCard } from "./card/card.js";
export { renderJunit } from "./comparison/junit.js";
export { renderDriftMarkdown } from "./comparison/markdown.js";
export { renderComparison } from "./comparison/page.js";
export { renderDriftTable } from "./comparison/table.js";
export { renderCsv } from "./csv.js";
export { notSimulatedWords } from "./not-simulated-words.js";
export { renderPage } from "./page/page.js";
export type { PageKernels } from "./page/scripts.js";
export { simulationData } from "./page/simulation-data.js";
export { renderSummary } from "./summary.js";
export { unsealedWords } from "./unsealed-words.js";
