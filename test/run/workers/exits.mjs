// A worker that is gone before it answers.
export default function work() {
  process.exit(7);
}
