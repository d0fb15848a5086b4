% A transfer function in z (signal package's coefficients) as a system.
function s = filter_block (num, den)
  n = numel (den) - 1;
  a = zeros (n); a(1,:) = -den(2:end);
  if (n > 1) a(2:n,1:n-1) = eye (n - 1); endif
  s = block (a, eye (n, 1), num(2:end) - num(1) * den(2:end), num(1));
endfunction
