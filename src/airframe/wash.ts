// Prop wash against how fast a craft descends: each rotor meets its own wake. Mean thrust is lost and bursts come every 20 to 50
// revolutions, worst at 1.2 to 1.3 times the induced velocity (Stack, Caradonna & Savas 2004; Veismann,
// Dougherty & Gharib 2023). The bump's shape between those facts is ours.

const PEAK_RATIO = 1.25;
const LOWEST_RATIO = 0.3;
const HIGHEST_RATIO = 2;

/** Share of the worst case at a descent ratio x = descent / vh: 0 outside 0.3 to 2, 1 at 1.25, smooth between. */
export function washShare(ratio: number): number {
  if (ratio <= LOWEST_RATIO || ratio >= HIGHEST_RATIO) return 0;
  const place =
    ratio < PEAK_RATIO
      ? (ratio - LOWEST_RATIO) / (PEAK_RATIO - LOWEST_RATIO)
      : (HIGHEST_RATIO - ratio) / (HIGHEST_RATIO - PEAK_RATIO);
  return place * place * (3 - 2 * place);
}
