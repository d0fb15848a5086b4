% Duty per command of each rotor, the voltage steady: exact on the straight pieces of a table.
function s = duty_slopes (c, commands, volts)
  h = 1e-7;
  s = (duties (c, commands + h, volts) - duties (c, commands - h, volts)) / (2 * h);
endfunction
