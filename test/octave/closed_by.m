% A plant without direct feedthrough closed by a controller on its outputs, negative feedback.
function s = closed_by (plant, k)
  s = block ([plant.a - plant.b * k.d * plant.c, -plant.b * k.c; k.b * plant.c, k.a],
             [plant.b; zeros(rows (k.a), columns (plant.b))], [plant.c, zeros(rows (plant.c), rows (k.a))], plant.d);
endfunction
