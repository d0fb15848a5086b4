// Loaded into every process of a step: the peak memory of each, a line each, into the file GAINSCAPE_PEAKS.
import { appendFileSync, existsSync, readFileSync } from "node:fs";
import { isMainThread } from "node:worker_threads";

// KiB. The system's accounting begins with the parent's memory when it started this one; Linux tells our own.
const STATUS = "/proc/self/status";
const peak = () =>
  existsSync(STATUS) ? /^VmHWM:\s+(\d+) kB$/m.exec(readFileSync(STATUS, "utf8"))?.[1] : process.resourceUsage().maxRSS;

if (isMainThread) process.on("exit", () => appendFileSync(process.env.GAINSCAPE_PEAKS, `${peak()}\n`));
