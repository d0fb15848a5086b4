% Low-passes in series.
function s = chain_block (stages)
  s = block (zeros (0), zeros (0, 1), zeros (1, 0), 1);
  for k = 1:numel (stages)
    s = series_of (s, filter_block (stages(k).num, stages(k).den));
  endfor
endfunction
