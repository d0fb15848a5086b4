% Rates against roll, pitch and yaw command over one control period, older then younger commands: the control package's
% zero-order hold. What acts for the last share of a period does what a hold of that length does; what both do together
% is a hold of the whole period.
function sys = sampled_plant (b, throttle)
  [x, u, given, volts] = steady (b, throttle);
  n = b.n;
  A = slopes (@(v) motion (b, v, u, 0, [0 0]), x);
  B = slopes (@(v) motion (b, x, v, 0, [0 0]), u) * (duty_slopes (b.controller, given, volts) .* b.mixer);
  held = @(periods) c2d (ss (A, B, [zeros(3, n), eye(3)], zeros (3)), periods / b.controller.rate, "zoh");
  d = held (1);
  younger = zeros (size (d.b));
  if (b.controller.younger > 0)
    younger = held (b.controller.younger).b;
  endif
  sys = block (d.a, [d.b - younger, younger], d.c, zeros (3, 6));
endfunction
