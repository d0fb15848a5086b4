// A worker that takes memory until there is no more.
export default function hoard() {
  const hoarded = [];
  for (;;) hoarded.push(new Array(100_000).fill(hoarded.length));
}
