% Low-pass stages given as rows of [order, cutoff in Hz], as the signal package designs them at a sampling rate.
function s = butterworths (stages, rate)
  s = struct ("num", {}, "den", {});
  for k = 1:rows (stages)
    [s(k).num, s(k).den] = butter (stages(k,1), stages(k,2) / (rate / 2));
  endfor
endfunction
