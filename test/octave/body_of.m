% A model as numbers for the equations of motion: everything derived here from what a model file declares.
function b = body_of (m)
  b.rho = air_density (m.altitude, m.temperature);
  b.arms = m.rotors - m.centre(:)';          % m, of each rotor from the centre of mass
  b.spins = m.spins(:);
  b.n = numel (b.spins);
  b.mass = m.mass;
  b.inertia = [m.inertia(1) m.inertia(4) m.inertia(5)
               m.inertia(4) m.inertia(2) m.inertia(6)
               m.inertia(5) m.inertia(6) m.inertia(3)];
  b.propeller = m.propeller; b.motor = m.motor; b.pack = m.pack;
  b.spun = m.motor.bellInertia + m.propeller.inertia;
  b.emf = m.pack.cells * interp1 (m.pack.openCircuit(:,1), m.pack.openCircuit(:,2), m.charge);
  b.controller = m.controller;
  % Latency in control periods, rounded up, and the share of a period, its end, by which that is too late.
  periods = m.controller.latency * m.controller.rate;
  b.controller.delay = ceil (periods - 1e-9);
  b.controller.younger = max (0, b.controller.delay - periods);
  b.controller.sensor = [butterworths(m.controller.sensor, m.controller.rate), ...
                         band_stops(m.controller.sensorNotch, m.controller.rate)];
  b.controller.derivative = [butterworths(m.controller.derivative, m.controller.rate), ...
                             band_stops(m.controller.derivativeNotch, m.controller.rate)];
  if (! isempty (m.controller.dutyTable)) b.controller.dutyTable = reshape (m.controller.dutyTable, [], 2); endif
  b.controller.command = butterworths (m.controller.commandLowPass, m.controller.rate);
  % What a unit of thrust (or drag) at each rotor does: lift, roll, pitch, yaw. Commands are its pseudo-inverse, each
  % axis scaled to a largest entry of one.
  x = b.arms(:,1)'; y = b.arms(:,2)';
  mix = pinv ([ones(1, b.n); y; -x; -b.spins']);
  b.mixer = mix(:,2:4) ./ max (abs (mix(:,2:4)));
endfunction
