% A Butterworth low-pass of the signal package: numerator and denominator in falling powers of z.
function r = coefficients (f)
  [r.num, r.den] = butter (f.order, f.cutoff / (f.rate / 2));
endfunction
