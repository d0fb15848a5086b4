% Duties of rotor commands under a voltage of the pack: a table of [command, duty], then nominal over that voltage, then the
% limits. Lines go on beyond the table. A voltage may be complex, commands are real.
function u = duties (c, commands, volts)
  u = commands;
  if (! isempty (c.dutyTable))
    u = interp1 (c.dutyTable(:,1), c.dutyTable(:,2), commands, "linear", "extrap");
  endif
  if (! isempty (c.nominal)) u = u * c.nominal / volts; endif
endfunction
