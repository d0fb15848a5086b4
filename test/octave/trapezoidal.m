% One sample through moving stages, by the trapezoidal rule: the same states go on under whatever the stages have become.
function [y, states] = trapezoidal (stages, states, y)
  for k = 1:numel (stages)
    f = stages{k};
    if (isempty (states)) || (numel (states) < k) states{k} = zeros (rows (f.A), 1); endif
    middle = (eye (rows (f.A)) - f.place * f.A) \ (states{k} + f.place * f.B * y);
    states{k} = 2 * middle - states{k};
    y = f.C * middle + f.D * y;
  endfor
endfunction
