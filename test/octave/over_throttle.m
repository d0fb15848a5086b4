% A table over throttle, rows of [throttle, value]: straight lines between them, flat outside.
function v = over_throttle (rows_, throttle)
  v = interp1 ([min(-1, rows_(1,1) - 1); rows_(:,1); 1e3], [rows_(1,2); rows_(:,2); rows_(end,2)], throttle);
endfunction
