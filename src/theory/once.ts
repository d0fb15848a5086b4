// What is computed once and shared: tables on frequencies that many loops have in common. Nobody writes into what it is given.

/** What `make` gives of an object, made once as long as the object lives. */
export function oncePer<K extends object, V>(make: (key: K) => V): (key: K) => V {
  const made = new WeakMap<K, V>();
  return (key) => {
    const found = made.get(key);
    if (found !== undefined) return found;
    const value = make(key);
    made.set(key, value);
    return value;
  };
}

/** Values by a key in words; of more than `most`, the one that was made first is dropped. */
export function recentBy<V>(most: number): (key: string, make: () => V) => V {
  const made = new Map<string, V>();
  return (key, make) => {
    const found = made.get(key);
    if (found !== undefined) return found;
    const value = make();
    made.set(key, value);
    for (const oldest of made.keys()) {
      if (made.size <= most) break;
      made.delete(oldest);
    }
    return value;
  };
}
