// Dates as callers give them, ISO 8601: a day, or a time with its offset from UTC, as version control prints them. No clock is
// asked anywhere: a record made again is the same record.

const DATE = /^(\d{4})-(\d\d)-(\d\d)(?:T(\d\d):(\d\d)(?::(\d\d))?(?:Z|([+-])(\d\d):?(\d\d)))?$/;
const MINUTE = 60_000; // ms

export const DATE_WORDS = "a day as 2026-11-28, or a time as 2026-11-28T02:17:05+01:00";

/** What is wrong with a date; null where nothing is. */
export function dateFault(text: string): string | null {
  return instantIn(text) === null ? `expected ${DATE_WORDS}` : null;
}

/** ms since 1970, UTC; a day counts from its start. RangeError where the text is no date. */
export function instantOf(text: string): number {
  const instant = instantIn(text);
  if (instant === null) throw new RangeError(`"${text}" is no date`);
  return instant;
}

function instantIn(text: string): number | null {
  const [found, ...parts] = DATE.exec(text) ?? [];
  if (found === undefined) return null;
  const [year = 0, month = 0, day = 0, hour = 0, minute = 0, second = 0] = parts
    .slice(0, 6)
    .map((part) => Number(part ?? 0));
  const local = new Date(0);
  local.setUTCFullYear(year, month - 1, day);
  local.setUTCHours(hour, minute, second);
  // A day that no calendar has is another one by now.
  const meant = local.getUTCFullYear() === year && local.getUTCMonth() === month - 1 && local.getUTCDate() === day;
  if (!meant || hour > 23 || minute > 59 || second > 59) return null;
  const [sign, hours, minutes] = parts.slice(6);
  const offset = Number(hours ?? 0) * 60 + Number(minutes ?? 0);
  return local.getTime() - (sign === "-" ? -offset : offset) * MINUTE;
}
