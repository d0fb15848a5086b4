// Loaded into every process of a step: the most memory each has held, a line each, into the file GAINSCAPE_PEAKS.
import { appendFileSync } from "node:fs";
import { isMainThread } from "node:worker_threads";

if (isMainThread)
  process.on("exit", () => appendFileSync(process.env.GAINSCAPE_PEAKS, `${process.resourceUsage().maxRSS}\n`));
