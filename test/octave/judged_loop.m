% Poles of one craft's loop, and the margins of roll and pitch, each broken while the others stay closed.
function r = judged_loop (m)
  b = body_of (m);
  c = b.controller;
  g = gains_of (c.gains);
  plant = sampled_plant (b, m.throttle);
  k = {};
  for axis = 1:3
    k{axis} = axis_controller (c, g(axis));
  endfor
  poles = eig (closed_by (series_of (delay_block (c.delay), plant), beside (k{:})).a);
  r.poles = [real(poles), imag(poles)];
  % Down to a slow oscillation against the integral, and dense where dead time turns the phase.
  grid = unique ([logspace(log10 (0.5 / c.rate), log10 (pi), 220), linspace(0.02, pi, 120)])(1:end-1);
  for axis = 1:2
    loop = @(w) open_loop (plant, c, g, axis, w);
    r.margins(axis) = margins_of (loop, grid, real (loop (pi)));
  endfor
endfunction
