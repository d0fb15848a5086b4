% Rotor speeds, duties, rotor commands and pack voltage at which nothing turns any more, at a collective command: Newton's
% method on speeds, axis commands and voltage.
function [x, u, given, volts] = steady (b, throttle)
  n = b.n;
  commands = @(s) throttle + b.mixer * s(n+1:n+3);
  own = @(s) at_volts (b, commands (s), s(n+4));
  rest = @(s) [motion(b, [s(1:n); 0; 0; 0], own (s), 0, [0 0]); s(n+4) - pack_volts(b, s(1:n), own (s))];
  s = [0.7 * throttle * b.emf / b.motor.constant * ones(n, 1); 0; 0; 0; 0.95 * b.emf];
  for round = 1:60
    step = slopes (rest, s) \ rest (s);
    s -= step;
    s(1:n) = max (s(1:n), 1);
    if (max (abs (step(1:n) ./ s(1:n))) < 1e-14) break; endif
  endfor
  x = [s(1:n); 0; 0; 0];
  volts = s(n+4);
  given = commands (s);
  u = own (s);
endfunction

% Duties, also of complex commands: a table is a line about the real ones.
function u = at_volts (b, commands, volts)
  c = b.controller;
  u = duties (c, real (commands), volts) + 1i * duty_slopes (c, real (commands), volts) .* imag (commands);
endfunction
