# Simulates the trials of one rig in lockstep by the loop above, which is printed from src/kernel/loop.ts, and times them.
# Usage: python3 other-languages.py INPUT OUTPUT. Input, output and what is printed are those of other-languages.c.
import sys
import time

numbers = np.fromfile(sys.argv[1])
HEAD = 21
rotors, sensor, derivative, duty_bends, moving_sensor, moving_derivative, delay, substeps, older_steps, extended, coupled, axis, steps, count, trials, rounds, p_place, d_place, *lengths = (
    int(value) for value in numbers[:HEAD]
)
segments, craft, drive, state, gains = np.split(numbers[HEAD:], np.cumsum([4 * count, *lengths]))
craft, drive, gains = craft.tolist(), drive.tolist(), gains.reshape(trials, 2)
for _ in range(rounds):
    states = np.repeat(state[:, None], trials, axis=1)
    states[p_place], states[d_place] = gains[:, 0], gains[:, 1]
    trace = np.zeros((steps, trials))
    before = time.perf_counter()
    for first, last, disturbed, accumulate in segments.reshape(count, 4).astype(int):
        advance(craft, drive, states, trace, rotors, sensor, derivative, duty_bends, moving_sensor, moving_derivative, delay, substeps, older_steps, extended, coupled, axis, disturbed, accumulate, first, last)
    print(f"{(time.perf_counter() - before) * 1e9 / (trials * steps):.4f}")
np.concatenate([trace.T.ravel(), states.T.ravel()]).tofile(sys.argv[2])
