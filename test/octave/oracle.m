% Answers one file of questions with another: poles, margins, filter coefficients, step responses and flights, by
% Octave's own packages and by equations written here from the physics, not from the program under test.
1;
warning ("off", "all");
pkg load control signal
words = argv ();
asked = jsondecode (fileread (words{end-1}));
each = @(f, list) arrayfun (@(k) f (list(k)), (1:numel (list))', "UniformOutput", false);
answer.loops = each (@judged_loop, asked.loops);
answer.filters = each (@coefficients, asked.filters);
answer.steps = each (@step_response, asked.steps);
answer.trials = each (@nonlinear_trial, asked.trials);
answer.flights = each (@open_flight, asked.flights);
file = fopen (words{end}, "w");
fputs (file, jsonencode (answer));
fclose (file);
