% Centre and width (Hz) of a notch on a harmonic of a rotor speed (rad/s), within its limits.
function [centre, width] = notch_place (notch, speed, rate)
  centre = min (0.49 * rate, max (notch.lowest, notch.harmonic * speed / (2 * pi)));
  width = notch.width * centre;
endfunction
