// How the contours of a measure and its limit are drawn, in the pictures and in the page alike.
export const BAND_LINES = Object.freeze({
  contour: { role: "ink", width: 0.8 },
  limit: { role: "ink", width: 2.4, dash: [8, 4] },
} as const);
