% Jacobian of f at a point by a complex step: exact to rounding.
function J = slopes (f, at)
  J = zeros (numel (f (at)), numel (at));
  for k = 1:numel (at)
    moved = at; moved(k) += 1e-20i;
    J(:,k) = imag (f (moved)) / 1e-20;
  endfor
endfunction
