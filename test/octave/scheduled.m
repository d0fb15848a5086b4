% Gains of the three axes at a throttle: the rows of a schedule are throttle and factors of P, I and D, flat outside.
function g = scheduled (g, rows_, throttle)
  if (isempty (rows_)) return; endif
  line = [-1, rows_(1,2:4); rows_; 1e3, rows_(end,2:4)];
  line(1,1) = min (-1, rows_(1,1) - 1);
  f = interp1 (line(:,1), line(:,2:4), throttle);
  for axis = 1:numel (g)
    g(axis).p *= f(1); g(axis).i *= f(2); g(axis).d *= f(3);
  endfor
endfunction
