% Rates against delayed commands at points z: 3 x 3 x points. The younger of two commands is a period less late.
function G = plant_response (plant, delay, z)
  one = eye (rows (plant.a));
  G = zeros (3, 3, numel (z));
  for n = 1:numel (z)
    both = plant.b(:,1:3) + plant.b(:,4:6) * z(n);
    G(:,:,n) = plant.c * ((z(n) * one - plant.a) \ both) * z(n) ^ -delay;
  endfor
endfunction
