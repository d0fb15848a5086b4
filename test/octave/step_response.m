% Rate of one axis after a unit step of its command, by the linear closed loop: P and I act on the error, D on the rate.
function y = step_response (m)
  b = body_of (m); c = standing_filters (b, m.throttle); g = scheduled (gains_of (c.gains), c.gainSchedule, m.throttle);
  plant = series_of (delay_block (c.delay), sampled_plant (b, m.throttle));
  for axis = 1:3
    [k{axis}, forward{axis}] = axis_controller (c, g(axis), axis);
  endfor
  loop = closed_by (plant, block_diagonal (k{:}));
  wanted = forward{m.axis};
  column = loop.b(:,m.axis);
  s = block ([wanted.a, zeros(rows (wanted.a), rows (loop.a)); column * wanted.c, loop.a], [wanted.b; column * wanted.d],
             [zeros(1, rows (wanted.a)), loop.c(m.axis,:)], 0);
  x = zeros (rows (s.a), 1); y = zeros (m.steps, 1);
  for n = 1:m.steps
    y(n) = s.c * x;
    x = s.a * x + s.b;
  endfor
endfunction
