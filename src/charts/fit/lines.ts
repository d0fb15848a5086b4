// How a fit's lines are drawn; the page's key shows the same.

export const FIT_LINES = Object.freeze({
  measured: { role: "ink", width: 1.6 },
  before: { role: "soft", width: 1.8, dash: [6, 4] },
  after: { role: "contour", width: 2.4 },
} as const);

/** Opacity of grounds that lie over others. */
export const ERROR_OPACITY = 0.16;
export const BAND_OPACITIES = Object.freeze({ before: 0.14, after: 0.26 });
