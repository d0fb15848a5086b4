% Worst gain margins up and down (dB) and phase margin (degrees) of an open loop: its values h on a grid of frequencies
% (rad per sample), a function for frequencies between them, and its real value at half the sampling rate. Inf: no such limit.
function m = margins_of (loop, grid, h, atEnd)
  across = refined (@(w) imag (loop (w)), grid, imag (h));
  levels = [arrayfun(@(w) real (loop (w)), across), atEnd];
  levels = 20 * log10 (-levels(levels < 0));
  m.up = min ([-levels(levels <= 0), Inf]);
  m.down = min ([levels(levels > 0), Inf]);
  around = refined (@(w) abs (loop (w)) - 1, grid, abs (h) - 1);
  m.phase = min ([arrayfun(@(w) abs (arg (-loop (w))), around) * 180 / pi, Inf]);
endfunction
