// Tables over throttle: straight lines between rows, flat outside.

/** The rows that a throttle (fraction) lies between and its share of the way; the same row twice outside. Null without rows. */
export function rowsAround<R extends { readonly throttle: number }>(
  rows: readonly R[],
  throttle: number,
): readonly [before: R, after: R, share: number] | null {
  const next = rows.findIndex((row) => row.throttle > throttle);
  const after = rows[next] ?? rows[rows.length - 1];
  const before = rows[next - 1] ?? after;
  if (before === undefined || after === undefined) return null;
  const width = after.throttle - before.throttle;
  return [before, after, width > 0 ? (throttle - before.throttle) / width : 0];
}
