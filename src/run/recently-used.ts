// Values made when first asked for and cached as long as there is room: the least recently used are evicted first.

/** Gives the value of a key, made by `make` where it is not cached; the one asked for last stays, however large. */
export function recentlyUsed<Value>(room: number, bytesOf: (value: Value) => number) {
  const cached = new Map<string, Value>();
  let bytes = 0;
  return (key: string, make: () => Value): Value => {
    const found = cached.get(key);
    const value = found ?? make();
    if (!cached.delete(key)) bytes += bytesOf(value);
    cached.set(key, value); // a map remembers in which order
    for (const [oldest, entry] of cached) {
      if (bytes <= room || oldest === key) break;
      cached.delete(oldest);
      bytes -= bytesOf(entry);
    }
    return value;
  };
}
