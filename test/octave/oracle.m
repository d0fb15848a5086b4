% Answers one file of questions with another: poles, margins, filter coefficients, step responses and trials, by
% Octave's own packages and by equations written here from the physics, not from the program under test.
1;
warning ("off", "all");
% One that is ended leaves no workspace behind.
crash_dumps_octave_core (false);
sigterm_dumps_octave_core (false);
sighup_dumps_octave_core (false);
pkg load control signal
words = argv ();
questions = jsondecode (fileread (words{end-1}));
each = @(f, list) arrayfun (@(k) f (list(k)), (1:numel (list))', "UniformOutput", false);
answer.loops = each (@judged_loop, questions.loops);
answer.filters = each (@coefficients, questions.filters);
answer.notches = each (@coefficients, questions.notches);
answer.steps = each (@step_response, questions.steps);
answer.trials = each (@nonlinear_trial, questions.trials);
answer.openLoopTrials = each (@open_loop_trial, questions.openLoopTrials);
file = fopen (words{end}, "w");
fputs (file, jsonencode (answer));
fclose (file);
