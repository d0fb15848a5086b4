% Rotor speed (rad/s) that a commanded throttle alone would give, sample by sample: the steady speed, of a table at 64ths of full
% command, followed with the lag that a small change of speed has. Scaled so that it starts at the trim's mean.
function speed = followed_speed (b, throttle, start)
  nodes = unique ([floor(64 * throttle(:)); ceil(64 * throttle(:))]);
  steady_at = arrayfun (@(node) mean (steady (b, node / 64)(1:b.n)), nodes);
  wanted = interp1 (nodes, steady_at, 64 * throttle(:));
  K = b.motor.constant; R = b.motor.resistance;
  drag = b.rho * b.propeller.diameter^5 / (2 * pi)^3 * b.propeller.cp;
  speed = zeros (numel (throttle), 1); w = wanted(1);
  for k = 1:numel (throttle)
    w += (wanted(k) - w) / b.controller.rate * (K^2 / R + 2 * drag * w) / b.spun;
    speed(k) = w;
  endfor
  speed *= start / wanted(1);
endfunction
