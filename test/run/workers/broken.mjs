// A worker that does not even load.
throw new Error("broken at load");
