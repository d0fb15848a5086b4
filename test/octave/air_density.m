% Density of the International Standard Atmosphere (ISO 2533) at a pressure altitude (geopotential, m), kg/m^3; another
% temperature (K) than the standard day's may be given, [] for none.
function rho = air_density (altitude, temperature)
  g = 9.80665; gas = 287.05287; lapse = 0.0065; t0 = 288.15;
  t = t0 - lapse * altitude;
  pressure = 101325 * (t / t0) ^ (g / (gas * lapse));
  if (isempty (temperature)) temperature = t; endif
  rho = pressure / (gas * temperature);
endfunction
