% The loop of one axis broken at its command while the other two are closed, at points z, from the plant's response G there.
function h = open_loop (G, c, g, axis, z)
  others = [2 3; 1 3; 1 2](axis,:);
  controllers = [controller_response(c, g(others(1)), z); controller_response(c, g(others(2)), z)];
  h = controller_response (c, g(axis), z);
  for n = 1:numel (z)
    K = diag (controllers(:,n));
    P = G(:,:,n);
    h(n) *= P(axis,axis) - P(axis,others) * K * ((eye (2) + P(others,others) * K) \ P(others,axis));
  endfor
endfunction
