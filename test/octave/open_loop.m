% The loop of one axis broken at its command while the other two are closed, at frequencies in rad per sample.
function h = open_loop (plant, c, g, axis, w)
  z = exp (1i * w);
  others = setdiff (1:3, axis);
  for n = 1:3
    k(n,:) = controller_response (c, g(n), z);
  endfor
  h = zeros (size (w));
  one = eye (rows (plant.a));
  for n = 1:numel (w)
    G = plant.c * ((z(n) * one - plant.a) \ plant.b) * z(n) ^ -c.delay;
    held = diag (k(others,n));
    h(n) = k(axis,n) * (G(axis,axis) - G(axis,others) * held * ((eye (2) + G(others,others) * held) \ G(others,axis)));
  endfor
endfunction
