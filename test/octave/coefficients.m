% A stage of the signal package, a Butterworth low-pass or a band-stop: numerator and denominator in falling powers of z.
function r = coefficients (f)
  if (isfield (f, "centre"))
    stage = band_stops ([f.centre, f.width], f.rate);
    r = struct ("num", stage.num, "den", stage.den);
  else
    [r.num, r.den] = butter (f.order, f.cutoff / (f.rate / 2));
  endif
endfunction
