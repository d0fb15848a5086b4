% Moving filters at a throttle and a rotor speed as continuous stages whose time is scaled by the pre-warped place:
% dx/dt = place (A x + B u), y = C x + D u.
function stages = moving_stages (schedules, tracking, throttle, speed, rate)
  stages = {};
  for k = 1:numel (schedules)
    f.place = tan (pi * over_throttle (schedules(k).corners, throttle) / rate);
    if (schedules(k).order == 1)
      f.A = -1; f.B = 1; f.C = 1; f.D = 0;
    else
      f.A = [-sqrt(2), -1; 1, 0]; f.B = [1; 0]; f.C = [0, 1]; f.D = 0;
    endif
    stages{end+1} = f;
  endfor
  for k = 1:numel (tracking)
    [centre, width] = notch_place (tracking(k), speed, rate);
    f.place = tan (pi * centre / rate);
    damping = tan (pi * width / rate) * (f.place + 1 / f.place);
    f.A = [-damping, -1; 1, 0]; f.B = [1; 0]; f.C = [-damping, 0]; f.D = 1;
    stages{end+1} = f;
  endfor
endfunction
