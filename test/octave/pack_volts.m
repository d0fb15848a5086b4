% Voltage of the loaded pack at rotor speeds and duties.
function v = pack_volts (b, w, u)
  R = b.motor.resistance; K = b.motor.constant;
  solved = [R * eye(b.n), -u; b.pack.resistance * u.', 1] \ [-K * w; b.emf];
  v = solved(end);
endfunction
