% Worst gain margins up and down (dB) and phase margin (degrees) of an open loop given as a function of frequency
% (rad per sample); Inf where there is none. `atEnd` is its real value at half the sampling rate.
function m = margins_of (loop, grid, atEnd)
  h = loop (grid);
  across = refined (@(w) imag (loop (w)), grid, imag (h));
  levels = [real(loop (across)), atEnd];
  levels = 20 * log10 (-levels(levels < 0));
  m.up = min ([-levels(levels <= 0), Inf]);
  m.down = min ([levels(levels > 0), Inf]);
  around = refined (@(w) abs (loop (w)) - 1, grid, abs (h) - 1);
  m.phase = min ([abs(arg (-loop (around))) * 180 / pi, Inf]);
endfunction
