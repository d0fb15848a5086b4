// Colour arithmetic for the test of the palette. Relative luminance and contrast ratio: WCAG 2.2, definitions of the same
// names (quoted in public material). Lab: CIE 1976 for the D65 white (quoted in public material). Colour blindness:
// the severity-1 matrices of Machado, Oliveira and Fernandes, IEEE TVCG 15 (2009) (from memory; each row sums to one).

type Rgb = readonly [number, number, number];
type Matrix = readonly [Rgb, Rgb, Rgb];

export const SIGHT: Readonly<Record<string, Matrix>> = {
  "all cones": [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  "no red cones": [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  "no green cones": [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  "no blue cones": [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

const dot = (row: Rgb, [r, g, b]: Rgb): number => row[0] * r + row[1] * g + row[2] * b;

/** "#rrggbb" to linear light. */
function linear(hex: string): Rgb {
  const channel = (at: number) => {
    const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  };
  return [channel(1), channel(3), channel(5)];
}

export function contrast(one: string, other: string): number {
  const luminance = (hex: string) => dot([0.2126, 0.7152, 0.0722], linear(hex));
  const [low, high] = [luminance(one), luminance(other)].sort((a, b) => a - b) as [number, number];
  return (high + 0.05) / (low + 0.05);
}

function lab(rgb: Rgb): Rgb {
  const clamped = rgb.map((channel) => Math.min(1, Math.max(0, channel))) as unknown as Rgb;
  const f = (t: number) => (t > 0.008856 ? Math.cbrt(t) : 7.787 * t + 16 / 116);
  const x = f(dot([0.4124, 0.3576, 0.1805], clamped) / 0.95047);
  const y = f(dot([0.2126, 0.7152, 0.0722], clamped));
  const z = f(dot([0.0193, 0.1192, 0.9505], clamped) / 1.08883);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

/** CIE 1976 difference of two colours as an eye with these cones sees them. */
export function difference(one: string, other: string, sight: Matrix): number {
  const labUnder = (hex: string) => lab(sight.map((row) => dot(row, linear(hex))) as unknown as Rgb);
  const [a, b] = [labUnder(one), labUnder(other)];
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}
