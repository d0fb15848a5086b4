% Equations of motion: rotor speeds (rad/s), then body rates (rad/s), under duties u, a climb (m/s) and rotary gusts
% (rad/s). Works on complex numbers too, so that slopes can be taken by a complex step.
function dx = motion (b, x, u, climb, gust)
  n = b.n;
  w = x(1:n); rates = x(n+1:n+3);
  % Kirchhoff: R i + K w = u V at every motor, V = E - Rp sum(u i) at the pack.
  R = b.motor.resistance; K = b.motor.constant;
  solved = [R * eye(n), -u; b.pack.resistance * u.', 1] \ [-K * w; b.emf];
  current = solved(1:n);
  % Each disc moves up through the air with the body: V = climb + (rates x arm) along z.
  axial = climb + (rates(1) + gust(1)) * b.arms(:,2) - (rates(2) + gust(2)) * b.arms(:,1);
  turns = w / (2 * pi); D = b.propeller.diameter;
  % Coefficients are lines in J = V/(n D); n J = V/D keeps a standing rotor in.
  thrust = b.rho * D^4 * b.propeller.ct * (turns.^2 - turns .* axial / D / b.propeller.zeroThrustAdvance);
  drag = b.rho * D^5 / (2 * pi) * (b.propeller.cp * turns.^2 + b.propeller.cpSlope * turns .* axial / D);
  dw = (K * (current - b.motor.noLoadCurrent) - drag) / b.spun;
  % Angular momentum of body and rotors together changes by what the air does.
  outer = [b.arms(:,2).' * thrust; -b.arms(:,1).' * thrust; -b.spins.' * drag];
  momentum = b.inertia * rates + [0; 0; b.spun * (b.spins.' * w)];
  turned = [rates(2) * momentum(3) - rates(3) * momentum(2)
            rates(3) * momentum(1) - rates(1) * momentum(3)
            rates(1) * momentum(2) - rates(2) * momentum(1)];
  dx = [dw; b.inertia \ (outer - turned - [0; 0; b.spun * (b.spins.' * dw)])];
endfunction
