// Offsets in a text as lines and columns.
import type { Place } from "../base/document.js";

/** A function from offset to place; lines and columns count from 1, columns in UTF-16 units. */
export function placesOf(text: string): (offset: number) => Place {
  const starts = [0];
  for (let at = text.indexOf("\n"); at !== -1; at = text.indexOf("\n", at + 1)) starts.push(at + 1);
  return (offset) => {
    let low = 0;
    let high = starts.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if ((starts[middle] ?? 0) <= offset) low = middle;
      else high = middle - 1;
    }
    return { line: low + 1, column: offset - (starts[low] ?? 0) + 1 };
  };
}
