% A whole trial: sampled controller, mixer with its limits, delay line and saturation, and between two samples the
% equations of motion by lsode. Rates of the axis under test at each sampling instant.
function trace = nonlinear_trial (m)
  b = body_of (m); c = b.controller; T = 1 / c.rate; n = b.n;
  set = gains_of (c.gains);
  [x, u, given, volts] = steady (b, m.throttle(1));
  [num, den] = deal (1, [1 0]); pack = 0;
  if (! isempty (c.nominal))
    [num, den] = butter (1, c.cutoff / (c.rate / 2));
    [~, pack] = filter (num, den, volts * ones (1, 2), (1 - num(1)) * volts);
  endif
  at = @(line, t) interp1 ([-1; line(:,1); 1e3], [line(1,2); line(:,2); line(end,2)], t);
  % Integral shares start at the trim.
  share = (b.mixer \ (given - m.throttle(1)))';
  line = repmat (u, 1, c.delay);
  gyro = at_rest (c.sensor); slope = at_rest (c.derivative);
  level = max (c.idleCommand, min (1, at (m.level, (0:m.steps-1) * T)));
  speed = zeros (m.steps, 1);
  if (numel (c.sensorTracking) + numel (c.derivativeTracking) > 0)
    speed = followed_speed (b, level, mean (x(1:n)));
  endif
  gyroMoving = cell (1, 3); slopeMoving = cell (1, 3);
  before = zeros (1, 3); scale = 1; asked = at_rest (c.command); last = zeros (1, 3);
  lsode_options ("integration method", "non-stiff");
  lsode_options ("relative tolerance", 1e-9); lsode_options ("absolute tolerance", 1e-9);
  trace = zeros (m.steps, 1);
  for k = 1:m.steps
    t = (k - 1) * T;
    g = scheduled (set, c.gainSchedule, level(k));
    ofGyro = moving_stages (c.sensorSchedule, c.sensorTracking, level(k), speed(k), c.rate);
    ofSlope = moving_stages (c.derivativeSchedule, c.derivativeTracking, level(k), speed(k), c.rate);
    trace(k) = x(n + m.axis);
    wanted = zeros (1, 3); wanted(m.axis) = at (m.command, t);
    for axis = 1:3
      [wanted(axis), asked] = filtered (asked, axis, wanted(axis));
    endfor
    ahead = c.feedForward(:,1)' .* wanted + c.feedForward(:,2)' .* (wanted - last) * c.rate;
    last = wanted;
    demand = zeros (1, 3);
    for axis = 1:3
      [y, gyro] = filtered (gyro, axis, x(n + axis));
      [y, gyroMoving{axis}] = trapezoidal (ofGyro, gyroMoving{axis}, y);
      miss = wanted(axis) - y;
      if (scale == 1) share(axis) += g(axis).i * T * miss; endif
      share(axis) = max (-c.integralLimit, min (c.integralLimit, share(axis)));
      [d, slope] = filtered (slope, axis, (y - before(axis)) * c.rate);
      [d, slopeMoving{axis}] = trapezoidal (ofSlope, slopeMoving{axis}, d);
      before(axis) = y;
      demand(axis) = g(axis).p * miss + share(axis) - g(axis).d * d + ahead(axis);
    endfor
    [commanded, scale] = mixed (b, demand, at (m.level, t));
    smooth = volts;
    if (! isempty (c.nominal)) [smooth, pack] = filter (num, den, volts, pack); endif
    asked_of = duties (c, commanded, smooth);
    if (c.shapes) asked_of = max (c.idle, min (1, asked_of)); endif
    line = [asked_of, line];
    climb = at (m.climb, t); gust = [0 0];
    if (! isempty (m.gust))
      s = m.gust.speed * (t - m.gust.at);
      if (s >= 0 && s <= m.gust.length)
        climb -= m.gust.peak / 2 * (1 - cos (2 * pi * s / m.gust.length));
        gust(m.axis) = pi * m.gust.peak / m.gust.length * sin (2 * pi * s / m.gust.length);
      endif
    endif
    % The oldest command acts, and at the end of the period, where the latency is no whole number of them, the next one.
    x = moved (b, x, line(:,end), climb, gust, (1 - c.younger) * T);
    if (c.younger > 0)
      x = moved (b, x, line(:,end-1), climb, gust, c.younger * T);
    endif
    volts = pack_volts (b, x(1:n), line(:,end - (c.younger > 0)));
    line(:,end) = [];
  endfor
endfunction

function x = moved (b, x, duties, climb, gust, seconds)
  path = lsode (@(v, tau) motion (b, v, duties, climb, gust), x, [0 seconds]);
  x = path(end,:)';
endfunction

% Roll and pitch first, scaled together to the span of the duties; yaw takes what is left; then the collective gives way.
function [duties, scale] = mixed (b, demand, level)
  idle = b.controller.idleCommand; span = 1 - idle;
  turn = b.mixer(:,1:2) * demand(1:2)';
  scale = min (1, span / (max (turn) - min (turn)));
  turn *= scale;
  room = (span - (max (turn) - min (turn))) / (max (b.mixer(:,3)) - min (b.mixer(:,3)));
  turn += b.mixer(:,3) * max (-room, min (room, demand(3)));
  duties = turn + max (idle - min (turn), min (1 - max (turn), level));
endfunction

function s = at_rest (s)
  for k = 1:numel (s)
    s(k).memory = zeros (numel (s(k).den) - 1, 3);
  endfor
endfunction

function [y, s] = filtered (s, axis, y)
  for k = 1:numel (s)
    [y, s(k).memory(:,axis)] = filter (s(k).num, s(k).den, y, s(k).memory(:,axis));
  endfor
endfunction
