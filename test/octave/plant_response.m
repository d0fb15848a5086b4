% Rates against delayed commands at points z: 3 x 3 x points.
function G = plant_response (plant, delay, z)
  one = eye (rows (plant.a));
  G = zeros (3, 3, numel (z));
  for n = 1:numel (z)
    G(:,:,n) = plant.c * ((z(n) * one - plant.a) \ plant.b) * z(n) ^ -delay;
  endfor
endfunction
