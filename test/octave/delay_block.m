% Whole periods of delay for three commands.
function s = delay_block (steps)
  s = block (zeros (0), zeros (0, 3), zeros (3, 0), eye (3));
  for k = 1:steps
    s = series_of (s, block (zeros (3), eye (3), eye (3), zeros (3)));
  endfor
endfunction
