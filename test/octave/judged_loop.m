% Poles of one craft's loop, and the margins of roll and pitch, each broken while the others stay closed.
function r = judged_loop (m)
  b = body_of (m);
  c = standing_filters (b, m.throttle);
  g = scheduled (gains_of (c.gains), c.gainSchedule, m.throttle);
  plant = sampled_plant (b, m.throttle);
  k = {};
  for axis = 1:3
    k{axis} = axis_controller (c, g(axis), axis);
  endfor
  poles = eig (closed_by (series_of (delay_block (c.delay), plant), block_diagonal (k{:})).a);
  r.poles = [real(poles), imag(poles)];
  % Down to a slow oscillation against the integral, and dense where dead time turns the phase.
  grid = unique ([logspace(log10 (0.5 / c.rate), log10 (pi), 220), linspace(0.02, pi, 120)]);
  onCircle = exp (1i * grid);
  G = plant_response (plant, c.delay, onCircle);
  for axis = 1:2
    h = open_loop (G, c, g, axis, onCircle);
    at = @(z) open_loop (plant_response (plant, c.delay, z), c, g, axis, z);
    r.margins(axis) = margins_of (@(w) at (exp (1i * w)), grid(1:end-1), h(1:end-1), real (h(end)));
  endfor
endfunction
