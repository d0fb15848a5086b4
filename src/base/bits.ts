// The fields of a double, read and written through one 8-byte view in a fixed byte order.

const view = new DataView(new ArrayBuffer(8));

/** The upper 32 bits of a double: sign, exponent, first 20 bits of the fraction. */
export function highWord(x: number): number {
  view.setFloat64(0, x);
  return view.getUint32(0);
}

/** x with its upper 32 bits replaced. */
export function withHighWord(x: number, high: number): number {
  view.setFloat64(0, x);
  view.setUint32(0, high);
  return view.getFloat64(0);
}

/** x cut to its upper 32 bits: products of two such numbers are exact. */
export function truncated(x: number): number {
  view.setFloat64(0, x);
  view.setUint32(4, 0);
  return view.getFloat64(0);
}

/** 2^k for a whole k from -1022 to 1023. */
function powerOfTwo(k: number): number {
  view.setUint32(0, (k + 1023) << 20);
  view.setUint32(4, 0);
  return view.getFloat64(0);
}

/** x 2^k for a whole k from -2044 to 2046, x near 1: two steps, so that the scale itself stays a normal number. */
export function scaled(x: number, k: number): number {
  const half = Math.floor(k / 2);
  return x * powerOfTwo(half) * powerOfTwo(k - half);
}
