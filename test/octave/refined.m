% Roots of a real function of frequency between grid points that differ in sign.
function w = refined (f, grid, values)
  persistent close = optimset ("TolX", 1e-15);
  w = [];
  for k = find (values(1:end-1) .* values(2:end) < 0)
    w(end+1) = fzero (f, grid(k:k+1), close);
  endfor
endfunction
