% Rate error to command of one axis. P acts on the filtered rate, I sums it with this period included, D takes its
% difference through a chain of its own.
function [k, forward] = axis_controller (c, gains)
  T = 1 / c.rate;
  gain = @(g) block (zeros (0), zeros (0, 1), zeros (1, 0), g);
  summed = filter_block (gains.i * T * [1 0], [1 -1]);
  difference = filter_block (gains.d * c.rate * [1 -1], [1 0]);
  gyro = chain_block (c.sensor);
  slope = series_of (difference, chain_block (c.derivative));
  k = series_of (gyro, sum_of (gain (gains.p), summed, slope));
  forward = sum_of (gain (gains.p), filter_block (gains.i * T * [1 0], [1 -1]));
endfunction
