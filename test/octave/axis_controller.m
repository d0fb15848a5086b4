% Rate error to command of one axis. P acts on the filtered rate, I sums it with this period included, D takes its
% difference through a chain of its own. Forward: what a commanded rate makes, its low-pass and what is fed forward included.
function [k, forward] = axis_controller (c, gains, axis)
  T = 1 / c.rate;
  gain = @(g) block (zeros (0), zeros (0, 1), zeros (1, 0), g);
  summed = filter_block (gains.i * T * [1 0], [1 -1]);
  difference = filter_block (gains.d * c.rate * [1 -1], [1 0]);
  gyro = chain_block (c.sensor);
  slope = series_of (difference, chain_block (c.derivative));
  k = series_of (gyro, sum_of (gain (gains.p), summed, slope));
  ahead = sum_of (gain (c.feedForward(axis,1)), filter_block (c.feedForward(axis,2) * c.rate * [1 -1], [1 0]));
  forward = series_of (chain_block (c.command), sum_of (gain (gains.p), filter_block (gains.i * T * [1 0], [1 -1]), ahead));
endfunction
