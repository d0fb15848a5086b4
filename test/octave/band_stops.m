% Notches given as rows of [centre, width in Hz]: the signal package's band-stop of first order between the two -3 dB points,
% which lie the width apart and whose stop band, pre-warped, has its centre where the notch has it.
function s = band_stops (stages, rate)
  s = struct ("num", {}, "den", {});
  for k = 1:rows (stages)
    half = pi * stages(k,2) / rate;
    middle = acos (cos (2 * pi * stages(k,1) / rate) * cos (half));
    [s(k).num, s(k).den] = butter (1, (middle + [-half, half]) / pi, "stop");
  endfor
endfunction
