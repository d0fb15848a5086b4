// Unit labels for pages and summaries. Files and map.json spell units in ASCII ("deg/s^2"); labels do not.

/** "%/(100 deg/s)" is "% per 100 °/s"; a plain ratio ("1") has no unit to say. */
export function unitLabel(unit: string): string {
  if (unit === "1") return "";
  return unit
    .replace(/\/\(([^)]*)\)/g, " per $1")
    .replace(/ deg\//g, "\u00a0deg/")
    .replace(/ ?\bdeg\b/g, "\u00b0")
    .replace(/\^2/g, "\u00b2");
}
