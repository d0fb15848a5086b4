// Part of the build: the script of the report as one file, from the same sources the command line is built from.
import { rolldown } from "rolldown";

// The copied functions of base/ ask that their notice goes with every copy.
const NOTICE = `/*! Gainscape, MIT licence. Elementary functions after fdlibm: Copyright (C) 1993-2004 by Sun Microsystems, Inc.
All rights reserved. Permission to use, copy, modify, and distribute this software is freely granted, provided that this
notice is preserved. */`;

const bundle = await rolldown({ input: "src/page/main.ts", platform: "browser", tsconfig: "src/page/tsconfig.json" });
await bundle.write({ file: "dist/page/script.js", format: "iife", minify: true, banner: NOTICE });
await bundle.close();
