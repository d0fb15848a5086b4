% A trial without control under standing commands, segment by segment, by ode45: states at the end of each.
function ends = open_loop_trial (m)
  b = body_of (m);
  x = steady (b, m.throttle);
  u = @(level) level + b.mixer * m.commands(:);
  options = odeset ("RelTol", 1e-11, "AbsTol", 1e-11, "InitialStep", 1e-4);
  ends = zeros (numel (m.segments), numel (x));
  for k = 1:numel (m.segments)
    s = m.segments(k);
    [~, path] = ode45 (@(t, v) motion (b, v, u (s.throttle), s.climb, s.gust), [0, s.seconds], x, options);
    x = path(end,:)';
    ends(k,:) = x';
  endfor
endfunction
