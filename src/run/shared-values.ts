// Numbers in memory that several threads share: whichever needs them first writes them, the others wait for it.

/** ms another thread is waited for: one that ended while it wrote leaves its place unfinished. */
export const PATIENCE = 5_000;

const EMPTY = 0;
const STARTED = 1;
const WRITTEN = 2;

/** How many numbers belong to each key, in the same order in every thread. */
export type Lengths = ReadonlyMap<string, number>;

/**
 * The numbers of a key, written by `write` into zeros where nobody has yet; null where there is no room for them, or whoever
 * began to write them does not finish.
 */
export type SharedValues = (key: string, write: (values: Float64Array) => void) => Float64Array | null;

/** Memory for as many of them as there is room for, in bytes. Its pages cost nothing until they are written. */
export const memoryForValues = (lengths: Lengths, room: number): SharedArrayBuffer =>
  new SharedArrayBuffer(placesOf(lengths, room).bytes);

/** The numbers in a memory made for the same lengths and room. */
export function sharedValues(
  lengths: Lengths,
  memory: SharedArrayBuffer,
  room: number,
  patience = PATIENCE,
): SharedValues {
  const { places } = placesOf(lengths, room);
  const states = new Int32Array(memory, 0, places.size);
  return (key, write) => {
    const place = places.get(key);
    if (place === undefined) return null;
    const values = new Float64Array(memory, place.from, place.length);
    if (Atomics.compareExchange(states, place.state, EMPTY, STARTED) === EMPTY) {
      write(values);
      Atomics.store(states, place.state, WRITTEN);
      Atomics.notify(states, place.state);
    } else Atomics.wait(states, place.state, STARTED, patience);
    return Atomics.load(states, place.state) === WRITTEN ? values : null;
  };
}

interface Place {
  readonly state: number; // which one of the states at the beginning
  readonly from: number; // bytes
  readonly length: number; // numbers
}

/** Behind a state for each: the same in every thread. */
function placesOf(lengths: Lengths, room: number): { places: ReadonlyMap<string, Place>; bytes: number } {
  const places = new Map<string, Place>();
  let bytes = Math.ceil((lengths.size * Int32Array.BYTES_PER_ELEMENT) / Float64Array.BYTES_PER_ELEMENT) * 8;
  for (const [key, length] of lengths) {
    const to = bytes + length * Float64Array.BYTES_PER_ELEMENT;
    if (to > room) break;
    places.set(key, { state: places.size, from: bytes, length });
    bytes = to;
  }
  return { places, bytes };
}
