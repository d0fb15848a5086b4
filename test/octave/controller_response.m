% Rate error to command of one axis at points z, from the filters' polynomials.
function k = controller_response (c, gains, z)
  k = (gains.p + gains.i / c.rate ./ (1 - 1 ./ z) + gains.d * c.rate * (1 - 1 ./ z) .* through (c.derivative, z)) ...
      .* through (c.sensor, z);
endfunction

function h = through (stages, z)
  h = ones (size (z));
  for n = 1:numel (stages)
    degrees = numel (stages(n).den) - 1:-1:0;
    powers = z .^ (degrees(:));
    h .*= (stages(n).num * powers) ./ (stages(n).den * powers);
  endfor
endfunction
