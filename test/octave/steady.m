% Rotor speeds and standing commands at which nothing turns any more, at a collective duty: Newton's method.
function [x, u] = steady (b, throttle)
  n = b.n;
  duties = @(c) throttle + b.mixer * c;
  rest = @(s) motion (b, [s(1:n); 0; 0; 0], duties (s(n+1:end)), 0, [0 0]);
  s = [0.7 * throttle * b.emf / b.motor.constant * ones(n, 1); 0; 0; 0];
  for round = 1:60
    step = slopes (rest, s) \ rest (s);
    s -= step;
    s(1:n) = max (s(1:n), 1);
    if (max (abs (step(1:n) ./ s(1:n))) < 1e-14) break; endif
  endfor
  x = [s(1:n); 0; 0; 0];
  u = duties (s(n+1:end));
endfunction
