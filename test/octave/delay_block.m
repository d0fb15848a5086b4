% Three commands as they act: those of `steps` periods ago, which act first, and those of one period later, which follow.
function s = delay_block (steps)
  s = block (zeros (0), zeros (0, 3), zeros (3, 0), eye (3));
  for k = 2:steps
    s = series_of (s, block (zeros (3), eye (3), eye (3), zeros (3)));
  endfor
  if (steps == 0)
    s = series_of (s, block (zeros (0), zeros (0, 3), zeros (6, 0), [eye(3); eye(3)]));
  else
    s = series_of (s, block (zeros (3), eye (3), [eye(3); zeros(3)], [zeros(3); eye(3)]));
  endif
endfunction
