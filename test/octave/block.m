% A linear system x+ = a x + b u, y = c x + d u, as a plain structure: quicker to compose than an object.
function s = block (a, b, c, d)
  s.a = a; s.b = b; s.c = c; s.d = d;
endfunction
