% Systems side by side, each with inputs and outputs of its own.
function s = block_diagonal (varargin)
  pick = @(key) cellfun (@(one) one.(key), varargin, "UniformOutput", false);
  s = block (blkdiag (pick ("a"){:}), blkdiag (pick ("b"){:}), blkdiag (pick ("c"){:}), blkdiag (pick ("d"){:}));
endfunction
