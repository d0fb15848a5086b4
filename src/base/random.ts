// Seeded random numbers with the same bits everywhere: keys are hashed, the hash seeds SplitMix64,
// SplitMix64 fills the state of xoshiro128**, and Box-Muller turns its uniforms into normal numbers.
import { at } from "./at.js";
import { cos, ln, sin } from "./elementary.js";

const MASK = (1n << 64n) - 1n;

/** Steele, Lea and Flood's SplitMix64: a function that gives the next 64-bit number at each call. */
export function splitMix64(seed: bigint): () => bigint {
  let state = seed & MASK;
  return () => {
    state = (state + 0x9e3779b97f4a7c15n) & MASK;
    let z = state;
    z = ((z ^ (z >> 30n)) * 0xbf58476d1ce4e5b9n) & MASK;
    z = ((z ^ (z >> 27n)) * 0x94d049bb133111ebn) & MASK;
    return z ^ (z >> 31n);
  };
}

const rotated = (x: number, by: number): number => (x << by) | (x >>> (32 - by));

/** Blackman and Vigna's xoshiro128**: period 2^128 - 1; the state must not be all zero. */
export class Xoshiro128 {
  #a: number;
  #b: number;
  #c: number;
  #d: number;

  constructor(a: number, b: number, c: number, d: number) {
    if ((a | b | c | d) === 0) throw new RangeError("a state of four zeros never leaves zero");
    this.#a = a | 0;
    this.#b = b | 0;
    this.#c = c | 0;
    this.#d = d | 0;
  }

  /** The next whole number from 0 to 2^32 - 1. */
  next(): number {
    const result = Math.imul(rotated(Math.imul(this.#b, 5), 7), 9) >>> 0;
    const shifted = this.#b << 9;
    this.#c ^= this.#a;
    this.#d ^= this.#b;
    this.#b ^= this.#c;
    this.#a ^= this.#d;
    this.#c ^= shifted;
    this.#d = rotated(this.#d, 11);
    return result;
  }
}

/** FNV-1a, 64 bits, over the UTF-8 bytes of a text. */
export function fnv1a64(text: string): bigint {
  let hash = 0xcbf29ce484222325n;
  for (const byte of new TextEncoder().encode(text)) hash = ((hash ^ BigInt(byte)) * 0x100000001b3n) & MASK;
  return hash;
}

/**
 * The generator that belongs to these keys (seed, script, condition, ...) and to no others: order and
 * type count, so (1, "2") differs from ("1", 2). RangeError for a number that is not finite.
 */
export function stream(...keys: (number | string)[]): Xoshiro128 {
  const wrong = keys.find((key) => typeof key === "number" && !Number.isFinite(key));
  if (wrong !== undefined) throw new RangeError(`a random stream cannot be keyed by ${wrong}`);
  const next = splitMix64(fnv1a64(JSON.stringify(keys)));
  const first = next();
  const second = next();
  const half = (x: bigint): number => Number(x & 0xffffffffn);
  return new Xoshiro128(half(first), half(first >> 32n), half(second), half(second >> 32n));
}

/** Two independent normal numbers (mean 0, variance 1) from uniforms: u1 above 0 up to 1, u2 from 0 below 1. */
export function boxMuller(u1: number, u2: number): readonly [number, number] {
  const radius = Math.sqrt(-2 * ln(u1));
  const angle = 2 * Math.PI * u2;
  return [radius * cos(angle), radius * sin(angle)];
}

/** A multiple of 2^-53 from 0 below 1, from two draws. */
export function uniform(source: Xoshiro128): number {
  const high = source.next() >>> 5;
  const low = source.next() >>> 6;
  return (high * 67108864 + low) / 9007199254740992;
}

/** The items in an order decided by chance: R.A. Fisher and F. Yates, each order as likely. */
export function shuffled<T>(items: readonly T[], source: Xoshiro128): T[] {
  const mixed = [...items];
  for (let last = mixed.length - 1; last > 0; last--) {
    const other = Math.floor(uniform(source) * (last + 1));
    [mixed[last], mixed[other]] = [at(mixed, other), at(mixed, last)];
  }
  return mixed;
}

/**
 * Fills target with normal numbers (mean 0, variance 1), in pairs: four draws give two numbers, and an
 * odd last one drops its partner. The radius uses 1 - u, so the logarithm never meets 0.
 */
export function fillGaussian(target: Float64Array, source: Xoshiro128): void {
  for (let i = 0; i < target.length; i += 2) {
    const pair = boxMuller(1 - uniform(source), uniform(source));
    target[i] = pair[0];
    if (i + 1 < target.length) target[i + 1] = pair[1];
  }
}
