// A value that notifies its listeners when it changes.

export interface Subject<T> {
  readonly get: () => T;
  readonly set: (value: T) => void;
  /** Calls now and at every change. */
  readonly watch: (listener: (value: T) => void) => void;
}

export function subject<T>(first: T): Subject<T> {
  let value = first;
  const listeners: ((value: T) => void)[] = [];
  return {
    get: () => value,
    set(next) {
      value = next;
      for (const listener of listeners) listener(value);
    },
    watch(listener) {
      listeners.push(listener);
      listener(value);
    },
  };
}
