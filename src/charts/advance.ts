// How much room a label takes, for what places labels and for the library that draws: in Node nothing can measure a text, and
// a measured one would differ from machine to machine. Advance widths of a plain sans font in thousandths of its size, U+0020 to U+007E, read
// from the metrics file of a free font with the metrics of the common system sans fonts; good to a few per cent.

const WIDTHS = [
  278, 278, 355, 556, 556, 889, 667, 222, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556,
  556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833,
  722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, 222, 556, 556, 500, 556,
  556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334,
  260, 334, 584,
];
const OTHER = 600; // a wide guess for everything else

/** Width of a text in px at a font size in px. */
export function textWidth(text: string, size: number): number {
  const units = [...text].reduce((sum, glyph) => sum + (WIDTHS[(glyph.codePointAt(0) ?? 0) - 32] ?? OTHER), 0);
  return (units * size) / 1000;
}

const HALF_HEIGHT = 0.62; // of the size: from the middle of the letters to the end of their ascenders and descenders

/** Half the width and half the height of a text, px. */
export const halfSizes = (text: string, size: number): readonly [across: number, up: number] => [
  textWidth(text, size) / 2,
  size * HALF_HEIGHT,
];
