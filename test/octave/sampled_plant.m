% Rates against roll, pitch and yaw command over one control period, duties held: the control package's zero-order hold.
function sys = sampled_plant (b, throttle)
  [x, u] = steady (b, throttle);
  n = b.n;
  A = slopes (@(v) motion (b, v, u, 0, [0 0]), x);
  B = slopes (@(v) motion (b, x, v, 0, [0 0]), u) * b.mixer;
  d = c2d (ss (A, B, [zeros(3, n), eye(3)], zeros (3)), 1 / b.controller.rate, "zoh");
  sys = block (d.a, d.b, d.c, d.d);
endfunction
