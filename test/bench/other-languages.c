// Simulates the trials of one rig by the loop above, which is printed from src/kernel/loop.ts, and times them.
// Usage: loop INPUT OUTPUT. INPUT is written by other-languages.mjs; OUTPUT receives every trace, then every final state.
// Prints one line per round: nanoseconds per simulated step.
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static void *zeroed(size_t bytes) {
  void *memory = aligned_alloc(64, (bytes + 63) / 64 * 64);
  if (!memory) exit(1);
  memset(memory, 0, bytes);
  return memory;
}

static double *doubles(FILE *file, long count) {
  double *values = zeroed(count * sizeof(double));
  if (fread(values, sizeof(double), count, file) != (size_t)count) exit(1);
  return values;
}

static double now(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return t.tv_sec * 1e9 + t.tv_nsec;
}

enum {
  ROTORS, SENSOR, DERIVATIVE, DUTY_BENDS, MOVING_SENSOR, MOVING_DERIVATIVE, DELAY, SUBSTEPS, OLDER_STEPS, EXTENDED, COUPLED, AXIS, STEPS, SEGMENTS, // the rig and in how many segments it is simulated
  TRIALS, ROUNDS, P_PLACE, D_PLACE, // the run
  CRAFT, DRIVE, STATE, // lengths of the arrays that follow
  HEAD
};

int main(int count, char **words) {
  FILE *in = count == 3 ? fopen(words[1], "rb") : NULL;
  if (!in) return 1;
  double *head = doubles(in, HEAD);
  long h[HEAD];
  for (int i = 0; i < HEAD; i++) h[i] = (long)head[i];
  double *segments = doubles(in, 4 * h[SEGMENTS]); // from, to, disturbed, accumulate
  double *craft = doubles(in, h[CRAFT]), *drive = doubles(in, h[DRIVE]), *start = doubles(in, h[STATE]);
  double *gains = doubles(in, 2 * h[TRIALS]);
  fclose(in);
  double *traces = zeroed(h[TRIALS] * h[STEPS] * sizeof(double)), *states = zeroed(h[TRIALS] * h[STATE] * sizeof(double));
  for (long round = 0; round < h[ROUNDS]; round++) {
    const double before = now();
    for (long i = 0; i < h[TRIALS]; i++) {
      // Every trial's trace is wanted once; until the last round they share one place, as in a worker.
      double *state = states + i * h[STATE], *trace = round + 1 < h[ROUNDS] ? traces : traces + i * h[STEPS];
      memcpy(state, start, h[STATE] * sizeof(double));
      state[h[P_PLACE]] = gains[2 * i];
      state[h[D_PLACE]] = gains[2 * i + 1];
      for (double *s = segments; s < segments + 4 * h[SEGMENTS]; s += 4)
        advance(craft, drive, state, trace, h[ROTORS], h[SENSOR], h[DERIVATIVE], h[DUTY_BENDS], h[MOVING_SENSOR], h[MOVING_DERIVATIVE],
                h[DELAY], h[SUBSTEPS], h[OLDER_STEPS], h[EXTENDED], h[COUPLED], h[AXIS], (long)s[2], (long)s[3], (long)s[0], (long)s[1]);
    }
    printf("%.4f\n", (now() - before) / (h[TRIALS] * h[STEPS]));
  }
  FILE *out = fopen(words[2], "wb");
  if (!out) return 1;
  fwrite(traces, sizeof(double), h[TRIALS] * h[STEPS], out);
  fwrite(states, sizeof(double), h[TRIALS] * h[STATE], out);
  return fclose(out);
}
