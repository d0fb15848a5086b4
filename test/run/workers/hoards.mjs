// A worker that takes memory until there is no more.
export default function hoard() {
  const held = [];
  for (;;) held.push(new Array(100_000).fill(held.length));
}
