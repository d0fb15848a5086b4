% A controller whose moving filters stand where a throttle has them, behind the fixed ones of their chain, as the signal
% package designs them.
function c = standing_filters (b, throttle)
  c = b.controller;
  speed = 0;
  if (numel (c.sensorTracking) + numel (c.derivativeTracking) > 0)
    speed = mean (steady (b, throttle)(1:b.n));
  endif
  c.sensor = [c.sensor, standing(c.sensorSchedule, c.sensorTracking, throttle, speed, c.rate)];
  c.derivative = [c.derivative, standing(c.derivativeSchedule, c.derivativeTracking, throttle, speed, c.rate)];
endfunction

function s = standing (schedules, tracking, throttle, speed, rate)
  s = struct ("num", {}, "den", {});
  for k = 1:numel (schedules)
    s = [s, butterworths([schedules(k).order, over_throttle(schedules(k).corners, throttle)], rate)];
  endfor
  for k = 1:numel (tracking)
    [centre, width] = notch_place (tracking(k), speed, rate);
    s = [s, band_stops([centre, width], rate)];
  endfor
endfunction
