// What every drawing must be: paths that begin, numbers that are finite.

const NO_NUMBER = /NaN|Infinity|undefined|\[object/;

/** Throws where a path is empty or broken, or a number is none. */
export function expectSound(drawing: string): void {
  const odd = drawing.search(NO_NUMBER);
  if (odd >= 0) throw new Error(`not a number: ${drawing.slice(Math.max(0, odd - 80), odd + 40)}`);
  for (const [path] of drawing.matchAll(/<path[^>]*>/g)) expectPath(/ d="([^"]*)"/.exec(path)?.[1]);
}

/** A path begins with a move, has a number after each letter but Z and z, and nothing else. */
export function expectPath(d: string | undefined): void {
  const broken =
    d === undefined || !d.startsWith("M") || /[^-\d.,MLHVAZlhvze ]/.test(d) || /[A-Ylhv](?![-\d. ])/.test(d);
  if (broken || NO_NUMBER.test(d)) throw new Error(`no path: "${d?.slice(0, 200)}"`);
}
