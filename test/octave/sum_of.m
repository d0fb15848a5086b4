% Systems fed alike, outputs added.
function s = sum_of (varargin)
  all = block_diagonal (varargin{:});
  n = numel (varargin);
  s = block (all.a, all.b * ones (n, 1), ones (1, n) * all.c, ones (1, n) * all.d * ones (n, 1));
endfunction
