% Gains of the three axes as structures; yaw has no D.
function g = gains_of (table)
  for axis = 1:3
    g(axis).p = table(axis,1); g(axis).i = table(axis,2); g(axis).d = table(axis,3);
  endfor
  g(3).d = 0;
endfunction
