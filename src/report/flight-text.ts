// What a flight file and its log hold, for a terminal.
import { printable } from "../base/problem.js";
import { figures } from "../base/units.js";
import type { FlightSummary, LogSummary } from "../flight/summary.js";

/** The flight as lines of text: log, channels, what is missing and what that keeps from being told, remarks. */
export function renderFlight({ log, sightings, missing }: FlightSummary): string {
  const seen = sightings === 0 ? [] : [`${sightings} ${sightings === 1 ? "sighting" : "sightings"}`];
  const lines = [
    ...(log === null ? [] : logLines(log)),
    ...seen,
    ...missing.map(({ what, without }) => `without ${what}: ${without}`),
    ...(log === null ? [] : remarkLines(log)),
  ];
  return lines.map((line) => `  ${printable(line)}\n`).join("");
}

function logLines(log: LogSummary): string[] {
  const { file, rows, seconds, rowsPerSecond, usableSeconds, stretches, holds } = log;
  const pieces = stretches === 1 ? "one piece" : `${stretches} pieces`;
  return [
    `log ${file}: ${rows} rows of ${figures(seconds)} s, ${figures(rowsPerSecond)} a second; ${figures(usableSeconds)} s in ${pieces} can be used`,
    `it holds ${holds.join("; ")}`,
  ];
}

function remarkLines({ remarks }: LogSummary): string[] {
  if (remarks.length === 0) return ["nothing odd about the log"];
  const one = remarks.length === 1 ? "1 thing" : `${remarks.length} things`;
  return [
    `${one} odd about the log:`,
    ...remarks.map(({ row, column, text }) => {
      const place = [...(row === null ? [] : [`line ${row}`]), ...(column === null ? [] : [column])].join(", ");
      return `  ${place === "" ? "" : `${place}: `}${text}`;
    }),
  ];
}
