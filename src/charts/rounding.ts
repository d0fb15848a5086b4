// Pixels as a picture writes them: finer digits cannot be seen, and would be most of a page's bytes.

export const tenths = (px: number): number => Math.round(px * 10) / 10;

/** For corners and marks that others are placed by. */
export const hundredths = (px: number): number => Math.round(px * 100) / 100;
