% First, then second.
function s = series_of (first, second)
  s = block ([first.a, zeros(rows (first.a), rows (second.a)); second.b * first.c, second.a],
             [first.b; second.b * first.d], [second.d * first.c, second.c], second.d * first.d);
endfunction
